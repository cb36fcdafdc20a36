"""Runs of several programs by turns, so that whatever else the machine does meets all of them alike."""

from __future__ import annotations

import subprocess
import sys
import tempfile
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

MEBIBYTE = 1024  # of the kibibytes in which Linux tells ru_maxrss; macOS tells bytes
# A process counts the memory of the one that it was split off from, so a small one starts what is measured.
RUN = """
import os, sys, time
start = time.perf_counter()
pid = os.posix_spawnp(sys.argv[2], sys.argv[2:], os.environ)
_, status, usage = os.wait4(pid, 0)
seconds = time.perf_counter() - start
with open(sys.argv[1], "w") as told:
    code = os.waitstatus_to_exitcode(status)
    print(seconds, usage.ru_utime + usage.ru_stime, usage.ru_maxrss, code, file=told)
"""


@dataclass(frozen=True)
class Subject:
    """What is measured: a row's name and the commands that are run one after the other."""

    name: str
    commands: Sequence[Sequence[str]]
    before: Callable[[], None] = lambda: None


@dataclass(frozen=True)
class Measured:
    """The medians of the time by the clock in s, of the processors' time in s, and of the memory of the
    largest process in MiB."""

    seconds: float
    processor: float
    memory: float


def by_turns(
    subjects: Sequence[Subject], runs: int, folder: Path, environment: dict[str, str], *, cold: bool = False
) -> dict[str, Measured]:
    """Each subject so many times, by turns; a turn before them, which warms up, is not counted, and is left
    out where they are to run `cold`."""
    seen: dict[str, list[tuple[float, float, float]]] = {}
    for turn in range(1 if cold else 0, runs + 1):
        if turn <= 1:
            seen = {subject.name: [] for subject in subjects}
        for subject in subjects:
            subject.before()
            used = [_run(command, folder, environment) for command in subject.commands]
            seconds, processor, memory = zip(*used, strict=True)
            seen[subject.name].append((sum(seconds), sum(processor), max(memory)))
    return {name: Measured(*map(median, zip(*found, strict=True))) for name, found in seen.items()}


def _run(command: Sequence[str], folder: Path, environment: dict[str, str]) -> tuple[float, float, float]:
    """Runs a command to its end; the time in s by the clock and of the processors, and the memory of the
    largest of its processes in MiB (getrusage(2): ru_utime, ru_stime, ru_maxrss)."""
    with tempfile.TemporaryDirectory() as beside:
        told = Path(beside, "told")
        run = [sys.executable, "-IS", "-c", RUN, str(told), *command]
        ended = subprocess.run(run, cwd=folder, env=environment, capture_output=True, text=True)
        seconds, processor, memory, status = map(float, told.read_text().split())
    if status:
        raise RuntimeError(f"{' '.join(command)} ended with {status:.0f}:\n{ended.stdout}{ended.stderr}")
    return seconds, processor, memory / (MEBIBYTE if sys.platform != "darwin" else MEBIBYTE**2)
