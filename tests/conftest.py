"""The shipped clause library is read once a run, and a paper that a command draws again is drawn once.

It is the real reading and the real drawing, kept; that both are the same each time is tested in processes of
their own.
"""

from __future__ import annotations

import signal
from functools import cache
from hashlib import sha256
from os.path import lexists
from pathlib import Path

import pytest

from scopegen import build, render
from scopegen.clauses import Library
from scopegen.library_folder import library_folder
from scopegen.papers.document import Document

# A shell that starts the tests in the background makes them deaf to Ctrl-C, and so whatever they start.
if signal.getsignal(signal.SIGINT) is signal.SIG_IGN:
    signal.signal(signal.SIGINT, signal.default_int_handler)

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


_draw = render.to_pdf
_drawn: dict[str, bytes] = {}


def _drawn_once(document: Document) -> bytes:
    key = sha256(repr(document).encode()).hexdigest()
    if key not in _drawn:
        _drawn[key] = _draw(document)
    return _drawn[key]


@pytest.fixture(autouse=True)
def a_paper_is_drawn_once(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(render, "to_pdf", _drawn_once)


@pytest.fixture
def drawn_each_time(a_paper_is_drawn_once: None, monkeypatch: pytest.MonkeyPatch) -> None:
    """For what holds two drawings of one paper beside each other."""
    monkeypatch.setattr(render, "to_pdf", _draw)
