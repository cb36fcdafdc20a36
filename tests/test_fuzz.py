"""Some hundred spoiled files, the same ones each time: a small run of `python -m tests.fuzz`."""

from __future__ import annotations

from pathlib import Path

from tests.fuzz.runs import fuzz, smaller
from tests.fuzz.spoil import JOB, spoiled


def test_spoiled_files_break_nothing() -> None:
    """No traceback, no hang, no paper that cannot be drawn; and the runs reach every end there is."""
    ended, failures = fuzz(runs=150, seed=7)
    assert failures == {}
    assert sum(ended.values()) == 150
    assert {"unreadable", "stopped", "draft", "written"} <= ended.keys()


def test_same_seed_spoils_alike() -> None:
    """So that a failure can be looked at again."""
    assert spoiled("7:3") == spoiled("7:3")
    assert spoiled("7:3") != spoiled("7:4")


def test_failure_is_made_small() -> None:
    """Of a long file the one line is left that fails."""
    files = {JOB: b"a\nb\nc\nbad\nd\ne\n", "company.yaml": Path(__file__).read_bytes()}
    assert smaller(files, JOB, lambda fewer: b"bad" in fewer[JOB])[JOB] == b"bad\n"
