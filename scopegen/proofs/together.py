"""Texts that one paper can have together: in force at the same time, and neither shuts the other out."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from datetime import date

from scopegen.clauses import Ruling, Wording
from scopegen.clauses.clause import Limits
from scopegen.clauses.conditions import bounds, catalogue
from scopegen.clauses.in_force import OWN, Held
from scopegen.findings import Place
from scopegen.proofs.proof import Stock

Moment = tuple[int, date]  # a season, and a day within it


@dataclass(frozen=True, slots=True)
class Standing:
    """A text as jobs take it, from one moment until another, which is None where nothing follows."""

    ruling: Ruling
    wording: Wording
    language: str
    way: str
    since: Moment
    until: Moment | None

    def place(self, stock: Stock) -> Place:
        """Where its words stand."""
        sources = stock.library.own if self.wording.whose == OWN else stock.library.shipped
        return sources[self.ruling.clause].place(self.wording.path)


def standing_texts(stock: Stock) -> Iterator[Standing]:
    """Every text that jobs take in some season."""
    for held in stock.library.held.values():
        open_: dict[tuple[str, str], Standing] = {}
        for moment in _moments(held):
            ruling = held.ruling(*moment)
            texts = ruling.texts if ruling else {}
            taken = {(language, way): text for language, said in texts.items() for way, text in said.items()}
            for key, before in list(open_.items()):
                if taken.get(key) != before.wording:
                    yield replace(open_.pop(key), until=moment)
            for key, wording in taken.items():
                if ruling and key not in open_:
                    open_[key] = Standing(ruling, wording, *key, moment, None)
        yield from open_.values()


def _moments(held: Held) -> list[Moment]:
    """When something changes in a clause."""
    moments = {version.order for clause in held.files for version in clause.wording}
    moments |= {(clause.no_longer.season, date.min) for clause in held.files if clause.no_longer}
    return sorted(moments)


def together(one: Standing, other: Standing) -> bool:
    """One paper can have both: of two clauses for one decision, one is chosen bed by bed."""
    first, second = one.ruling, other.ruling
    return not (
        first.clause == second.clause
        or first.decides and first.decides == second.decides
        or other.until is not None and one.since >= other.until
        or one.until is not None and other.since >= one.until
        or second.clause in first.forbids
        or first.clause in second.forbids
        or _shut_out(first, second)
    )  # fmt: skip


def _shut_out(first: Ruling, second: Ruling) -> bool:
    """Both ask for one fact that a job has once, and never for the same."""
    for key in first.when.keys() & second.when.keys():
        one, other = first.when[key], second.when[key]
        if isinstance(one, Limits) and isinstance(other, Limits):
            (low, high), (least, most) = bounds(key, one), bounds(key, other)
            if high is not None and high < least or most is not None and most < low:
                return True
        elif not isinstance(one, Limits) and not isinstance(other, Limits):
            if catalogue()["conditions"][key]["type"] == "word" and not {*one} & {*other}:
                return True
    return False
