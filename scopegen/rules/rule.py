"""A rule is data and one small function; its text is its manual page."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass

from scopegen.case import Case
from scopegen.findings import Finding, Level, Place

TRADE = "common practice, no source"


@dataclass(frozen=True, slots=True)
class Fault:
    """What a rule's look turns up: a finding still without the rule's name and level."""

    message: str
    fix: str
    place: Place
    bed: str | None = None
    decision: str | None = None


@dataclass(frozen=True, slots=True)
class Rule:
    """What is asked of a case. `passes` and `fails` are pieces of YAML, under `job:`, `chart:` and
    `company:`, that are laid over a sound job, its price chart and its company; the tests run both."""

    id: str
    family: str
    level: Level
    asks: str  # one line: what must hold
    why: str  # a few sentences: what it costs when it does not
    passes: str
    fails: str
    look: Callable[[Case], Iterator[Fault]]
    source: str = ""  # a published source, or 'common practice, no source'

    def find(self, case: Case) -> Iterator[Finding]:
        """What this rule has to say about a case."""
        for fault in self.look(case):
            yield Finding(
                self.id, self.level, fault.message, fault.fix, fault.place, fault.bed, fault.decision
            )
