"""Spoils the contractor's files in every way that we can think of, and looks for what breaks.

    python -m tests.fuzz --runs 20000 --seed 1

Each run spoils one file of an example and takes it the whole way, in a process of its own with a limit on
memory and time. A traceback, a hang, or a paper that cannot be drawn although nothing stops it, is
a failure: the spoiled file is made as small as it still fails, and saved with its seed.
"""
