"""What is asked of the clause library whatever job takes it: a proof is data and one small function."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, field

from scopegen.chart import Chart
from scopegen.clauses import Clause, Library, Version
from scopegen.clauses.in_force import OWN, SHIPPED
from scopegen.company import Company
from scopegen.findings import Finding, Level, Place
from scopegen.load import Path_, Source
from scopegen.printed import Printed
from scopegen.rules.rule import Fault

FAMILY = "the clause library"


@dataclass(frozen=True, slots=True)
class Stock:
    """What a workspace has to write papers with: its clauses, its price charts, the legal pages that ship,
    the wording that it has put on paper with the name of its lock, and whose it is."""

    library: Library
    charts: tuple[tuple[Source, Chart], ...] = ()
    laws: Mapping[str, Source] = field(default_factory=dict)
    printed: tuple[Printed, ...] = ()
    lock: str = ""
    company: Company | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One text of one file."""

    clause: Clause
    whose: str
    source: Source
    version: Version
    path: Path_
    language: str
    way: str

    @property
    def words(self) -> str:
        """What is written there."""
        return self.version.texts[self.language][self.way]

    @property
    def place(self) -> Place:
        """Where it begins."""
        return self.source.place(self.path)


@dataclass(frozen=True, slots=True)
class Proof:
    """What is asked of a stock. `passes` and `fails` are pieces of YAML under `clauses:`, `chart:` and
    `company:`, laid over a sound workspace, and the tests run both; they are empty where it takes more than a
    few lines to show."""

    id: str
    level: Level
    asks: str
    why: str
    passes: str
    fails: str
    look: Callable[[Stock], Iterator[Fault]]
    source: str = ""
    family: str = FAMILY

    def find(self, stock: Stock) -> Iterator[Finding]:
        """What this proof has to say about a stock."""
        for fault in self.look(stock):
            yield Finding(self.id, self.level, fault.message, fault.fix, fault.place)


def files_of(library: Library) -> Iterator[tuple[Clause, str, Source]]:
    """Every sound clause file, with whose it is."""
    for name, held in library.held.items():
        if held.shipped:
            yield held.shipped, SHIPPED, library.shipped[name]
        if held.own:
            yield held.own, OWN, library.own[name]


def texts_of(library: Library) -> Iterator[Text]:
    """Every text of every sound file."""
    for clause, whose, source in files_of(library):
        for index, version in enumerate(clause.wording):
            for language, said in version.texts.items():
                for way in said:
                    path = ("wording", index, language, way)
                    yield Text(clause, whose, source, version, path, language, way)
