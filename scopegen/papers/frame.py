"""What every paper of a job is composed from: a case in which all was worked out, and the words."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from decimal import Decimal
from fractions import Fraction

from scopegen.case import Case
from scopegen.chart import Chart
from scopegen.clauses import Chosen
from scopegen.company import Company
from scopegen.job import Job, Part
from scopegen.load import Path_
from scopegen.measure import Measured
from scopegen.papers.document import Masthead
from scopegen.price import Priced
from scopegen.quantities import show
from scopegen.words import Lexicon


class NotWorkedOut(ValueError):
    """A case lacks what a paper needs, so that not even a draft can be composed; findings say what."""


@dataclass(frozen=True)
class Frame:
    """The parts of a case that papers need, none of them empty."""

    case: Case
    job: Job
    chart: Chart
    company: Company
    measured: Measured
    priced: Priced
    chosen: Chosen
    words: Lexicon
    draft: bool = False
    signed_on: date | None = None

    def say(self, key: str, /, **values: object) -> str:
        """A text of this language."""
        return self.words.say(key, **values)

    def money(self, amount: Decimal) -> str:
        """Money as printed."""
        return self.words.money(amount)

    def size(self, decision: str, area: Fraction, length: Fraction | None) -> str:
        """The size of a part: edge in feet, ground in square feet."""
        return (
            show.run(length or Fraction(0), self.job.units)
            if decision == "edging"
            else show.area(area, self.job.units)
        )

    def beds(self, indexes: tuple[int, ...]) -> str:
        """Beds by name; all of them as such."""
        if len(indexes) == len(self.measured.beds) > 2:
            return self.say("beds.all")
        return self.words.list(self.measured.beds[index].name for index in indexes)

    def part_at(self, path: Path_) -> Part | None:
        """The part of a decision, or of the work beside the beds, that was said at a path."""
        for answer in self.case.answers_at(path[:-1]):
            if isinstance(path[-1], int) and path[-1] < len(answer.parts):
                return answer.parts[path[-1]]
        if path[:1] == ("extras",):
            return self.job.extras[int(path[1])]
        return None

    def masthead(self) -> Masthead:
        """The contractor's head of the paper."""
        company = self.company
        contact = " · ".join(filter(None, (company.phone, company.email)))
        return Masthead(company.name, tuple(filter(None, (*company.address, contact, company.license))))


def capital(text: str) -> str:
    """The text as it starts a line or a sentence."""
    return text[:1].upper() + text[1:]


def frame_of(
    case: Case, words: Lexicon | None, *, draft: bool = False, signed_on: date | None = None
) -> Frame:
    """The frame of a case. Raises NotWorkedOut."""
    parts = (
        case.chart,
        case.company,
        case.measured,
        case.priced,
        case.chosen,
        case.job.dated,
        case.job.customer,
    )
    complete = (
        all(parts)
        and case.company is not None
        and all((case.company.name, case.company.address, case.company.phone, case.company.terms))
    )
    if words is None or not complete or not case.job.beds:
        raise NotWorkedOut("the paper cannot be made yet, not even as a draft")
    assert case.chart and case.company and case.measured and case.priced and case.chosen
    return Frame(
        case,
        case.job,
        case.chart,
        case.company,
        case.measured,
        case.priced,
        case.chosen,
        words.in_currency(case.chart.currency or "USD"),
        draft,
        signed_on,
    )
