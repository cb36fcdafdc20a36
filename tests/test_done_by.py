"""When the work is to be done: how it is read, found wrong, and said on page 1."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from scopegen.job.done import Done
from scopegen.papers.agreement import compose
from scopegen.papers.document import Glance
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon
from tests.rules.laid_over import checked, opened


@pytest.mark.parametrize(
    ("said", "done"),
    [
        ("10 days after start", Done(days_after_start=10)),
        ("1 day after the start", Done(days_after_start=1)),
        ("2  Weeks after START", Done(days_after_start=14)),
        ("2027-05-14", Done(day=date(2027, 5, 14))),
    ],
)
def test_ways_to_say_it(tmp_path: Path, said: str, done: Done) -> None:
    """So many days or weeks after the start, or a day of the calendar."""
    assert opened(tmp_path, f"job: {{done_by: '{said}'}}").job.done_by == done


@pytest.mark.parametrize(
    "said", ["soon", "0 days after start", "10 days before start", "'2027-02-30'", "[3]"]
)
def test_what_says_no_day_is_found(tmp_path: Path, said: str) -> None:
    """One finding, with what to write."""
    (finding,) = checked(tmp_path, f"job: {{done_by: {said}}}").findings
    assert finding.rule == "value"
    assert finding.fix == "write '10 days after start', '2 weeks after start', or a day like 2027-05-14"


VISITS = (
    "visits: [{name: spring, start: {from: 2027-04-12, to: 2027-04-16}}, {name: fall, start: {from:"
    " 2027-10-11, to: 2027-10-15}}]"
)


@pytest.mark.parametrize(
    ("said", "ends"),
    [
        ("done_by: 1 week after start", "to be done within 7 days after we start"),
        ("done_by: 1 day after start", "to be done within 1 day after we start"),
        ("done_by: 2027-05-14", "to be done by May 14, 2027"),
        (f"done_by: 10 days after start, {VISITS}", "to be done within 10 days after each visit starts"),
        ("language: es, done_by: 10 days after start", "a más tardar 10 días después de que empecemos"),
        ("language: es, done_by: 2027-05-14", "terminado a más tardar el 14 de mayo de 2027"),
    ],
)
def test_page_one_says_it(tmp_path: Path, said: str, ends: str) -> None:
    """Beside the start, after the days of work."""
    case = opened(tmp_path, f"job: {{{said}}}")
    (glance,) = (
        block
        for block in compose(frame_of(case, lexicon(case.job.language), draft=True)).sections[0].blocks
        if isinstance(block, Glance)
    )
    assert glance.entries[-1][2].endswith(ends)


def test_last_visit_counts(tmp_path: Path) -> None:
    """A day between two visits is too early for the last one."""
    early = f"job: {{done_by: 2027-05-14, {VISITS}}}"
    assert "done-before-start" in {finding.rule for finding in checked(tmp_path, early).findings}
