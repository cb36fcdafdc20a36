"""One job as far as it could be worked out: what was read, measured, priced and chosen.

Rules look at a case and nothing else. Where something could not be worked out its place is empty,
and the rules still ask about the rest.
"""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Any

from scopegen.answers import Answer, bed_name
from scopegen.chart import Chart
from scopegen.clauses import Chosen, InForce, Library
from scopegen.company import Company
from scopegen.findings import Finding, Level, Place
from scopegen.job import Job
from scopegen.law import Given, Law, Right
from scopegen.load import Path_, Source
from scopegen.measure import Measured
from scopegen.photos import Photograph, Unusable
from scopegen.price import Priced
from scopegen.words import Lexicon


@dataclass(frozen=True, slots=True)
class Case:
    """The job's sources and models, and each step's result. `broken` are the paths of the job description,
    `chart_broken` those of the price chart, that were said but are not sound; `reading` is what
    reading found."""

    job_source: Source
    job: Job
    broken: frozenset[Path_]
    answers: tuple[Answer, ...]
    words: Lexicon | None = None  # of the job's language, where there are any
    chart_source: Source | None = None
    chart: Chart | None = None
    chart_broken: frozenset[Path_] = frozenset()
    company_source: Source | None = None
    company: Company | None = None
    company_broken: frozenset[Path_] = frozenset()
    measured: Measured | None = None
    priced: Priced | None = None
    chosen: Chosen | None = None
    rights: tuple[Right, ...] = ()  # to cancel, from every page of the law that gives one in this sale
    given: Given | None = None  # the notice that gives them all
    pages: tuple[Law, ...] = ()  # of the law of the property's state, that reach this sale
    states: frozenset[str] = frozenset()  # that the law has a page for
    unworded_laws: tuple[str, ...] = ()  # laws that reach the sale but have no wording in its language
    library: Library | None = None
    in_force: InForce | None = None  # of the library, for the job's season and date
    photos: Mapping[str, Photograph | Unusable] = field(default_factory=dict)  # by name, those that are there
    reading: tuple[Finding, ...] = ()
    once: dict[str, Any] = field(default_factory=dict, init=False, repr=False, compare=False)
    """What many rules ask and is worked out once; empty again in each case that is made of this one."""

    def place(self, path: Path_, *, key: bool = False) -> Place:
        """Where something stands in the job description."""
        return self.job_source.place(path, key=key)

    def chart_place(self, path: Path_, *, key: bool = False) -> Place:
        """Where something stands in the price chart."""
        return (self.chart_source or self.job_source).place(path, key=key)

    def answer_of(self, bed: int | None, decision: str) -> Answer:
        """The answer to a decision of one bed, or of the site where bed is None."""
        known: dict[tuple[int | None, str], Answer] | None = self.once.get("answer_of")
        if known is None:
            known = {(answer.bed, answer.decision): answer for answer in self.answers}
            self.once["answer_of"] = known
        return known[bed, decision]

    def answers_at(self, path: Path_) -> list[Answer]:
        """The answers that are said at a path: of many beds where `every_bed` says them."""
        known: dict[Path_, list[Answer]] | None = self.once.get("answers_at")
        if known is None:
            known = {}
            for answer in self.answers:
                known.setdefault(answer.path, []).append(answer)
            self.once["answers_at"] = known
        return known.get(path, [])

    def bed_name(self, index: int | None) -> str | None:
        """A bed's name; None for the site."""
        return None if index is None else bed_name(self.job, index)

    def finding(
        self,
        rule: str,
        level: Level,
        message: str,
        fix: str,
        path: Path_,
        *,
        bed: int | None = None,
        decision: str | None = None,
        key: bool = False,
    ) -> Finding:
        """A finding at a place of the job description."""
        return Finding(rule, level, message, fix, self.place(path, key=key), self.bed_name(bed), decision)
