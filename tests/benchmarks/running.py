"""Runs of several programs by turns, so that whatever else the machine does meets all of them alike."""

from __future__ import annotations

import os
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median

MEBIBYTE = 1024  # of the kibibytes in which Linux tells ru_maxrss; macOS tells bytes


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
    subjects: Sequence[Subject], runs: int, folder: Path, environment: dict[str, str]
) -> dict[str, Measured]:
    """Each subject so many times, by turns; a turn before them, which warms up, is not counted."""
    seen: dict[str, list[tuple[float, float, float]]] = {}
    for turn in range(runs + 1):
        if turn <= 1:
            seen = {subject.name: [] for subject in subjects}
        for subject in subjects:
            subject.before()
            start = time.perf_counter()
            used = [_run(command, folder, environment) for command in subject.commands]
            seconds = time.perf_counter() - start
            processor, memory = sum(each[0] for each in used), max(each[1] for each in used)
            seen[subject.name].append((seconds, processor, memory))
    return {name: Measured(*map(median, zip(*found, strict=True))) for name, found in seen.items()}


def _run(command: Sequence[str], folder: Path, environment: dict[str, str]) -> tuple[float, float]:
    """Runs a command to its end; the processors' time in s and the memory of its largest process in MiB, its
    own processes among them (getrusage(2): ru_utime, ru_stime, ru_maxrss)."""
    with tempfile.TemporaryFile() as said:
        process = subprocess.Popen(command, cwd=folder, env=environment, stdout=said, stderr=said)
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            said.seek(0)
            text = said.read().decode("utf-8", "replace")
            raise RuntimeError(f"{' '.join(command)} ended with {process.returncode}:\n{text}")
    memory = usage.ru_maxrss / (MEBIBYTE if sys.platform != "darwin" else MEBIBYTE**2)
    return usage.ru_utime + usage.ru_stime, memory
