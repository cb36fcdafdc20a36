"""Conditions of clauses: whether they hold for a job, what is wrong with one, and what one says in words."""

from __future__ import annotations

import difflib
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files
from math import ceil, floor
from typing import Any

from scopegen.clauses.clause import Asked, Limits
from scopegen.clauses.fill import Unfillable, filled_whole
from scopegen.job import DECISIONS, SITE_DECISIONS
from scopegen.job.decisions import WAYS
from scopegen.load import Path_, parse
from scopegen.quantities import texts
from scopegen.quantities.units import NotAQuantity, quantity
from scopegen.words import languages, lexicon

_HOLDS = {
    "at_least": lambda amount, limit: amount >= limit,
    "over": lambda amount, limit: amount > limit,
    "at_most": lambda amount, limit: amount <= limit,
    "under": lambda amount, limit: amount < limit,
}
_SPOKEN = {
    "at_least": "at least {}",
    "over": "more than {}",
    "at_most": "at most {}",
    "under": "less than {}",
}


@dataclass(frozen=True, slots=True)
class Facts:
    """What a job has: words by the name of the condition, and amounts in the condition's own unit (money,
    ft, ft², yd³, hours, or a plain number)."""

    words: Mapping[str, frozenset[str]] = field(default_factory=dict)
    amounts: Mapping[str, Fraction] = field(default_factory=dict)


@cache
def catalogue() -> dict[str, dict[str, Any]]:
    """What clauses may ask for: `blanks` and `conditions`, by their names, as `facts.yaml` says them."""
    data = parse((files("scopegen.clauses") / "facts.yaml").read_text(encoding="utf-8"), "facts.yaml").data
    assert isinstance(data, dict)
    return data


@cache
def samples(language: str, around: str = "{}") -> dict[str, str]:
    """What fills each blank where no job is at hand, with something around it if asked."""
    known = languages()
    said = lexicon(language if language in known else known[0]).texts["sample"]
    return {name: around.format(sample) for name, sample in said.items()}


@lru_cache(maxsize=100_000)
def sampled(text: str, language: str) -> str:
    """A text with a sample in each blank; as it stands where it cannot be filled."""
    try:
        return filled_whole(text, samples(language))
    except Unfillable:
        return text


def holds(when: Mapping[str, Asked], facts: Facts) -> bool:
    """Every condition holds: for each any of its values is a fact of the job, or the amount is within all
    of its limits."""
    return all(_one_holds(key, asked, facts) for key, asked in when.items())


def _one_holds(key: str, asked: Asked, facts: Facts) -> bool:
    if not isinstance(asked, Limits):
        return bool(facts.words.get(key, frozenset()) & set(asked))
    amount = facts.amounts.get(key)
    if amount is None:
        return False
    return all(_HOLDS[word](amount, _limit(key, said)) for word, said in asked.said.items())


def met(when: Mapping[str, Asked], facts: Facts) -> dict[str, Asked]:
    """The conditions with only those of their values that the job has."""
    return {
        key: asked if isinstance(asked, Limits) else tuple(v for v in asked if v in facts.words.get(key, ()))
        for key, asked in when.items()
    }


def _limit(key: str, said: str) -> Fraction:
    """A limit in the unit of its condition. Raises NotAQuantity."""
    unit = catalogue()["conditions"][key].get("unit", "")
    if unit == "money":
        return Fraction(texts.money(said))
    if unit:
        return quantity(said, unit)
    return texts.unsigned(said)


