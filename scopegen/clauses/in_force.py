"""What is in force for a season and a day: the shipped clause, with a contractor's own laid over it."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import date

from scopegen.clauses.clause import Asked, Clause, NoLonger, Version
from scopegen.job.decisions import BED_DECISIONS

SHIPPED, OWN = "shipped", "own"


@dataclass(frozen=True, slots=True)
class Wording:
    """One text in force: its words, the version that they are from, and whose it is (`shipped` or `own`)."""

    text: str
    version: str
    season: int
    since: date | None  # the day within the season, where the version has one
    whose: str
    path: tuple[str | int, ...]  # where it stands in its file


@dataclass(frozen=True, slots=True)
class Ruling:
    """One clause as it is in force. `texts` are by language, then by way (or `says`); they are empty where
    every version is later."""

    clause: str
    decides: str | None
    title: Mapping[str, str]
    ways: tuple[str, ...]
    needs: tuple[str, ...]
    when: Mapping[str, Asked]
    order: int
    calls_for: tuple[str, ...]
    forbids: tuple[str, ...]
    name_if_absent: Mapping[str, str]
    texts: Mapping[str, Mapping[str, Wording]]
    whose: str  # of its conditions and its ways

    def wording(self, language: str, way: str) -> Wording | None:
        """The text for one way to decide, or for `says`; None where there is none."""
        return self.texts.get(language, {}).get(way)


def serves(clause: Clause | Ruling, decision: str) -> bool:
    """Whether a clause can say what was decided: it is of that decision, or of `extra` and names the work
    that it is for, such as work by the hour in a bed."""
    any_work = clause.decides == "extra" and "work" in clause.needs
    return clause.decides == decision or any_work and decision in BED_DECISIONS


@dataclass(frozen=True, slots=True)
class Held:
    """The files of one clause: the one that ships, and the contractor's own. At least one is there."""

    shipped: Clause | None = None
    own: Clause | None = None

    @property
    def files(self) -> tuple[Clause, ...]:
        """What is said of it, the contractor's own first."""
        return tuple(clause for clause in (self.own, self.shipped) if clause)

    def retired(self, season: int) -> NoLonger | None:
        """Why it is no longer used in a season; None where it is used."""
        for clause in self.files:
            if clause.no_longer and clause.no_longer.season <= season:
                return clause.no_longer
        return None

    def ruling(self, season: int, dated: date) -> Ruling | None:
        """The clause as it stands on a day of a season; None where it is no longer used."""
        if self.retired(season):
            return None
        whole, whose = self._whole(season, dated)
        if whole is None:
            return None  # parts of a clause that is not there, which is found
        version = whole.version(season, dated)
        texts = _texts(whole, version, whose)
        own = self.own
        parts = own if own and own.replaces and own.version(season, dated) else None
        if parts:
            _lay_over(parts, season, dated, texts)
        return Ruling(
            whole.clause,
            whole.decides,
            whole.title | (parts.title if parts else {}),
            tuple(dict.fromkeys((*whole.ways, *(_ways(texts) if parts and whole.decides else ())))),
            whole.needs,
            whole.when,
            whole.order,
            whole.calls_for,
            (*whole.forbids, *(parts.forbids if parts else ())),
            whole.name_if_absent | (parts.name_if_absent if parts else {}),
            texts,
            whose,
        )

    def _whole(self, season: int, dated: date) -> tuple[Clause | None, str]:
        """The file that says all of it: the contractor's own from its first season on."""
        own = self.own if self.own and self.own.stands_whole else None
        if own and (self.shipped is None or own.version(season, dated)):
            return own, OWN
        return self.shipped, SHIPPED


def _texts(whole: Clause, version: Version | None, whose: str) -> dict[str, dict[str, Wording]]:
    if version is None:
        return {}
    return {
        language: {way: _wording(whole, version, language, way, whose) for way in said}
        for language, said in version.texts.items()
    }


def _lay_over(parts: Clause, season: int, dated: date, texts: dict[str, dict[str, Wording]]) -> None:
    """Lays each text over that of the same language and way, the newest last."""
    serving = [version for version in parts.wording if version.serves(season, dated)]
    for version in sorted(serving, key=lambda version: version.order):
        for language, said in version.texts.items():
            for way in said:
                texts.setdefault(language, {})[way] = _wording(parts, version, language, way, OWN)


def _wording(clause: Clause, version: Version, language: str, way: str, whose: str) -> Wording:
    index = clause.wording.index(version)
    text = version.texts[language][way]
    return Wording(
        text, version.name, version.season, version.from_, whose, ("wording", index, language, way)
    )


def _ways(texts: Mapping[str, Mapping[str, Wording]]) -> list[str]:
    return [way for said in texts.values() for way in said]


@dataclass(frozen=True, slots=True)
class InForce:
    """Every clause in force for a season and a day, those no longer used, and those that are not sound."""

    clauses: Mapping[str, Ruling] = field(default_factory=dict)
    retired: Mapping[str, NoLonger] = field(default_factory=dict)
    broken: frozenset[str] = frozenset()

    def folder(self, name: str) -> tuple[Ruling, ...]:
        """The clauses of one folder, by their printing order, then by name."""
        inside = [clause for key, clause in self.clauses.items() if key.startswith(f"{name}.")]
        return tuple(sorted(inside, key=lambda clause: (clause.order, clause.clause)))

    def standing_for(self, name: str) -> str:
        """The clause that stands for a name: itself, or what is used instead of it."""
        seen: set[str] = set()
        while name in self.retired and name not in seen:
            seen.add(name)
            name = self.retired[name].instead or name
        return name
