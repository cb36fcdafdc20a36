"""How a command ends: its exit code, a sentence or JSON for what it has to say."""

from __future__ import annotations

import json
import sys
from enum import IntEnum
from typing import NoReturn

import click

from scopegen.findings import printable


class Exit(IntEnum):
    """What the exit code says."""

    FINE = 0
    STOPPED = 1
    NOT_UNDERSTOOD = 2
    CANNOT_WRITE = 3


def stop(message: str, code: Exit = Exit.CANNOT_WRITE) -> NoReturn:
    click.echo(printable(message), err=True)
    sys.exit(code)


def print_json(data: object) -> None:
    click.echo(json.dumps(data, indent=2, ensure_ascii=False))
