"""Runs `scopegen check` on many jobs, each in a process of its own with little memory, time and rights.

    python -m tests.hostile.bounded < paths, one a line

Prints a list of outcomes as JSON. Of this process everything is imported first, so that the limits hold for
the reading alone.
"""

from __future__ import annotations

import ctypes
import json
import os
import resource
import signal
import struct
import sys
import time
import traceback
from pathlib import Path
from typing import Any

from click.testing import CliRunner

from scopegen.cli.commands import scopegen

MEMORY = 200_000_000  # bytes beyond what the imports take
SECONDS = 10  # two are meant; the rest is for a machine that does other things as well
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


def in_bounds(task: Any) -> dict[str, Any]:
    """What a task returns in a process of its own; how it died where it did."""
    ours, theirs = os.pipe()
    child = os.fork()
    if child == 0:
        os.close(ours)
        size = int(Path("/proc/self/statm").read_text().split()[0]) * resource.getpagesize()
        resource.setrlimit(resource.RLIMIT_AS, (size + MEMORY, size + MEMORY))
        signal.alarm(SECONDS)
        without_rights_beyond_its_own()
        start = time.monotonic()
        try:
            said = task()
        except BaseException:
            said = {"code": -1, "out": traceback.format_exc()}
        with os.fdopen(theirs, "w") as pipe:
            json.dump({**said, "seconds": time.monotonic() - start}, pipe)
        os._exit(0)
    os.close(theirs)
    with os.fdopen(ours) as pipe:
        said = pipe.read()
    _, status = os.waitpid(child, 0)
    return json.loads(said) if said else {"code": -1, "out": f"killed by signal {status & 127}"}


def checked(path: str) -> dict[str, Any]:
    """`scopegen check` as a user types it."""
    result = CliRunner().invoke(scopegen, ["check", path])
    broke = result.exception if not isinstance(result.exception, SystemExit) else None
    said = "".join(traceback.format_exception(broke)) if broke else ""
    return {"code": result.exit_code, "out": result.output + said}


def main() -> None:
    sound, *paths = sys.stdin.read().splitlines()
    print(json.dumps([checked(sound), *(in_bounds(lambda path=path: checked(path)) for path in paths)]))


if __name__ == "__main__":
    main()
