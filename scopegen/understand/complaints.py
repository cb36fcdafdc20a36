"""A model's complaint in a contractor's words: which rule, what is wrong, what to do."""

from __future__ import annotations

import difflib
import re
import typing
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any

from pydantic import BaseModel

from scopegen.load import Path_
from scopegen.quantities.fields import kind_of
from scopegen.quantities.units import shortened

LISTED = "write it in brackets, like [3 ft, 4 ft, 5 ft]"


@dataclass(frozen=True, slots=True)
class Complaint:
    """What is wrong at a path, and whether the key or its value is to be pointed at."""

    path: Path_
    rule: str
    message: str
    fix: str
    key: bool = False


MOST_MEANT = 6  # clauses named at once where their last part is the same, such as 'general'
MOST_GUESSED = 20  # unknown keys of one section: more were not mistyped one by one, and guessing takes time


def in_words(model: type[BaseModel], fault: Any, *, guess: bool = True) -> Complaint:
    """One of a model's errors; the path is within the model. With `guess`, which known key an unknown one was
    meant to be."""
    loc: Path_ = tuple(fault["loc"])
    context, kind = fault.get("ctx", {}), fault["type"]
    last = str(loc[-1]) if loc else ""
    if kind == "said":
        return Complaint(loc, context["rule"], context["message"], context["fix"])
    if kind == "extra_forbidden":
        return _unknown_key(model, loc, last, guess=guess)
    if kind == "missing" and isinstance(loc[-1], int):
        return Complaint(loc[:-1], "value", f"entry {loc[-1] + 1} of this list is missing", LISTED)
    if kind == "missing":
        return Complaint(loc[:-1], "missing-key", f"'{last}' is missing", f"add '{last}: …'", key=True)
    if kind == "literal_error":
        return _unknown_word(loc, fault.get("input"), choices(context.get("expected", "")))
    if kind in ("too_short", "too_long", "tuple_type", "list_type"):
        count = context.get("min_length") or context.get("max_length")
        fix = LISTED if count else _listed(model, loc, fault.get("input"))
        return Complaint(loc, "value", f"a list{f' of {count}' if count else ''} belongs here", fix)
    if kind in ("model_type", "dict_type", "model_attributes_type"):
        keys = ", ".join(keys_at(model, loc)) or "name: value"
        return Complaint(
            loc, "value", "a group of 'key: value' pairs belongs here", f"write its keys: {keys}"
        )
    message = f"this value does not fit here: {fault['msg'].lower()}"
    return Complaint(loc, "value", message, "look at the example in README.md")


def _listed(model: type[BaseModel], loc: Path_, said: Any) -> str:
    """How to write a list where something else stands: of groups, of words, or of measures."""
    keys = ", ".join(keys_at(model, loc))
    if keys:
        return f"start each entry with '- ', and write its keys: {keys}"
    return f"write it in brackets, like [{shortened(said)}]" if isinstance(said, str) else LISTED


def _unknown_key(model: type[BaseModel], loc: Path_, last: str, *, guess: bool) -> Complaint:
    known = keys_at(model, loc[:-1])
    fix = (guess and nearest(last, known)) or f"known here: {', '.join(known)}"
    return Complaint(loc, "unknown-key", f"'{shortened(last)}' is not a key that belongs here", fix, key=True)


def _unknown_word(loc: Path_, said: Any, known: list[str]) -> Complaint:
    if not isinstance(said, str):
        return Complaint(
            loc,
            "unknown-word",
            f"{kind_of(said)} stands where a word belongs",
            f"write one of: {', '.join(known)}",
        )
    shown = shortened(said)
    fix = " ".join(filter(None, (nearest(str(said), known), f"write one of: {', '.join(known)}")))
    return Complaint(loc, "unknown-word", f"'{shown}' is not one of the words that are known here", fix)


def nearest(word: str, known: Iterable[str]) -> str:
    """'did you mean …?' where a known word is near, else nothing."""
    near = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"did you mean '{near[0]}'?" if near else ""


def nearest_clause(name: str, known: Iterable[str]) -> str:
    """As `nearest`, for a clause's name, or its part behind the dot: all that share that part."""
    names = sorted(known)
    typed = name.strip().lower().removesuffix(".yaml").replace("/", ".").replace(" ", "-")
    last = typed.rpartition(".")[2]
    behind = [each.partition(".")[2] for each in names]
    whole = difflib.get_close_matches(typed, names, n=1) if "." in typed else []
    near = [] if whole else difflib.get_close_matches(last, behind, n=1, cutoff=0.7)
    near = near or [part for part in behind if last in part.split("-")]
    meant = whole or [each for each, part in zip(names, behind, strict=True) if part in near]
    *some, one = [f"'{each}'" for each in meant[:MOST_MEANT]] or [""]
    return f"did you mean {' or '.join(filter(None, (', '.join(some), one)))}?" if one else ""


def choices(expected: str) -> list[str]:
    """The words of a closed list, from the model's own account of it."""
    return [found[0] or found[1] for found in re.findall(r"'([^']*)'|\"([^\"]*)\"", expected)]


def keys_at(model: Any, loc: Path_) -> list[str]:
    """The keys that a model knows at a place inside it."""
    here: Any = model
    for step in loc:
        fields = getattr(here, "model_fields", None)
        if fields is None:
            break
        info = fields.get(step) or next((f for f in fields.values() if f.alias == step), None)
        if info is None:
            continue
        here = _model_in(info.annotation)
    fields = getattr(here, "model_fields", {})
    return [info.alias or name.rstrip("_") for name, info in fields.items()]


def _model_in(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in typing.get_args(annotation):
        found = _model_in(inner)
        if found is not None:
            return found
    return None
