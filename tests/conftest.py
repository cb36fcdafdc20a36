"""The shipped clause library is read once a run: the real reading, kept."""

from __future__ import annotations

from functools import cache
from os.path import lexists
from pathlib import Path

import pytest

from scopegen import build
from scopegen.clauses import Library
from scopegen.library_folder import library_folder

_read = build.read_library
_shipped = cache(lambda wanted: _read(library_folder(), wanted=wanted))


def _read_kept(
    shipped: Path, own: Path | None = None, own_name: str = "clauses", wanted: frozenset[str] | None = None
) -> Library:
    """The library, read anew only where a workspace has clauses of its own, or another library is named."""
    own_clauses = own is not None and lexists(own)
    return (
        _read(shipped, own, own_name, wanted)
        if own_clauses or shipped != library_folder()
        else _shipped(wanted)
    )


@pytest.fixture(autouse=True)
def clause_library_is_read_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(build, "read_library", _read_kept)
