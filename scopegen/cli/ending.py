"""How a command ends: its exit code, and a sentence for what it has to say."""

from __future__ import annotations

import sys
from enum import IntEnum
from typing import NoReturn

from scopegen.cli.voice import trouble


class Exit(IntEnum):
    """What the exit code says; of several jobs the highest."""

    FINE = 0
    STOPPED = 1
    NOT_UNDERSTOOD = 2
    CANNOT_WRITE = 3
    INTERRUPTED = 130  # as shells count it: 128 and the number of SIGINT


def stop(message: str, code: Exit = Exit.CANNOT_WRITE) -> NoReturn:
    """Says why the command ends, and ends it."""
    trouble(message)
    sys.exit(code)
