"""One run: a spoiled workspace taken the whole way, as far as chance has it drawn."""

from __future__ import annotations

import json
import random
import shutil
import signal
import tempfile
import traceback
import unicodedata
from pathlib import Path
from typing import Any

from tests.fuzz.spoil import JOB, Files, spoiled

MOST_SECONDS = 10


class Mismatch(Exception):
    """Nothing stops the agreement, and yet it cannot be drawn."""


def take_through(files: Files, folder: Path, share: float = 0.0) -> str:
    """The whole way of one workspace: what came of it. `share` from 0 to 1: the larger, the more is drawn."""
    from scopegen.build import open_case
    from scopegen.check import check
    from scopegen.load import Unreadable
    from scopegen.papers.agreement import compose
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.render.printed import refuse_undrawable
    from scopegen.render.refusals import UndrawableText
    from scopegen.report.checked import check_json, check_text
    from scopegen.words import lexicon

    for name, raw in files.items():
        (folder / name).parent.mkdir(parents=True, exist_ok=True)
        (folder / name).write_bytes(raw)
    try:
        case = open_case(folder / JOB)
    except Unreadable as refused:
        _look_at(refused.finding.as_text())
        return "unreadable"
    checked = check(case)
    _look_at(check_text(checked))
    json.dumps(check_json(checked)).encode()
    try:
        words = lexicon(case.job.language)
        frame = frame_of(case, words, draft=checked.stops)
    except (NotWorkedOut, KeyError):
        if not checked.stops:
            raise Mismatch("nothing stops it, but it was not worked out") from None
        return "stopped"
    document = compose(frame)
    try:
        refuse_undrawable(document)
    except UndrawableText as error:
        if not checked.stops:
            raise Mismatch(str(error)) from None
        return "stopped"
    _report(frame, share)
    _draw(document, share)
    return "draft" if checked.stops else "written"


def _report(frame: Any, share: float) -> None:
    """What `price` prints."""
    from io import StringIO

    from rich.console import Console

    from scopegen.report.as_json import price_json
    from scopegen.report.as_text import price_text
    from scopegen.report.by_bed import by_bed_json, by_bed_text
    from scopegen.report.worked import working_text

    if share > 0.95:
        console = Console(file=StringIO(), markup=False, emoji=False)
        for text in (price_text(frame), by_bed_text(frame), working_text(frame)):
            console.print(text)
        json.dumps([price_json(frame), by_bed_json(frame)])


def _draw(document: Any, share: float) -> None:
    from scopegen.render import to_html, to_pdf

    if share > 0.992:
        to_html(document)
    if share > 0.996:
        to_pdf(document)


def _look_at(text: str) -> None:
    """What a terminal shows holds no sign that a terminal obeys, and can be printed."""
    odd = [sign for sign in text if unicodedata.category(sign)[0] == "C" and sign != "\n"]
    assert not odd, f"a finding prints {odd[0]!r}"
    text.encode()


def run(seed: str, files: Files | None = None) -> tuple[str, str]:
    """One run: (what came of it, the traceback or nothing)."""

    def too_long(*_: object) -> None:
        raise TimeoutError(f"more than {MOST_SECONDS} seconds")

    made = files or spoiled(seed)[0]
    signal.signal(signal.SIGPROF, too_long)
    signal.setitimer(signal.ITIMER_PROF, MOST_SECONDS)  # of its own time, whatever else the machine does
    folder = Path(tempfile.mkdtemp(prefix="fuzz-"))
    try:
        return take_through(made, folder, random.Random(seed + " share").random()), ""
    except Exception:
        return "failed", traceback.format_exc()
    finally:
        signal.setitimer(signal.ITIMER_PROF, 0)
        shutil.rmtree(folder, ignore_errors=True)
