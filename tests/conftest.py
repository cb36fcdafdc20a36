"""The shipped clause library is read once a run: the real reading, kept."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from scopegen import build
from scopegen.clauses import Library
from scopegen.library_folder import library_folder

_read = build.read_library
_shipped = cache(lambda: _read(library_folder()))


def _read_kept(shipped: Path, own: Path | None = None, own_name: str = "clauses") -> Library:
    """The library, read anew only where a workspace has clauses of its own."""
    return _read(shipped, own, own_name) if own and own.is_dir() else _shipped()


@pytest.fixture(autouse=True)
def clause_library_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build, "read_library", _read_kept)
