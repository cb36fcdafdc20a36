"""Runs commands of scopegen, each in a process of its own with little memory, time and rights.

    echo '[[["check", "job.yaml"], 0]]' | python -m tests.hostile.bounded

A command is its words, and how large a file may grow (0: as large as it likes). The first one is run without
limits, so that everything is imported and the limits hold for the reading alone. Prints the outcomes as JSON.
"""

from __future__ import annotations

import ctypes
import json
import os
import resource
import signal
import struct
import subprocess
import sys
import time
import traceback
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from scopegen.cli.commands import scopegen

MEMORY = 200_000_000  # bytes beyond what the imports take
SECONDS = 10  # of computing; two are meant
WAITING = 120  # seconds on the clock, for a machine that does other things as well
_OVERRIDE, _SEARCH = 1, 2  # CAP_DAC_OVERRIDE, CAP_DAC_READ_SEARCH of capabilities(7)


def without_rights_beyond_its_own() -> None:
    """From here on a file without permission cannot be read, by root neither (capset(2))."""
    libc = ctypes.CDLL(None, use_errno=True)
    header = ctypes.create_string_buffer(struct.pack("Ii", 0x20080522, 0))
    data = ctypes.create_string_buffer(24)
    assert libc.capget(header, data) == 0
    rights = list(struct.unpack("6I", data.raw))
    rights[0] &= ~(1 << _OVERRIDE | 1 << _SEARCH)
    assert libc.capset(header, ctypes.create_string_buffer(struct.pack("6I", *rights))) == 0


def in_bounds(words: list[str], largest: int) -> dict[str, Any]:
    """What a command says in a process of its own; how it died where it did."""
    ours, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(ours)
        size = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
        resource.setrlimit(resource.RLIMIT_AS, (size + MEMORY, size + MEMORY))
        if largest:
            resource.setrlimit(resource.RLIMIT_FSIZE, (largest, largest))
        signal.setitimer(signal.ITIMER_PROF, SECONDS)
        signal.alarm(WAITING)
        without_rights_beyond_its_own()
        said = json.dumps(run(words))
        with os.fdopen(theirs, "w") as pipe:
            pipe.write(said)
        os._exit(0)
    os.close(theirs)
    with os.fdopen(ours) as pipe:
        said = pipe.read()
    _, status = os.waitpid(child, 0)
    return json.loads(said) if said else {"code": -1, "out": f"killed by signal {status & 127}"}


def run(words: list[str]) -> dict[str, Any]:
    """A command as a user types it, and the seconds of computing that it took."""
    start = time.process_time()
    result = CliRunner().invoke(scopegen, words)
    broke = result.exception if not isinstance(result.exception, SystemExit) else None
    said = "".join(traceback.format_exception(broke)) if broke else ""
    return {"code": result.exit_code, "out": result.output + said, "seconds": time.process_time() - start}


def bounded(*commands: tuple[list[str], int]) -> list[dict[str, Any]]:
    """What each command says, the first one without limits. Called by tests, which have threads, that no
    process should be forked from."""
    done = subprocess.run(
        [sys.executable, "-m", "tests.hostile.bounded"],
        input=json.dumps(commands),
        capture_output=True,
        text=True,
        cwd=Path(__file__).parents[2],
        timeout=900,
    )
    assert done.returncode == 0, done.stderr
    return list(json.loads(done.stdout))


def main() -> None:
    (first, _), *others = json.load(sys.stdin)
    print(json.dumps([run(first), *(in_bounds(*each) for each in others)]))


if __name__ == "__main__":
    main()
