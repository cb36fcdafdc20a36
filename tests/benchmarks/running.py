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
    """The median of the wall time in s, and of the memory of the largest process in MiB."""

    seconds: float
    memory: float


def by_turns(
    subjects: Sequence[Subject], runs: int, folder: Path, environment: dict[str, str]
) -> dict[str, Measured]:
    """Each subject so many times, by turns."""
    seen: dict[str, list[tuple[float, float]]] = {subject.name: [] for subject in subjects}
    for _ in range(runs):
        for subject in subjects:
            subject.before()
            start = time.perf_counter()
            memory = max(_run(command, folder, environment) for command in subject.commands)
            seen[subject.name].append((time.perf_counter() - start, memory))
    return {
        name: Measured(median(each[0] for each in found), median(each[1] for each in found))
        for name, found in seen.items()
    }


def _run(command: Sequence[str], folder: Path, environment: dict[str, str]) -> float:
    """Runs a command to its end; the memory of its largest process in MiB (getrusage(2), ru_maxrss)."""
    with tempfile.TemporaryFile() as said:
        process = subprocess.Popen(command, cwd=folder, env=environment, stdout=said, stderr=said)
        _, status, usage = os.wait4(process.pid, 0)
        process.returncode = os.waitstatus_to_exitcode(status)
        if process.returncode:
            said.seek(0)
            text = said.read().decode("utf-8", "replace")
            raise RuntimeError(f"{' '.join(command)} ended with {process.returncode}:\n{text}")
    return usage.ru_maxrss / (MEBIBYTE if sys.platform != "darwin" else MEBIBYTE**2)
