"""Many runs in a process of their own, and the smallest files that fail alike."""

from __future__ import annotations

import multiprocessing
import resource
import sys
from collections.abc import Callable
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

from tests.fuzz.spoil import LIBRARY, Files, spoiled
from tests.fuzz.through import MOST_SECONDS, run

MOST_BYTES = 2_000_000_000


def where(said: str) -> str:
    """A failure's kind: its last line's first word and the line of ours that it came from."""
    ours = [line.strip() for line in said.splitlines() if "/scopegen/" in line]
    return f"{said.strip().splitlines()[-1].split(':')[0]} at {ours[-1] if ours else ''}"


def smaller(files: Files, name: str, fails: Callable[[Files], bool]) -> Files:
    """The files with as little as possible of the spoiled one, by halves, then line by line."""
    lines = files[name].splitlines(keepends=True)
    size = len(lines) // 2
    while size:
        at = 0
        while at < len(lines):
            fewer = [*lines[:at], *lines[at + size :]]
            if fails({**files, name: b"".join(fewer)}):
                lines = fewer
            else:
                at += size
        size //= 2
    return {**files, name: b"".join(lines)}


def _read_the_library_once() -> None:
    """Files that ship do not change between runs."""
    from scopegen.clauses import library

    read, known = library._read, dict[Path, Any]()

    def once(file: Any) -> Any:
        if not file.path.is_relative_to(LIBRARY):
            return read(file)
        if file.path not in known:
            known[file.path] = read(file)
        return known[file.path]

    library._read = once  # type: ignore[assignment]


def work(pipe: Connection) -> None:
    """A worker: seeds in, outcomes out."""
    resource.setrlimit(resource.RLIMIT_AS, (MOST_BYTES, MOST_BYTES))
    _read_the_library_once()
    while (asked := pipe.recv()) is not None:
        pipe.send(run(*asked))


class Worker:
    """A process that does the runs; killed and begun anew where it no longer answers."""

    def __init__(self) -> None:
        self.start()

    def start(self) -> None:
        self.pipe, theirs = multiprocessing.Pipe()
        self.process = multiprocessing.Process(target=work, args=(theirs,), daemon=True)
        self.process.start()
        theirs.close()

    def run(self, seed: str, files: Files | None = None) -> tuple[str, str]:
        try:
            self.pipe.send((seed, files))
            if self.pipe.poll(12 * MOST_SECONDS):
                return self.pipe.recv()
            said = "Hang: no answer"
        except (EOFError, OSError):
            said = "Died: the process ended"
        self.process.kill()
        self.process.join()
        self.start()
        return "failed", said

    def end(self) -> None:
        self.pipe.send(None)
        self.process.join(5)


def fuzz(
    runs: int, seed: int, keep: Path | None = None, first: int = 0
) -> tuple[dict[str, int], dict[str, str]]:
    """Does the runs; how many ended how, and of each kind of failure the first seed with its traceback."""
    worker, ended, failures = Worker(), dict[str, int](), dict[str, str]()
    for number in range(first, first + runs):
        name = f"{seed}:{number}"
        came, said = worker.run(name)
        ended[came] = ended.get(came, 0) + 1
        if came == "failed" and where(said) not in failures:
            failures[where(said)] = f"{name}\n{said}"
            print(f"{name}: {where(said)}", file=sys.stderr, flush=True)
            if keep:
                _keep(keep, worker, name, said)
        if number % 1000 == 999:
            print(number + 1, ended, file=sys.stderr, flush=True)
    worker.end()
    return ended, failures


def _keep(folder: Path, worker: Worker, seed: str, said: str) -> None:
    """Saves the smallest files that fail alike, and the traceback."""
    files, name = spoiled(seed)
    kind = where(said)
    if not kind.startswith(("Hang", "Died", "TimeoutError")):
        files = smaller(files, name, lambda fewer: where(worker.run(seed, fewer)[1] or "-") == kind)
    for each, raw in files.items():
        path = folder / seed.replace(":", "-") / each
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(raw)
    (folder / seed.replace(":", "-") / "failure.txt").write_text(f"{seed} {name}\n{said}", encoding="utf-8")
