"""The program as a process of its own: through pipes, or on a terminal."""

from __future__ import annotations

import os
import pty
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from pathlib import Path

ROOT = Path(__file__).parents[2]
PROGRAM = (sys.executable, "-m", "scopegen")
LONG = 90  # seconds that a loaded machine may take for anything here


def environment(**more: str) -> dict[str, str]:
    """The caller's, without what says how to print; the program of this checkout."""
    telling = ("NO_COLOR", "FORCE_COLOR", "COLUMNS", "LINES", "TERM", "CLICOLOR", "TTY_COMPATIBLE")
    kept = {name: value for name, value in os.environ.items() if name not in telling}
    return {**kept, "PYTHONPATH": str(ROOT), "TERM": "xterm-256color", **more}


def piped(*words: str, folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """One run through pipes."""
    return subprocess.run(
        [*PROGRAM, *words], cwd=folder, env=environment(**more), capture_output=True, text=True, timeout=LONG
    )


@dataclass(frozen=True)
class OnTerminal:
    """What a run showed on a terminal, and its exit code."""

    shown: str
    code: int


def on_terminal(*words: str, folder: Path, columns: int = 80, **more: str) -> OnTerminal:
    """One run with the output and the error output on one terminal."""
    ours, theirs = pty.openpty()
    process = subprocess.Popen(
        [*PROGRAM, *words],
        cwd=folder,
        env=environment(COLUMNS=str(columns), **more),
        stdin=theirs,
        stdout=theirs,
        stderr=theirs,
    )
    os.close(theirs)
    read = bytearray()
    while True:
        try:
            piece = os.read(ours, 65536)
        except OSError:  # how Linux says that the other end is closed
            break
        if not piece:
            break
        read += piece
    os.close(ours)
    return OnTerminal(read.decode().replace("\r\n", "\n"), process.wait(LONG))


class Running:
    """A run that goes on: its lines so far, those of the error output among them."""

    def __init__(self, process: subprocess.Popen[str], log: Path) -> None:
        self.process, self.log = process, log

    @property
    def said(self) -> str:
        return self.log.read_text(encoding="utf-8")

    def until(self, is_so: Callable[[], bool], what: str) -> None:
        """Waits until something is so; fails with what was said where it does not come to be."""
        end = time.monotonic() + LONG
        while not is_so():
            ended = self.process.poll()
            assert ended is None or is_so(), f"ended with {ended} before {what}:\n{self.said}"
            assert time.monotonic() < end, f"not within {LONG} s: {what}\n{self.said}"
            time.sleep(0.05)

    def until_said(self, text: str, times: int = 1) -> None:
        """Waits until a text was said so many times."""
        self.until(lambda: self.said.count(text) >= times, f"{text!r}, {times} times")

    def interrupted(self) -> int:
        """The exit code after Ctrl-C, which reaches every process of the run."""
        os.killpg(self.process.pid, signal.SIGINT)
        return self.process.wait(LONG)


@contextmanager
def running(*words: str, folder: Path, log: Path) -> Iterator[Running]:
    """A run in a group of processes of its own, ended with the block."""
    with log.open("w") as file:
        process = subprocess.Popen(
            [*PROGRAM, *words],
            cwd=folder,
            env=environment(PYTHONUNBUFFERED="1"),
            stdout=file,
            stderr=file,
            text=True,
            start_new_session=True,
        )
    try:
        yield Running(process, log)
    finally:
        with suppress(ProcessLookupError):  # it has ended by itself
            os.killpg(process.pid, signal.SIGKILL)
        process.wait(LONG)


def children_of(process: int) -> list[int]:
    """The processes that a process started (proc(5), task/[tid]/children), but the one that keeps track of
    shared memory."""
    found = Path(f"/proc/{process}/task/{process}/children").read_text().split()
    return [int(child) for child in found if "spawn_main" in Path(f"/proc/{child}/cmdline").read_text()]
