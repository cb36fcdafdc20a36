"""The work of a check and of a paper grows as the beds do: counted in lines of the program, not in time.

Were each bed held against every other, twice as many more beds would run four times as many more lines.
"""

from __future__ import annotations

import sys
from collections.abc import Callable
from pathlib import Path, PurePath
from types import FrameType
from typing import Any

import pytest

import scopegen
from scopegen.build import open_case
from scopegen.check import check
from scopegen.kept import Kept
from scopegen.papers.frame import frame_of
from scopegen.record import recorded_agreement
from scopegen.render.markup import markup
from scopegen.words import lexicon
from tests.benchmarks.jobs import with_beds, workspace

PROGRAM = str(Path(scopegen.__file__).parent)
BEDS = 10  # and twice and four times as many: few, and all kinds of beds of the example among them
WAYS = {
    "as the example decides them": lambda job: job,
    "all offered": lambda job: job.replace("decided: included", "decided: add-on"),
    "all given away": lambda job: job.replace("decided: included", "decided: no-charge"),
    "all left to the customer": lambda job: job.replace(
        "decided: included", "decided: customer, by: start, if_not_done: we do it"
    ),
    "all open": lambda job: job.replace("decided: included", "decided: open"),
    "all with a slip": lambda job: job.replace("found:", "fund:"),
}


def lines_of(work: Callable[[], object]) -> int:
    """How many lines of the program run."""
    ran = 0

    def line(frame: FrameType, event: str, told: object) -> Any:
        nonlocal ran
        ran += event == "line"
        return line

    def called(frame: FrameType, event: str, told: object) -> Any:
        return line if frame.f_code.co_filename.startswith(PROGRAM) else None

    before = sys.gettrace()
    sys.settrace(called)
    try:
        work()
    finally:
        sys.settrace(before)
    return ran


@pytest.mark.parametrize("way", WAYS)
def test_work_grows_no_faster_than_the_beds(tmp_path: Path, way: str) -> None:
    """However they are decided."""
    job, kept = workspace(tmp_path) / "job.yaml", Kept()

    def lines(beds: int) -> int:
        job.write_text(WAYS[way](with_beds(beds)), encoding="utf-8")
        return lines_of(lambda: check(open_case(job, kept=kept)))

    assert_steady(lines)


def test_work_on_a_paper_grows_no_faster_than_the_beds(tmp_path: Path) -> None:
    """The same of its record and its mark-up."""
    job, kept = workspace(tmp_path) / "job.yaml", Kept()

    def lines(beds: int) -> int:
        job.write_text(with_beds(beds), encoding="utf-8")
        frame = frame_of(open_case(job, kept=kept), lexicon("en"))
        return lines_of(lambda: markup(recorded_agreement(frame, PurePath(job.name))[0]))

    assert_steady(lines)


def assert_steady(lines: Callable[[int], int]) -> None:
    """20 beds more run no more than twice the lines that 10 beds more ran, and a tenth, since kinds of beds
    are not met equally often. What all jobs share is read before the first that counts."""
    _, once, twice, four_times = [lines(beds) for beds in (BEDS, BEDS, 2 * BEDS, 4 * BEDS)]
    assert 0 < four_times - twice <= 2.1 * (twice - once)