def unreadable_conditions(when: Mapping[str, Asked]) -> Iterator[tuple[Path_, str, str]]:
    """What is wrong with the conditions of a clause: where below `when`, what, and what to do."""
    known = catalogue()["conditions"] if when else {}
    for key, asked in when.items():
        condition = known.get(key)
        if condition is None:
            near = difflib.get_close_matches(key, known, n=1)
            fix = f"did you mean '{near[0]}'?" if near else f"ask for one of: {', '.join(known)}"
            yield (key,), f"'{key}' is no condition", fix
        elif isinstance(asked, Limits) != (condition["type"] == "number"):
            wants = "limits, like {at_least: …}" if condition["type"] == "number" else "one value or a list"
            yield (key,), f"'{key}' is asked for in the wrong way", f"write {wants}"
        elif isinstance(asked, Limits):
            yield from list(_unreadable_limits(key, asked)) or _empty_range(key, asked)
        else:
            yield from _unknown_values(key, asked, condition)


def _unreadable_limits(key: str, asked: Limits) -> Iterator[tuple[Path_, str, str]]:
    for word, said in asked.said.items():
        try:
            _limit(key, said)
        except NotAQuantity as error:
            yield (key, word), str(error), error.fix


def _empty_range(key: str, asked: Limits) -> Iterator[tuple[Path_, str, str]]:
    low, high = bounds(key, asked)
    ends = ((word, end) for word, end in (("over", low), ("under", high)) if word in asked.said)
    shut_out = not _step(key) and any(_limit(key, asked.said[word]) == end for word, end in ends)
    if high is not None and (low > high or low == high and shut_out):
        yield (key,), f"'{key}' is never {_values(asked)}", "mend one of the limits, or take one out"


def bounds(key: str, asked: Limits) -> tuple[Fraction, Fraction | None]:
    """The least and the most that lie within readable limits, in the condition's unit: for what is counted
    in steps the first and the last step inside, for other amounts the limits themselves. Nothing is below
    zero, and without an upper limit there is no most."""
    said = {word: _limit(key, limit) for word, limit in asked.said.items()}
    step = _step(key)
    if step:  # over 3 is at least 4, and under 4 at most 3
        rounded = {
            "at_least": ceil, "over": lambda steps: floor(steps) + 1,
            "at_most": floor, "under": lambda steps: ceil(steps) - 1,
        }  # fmt: skip
        said = {word: rounded[word](limit / step) * step for word, limit in said.items()}
    low = max([Fraction(0), *(said[word] for word in ("at_least", "over") if word in said)])
    return low, min([said[word] for word in ("at_most", "under") if word in said], default=None)


def _step(key: str) -> Fraction | None:
    """What an amount is counted in: cents, or ones; None where it can be any part."""
    condition = catalogue()["conditions"][key]
    if condition.get("unit") == "money":
        return Fraction(1, 100)
    return Fraction(1) if "whole" in condition else None


def _among(condition: Mapping[str, Any]) -> list[str]:
    """The values that a condition can have; none where only a price chart knows them."""
    match condition.get("among"):
        case "decided":
            decisions = (*DECISIONS, "extra", *SITE_DECISIONS)
            return [f"{decision} {way}" for decision in decisions for way in WAYS]
        case "states":
            return catalogue()["states"]  # type: ignore[return-value]
    return condition.get("of", [])


def _unknown_values(
    key: str, asked: tuple[str, ...], condition: Mapping[str, Any]
) -> Iterator[tuple[Path_, str, str]]:
    known = _among(condition)
    for index, value in enumerate(asked):
        if known and value not in known:
            near = difflib.get_close_matches(value, known, n=1)
            listed = f"write something like '{condition['like']}'" if "like" in condition else ""
            fix = f"did you mean '{near[0]}'?" if near else listed or f"write one of: {', '.join(known)}"
            yield (key, index), f"'{key}' is never '{value}'", fix


def condition_in_words(when: Mapping[str, Asked]) -> str:
    """All of a clause's conditions as one phrase for the office; `always` where there is none."""
    known = catalogue()["conditions"] if when else {}
    return " and ".join(known[key]["asks"].format(_values(asked)) for key, asked in when.items()) or "always"


def _values(asked: Asked) -> str:
    if isinstance(asked, Limits):
        return " and ".join(_SPOKEN[word].format(said) for word, said in asked.said.items())
    return " or ".join(asked)
