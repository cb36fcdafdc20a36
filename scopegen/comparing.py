"""What changed in the wording between two seasons, clause by clause and word by word."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date
from difflib import SequenceMatcher
from typing import Literal

from scopegen.clauses import InForce, Library, Ruling, Wording
from scopegen.clauses.conditions import condition_in_words, sampled

Change = Literal["same", "out", "in"]


@dataclass(frozen=True, slots=True)
class Run:
    """Some words in a row that stayed, went out or came in."""

    change: Change
    text: str


@dataclass(frozen=True, slots=True)
class ChangedText:
    """One text that is not as it was: for which way, from which version to which, and its words."""

    way: str
    old: str  # the versions' names; empty where there is none
    new: str
    runs: tuple[Run, ...]
    without: str = ""  # the version that has this text in other languages, and not in the one compared


@dataclass(frozen=True, slots=True)
class ChangedClause:
    """One clause of which something is not as it was. `conditions` are when it was taken and when it is,
    `titles` its title before and now, `absent_names` how papers name it as left out; an empty one is not
    there. `unworded`: it has wording, and none in the language compared."""

    clause: str
    title: str
    kind: Literal["new", "gone", "changed"]
    texts: tuple[ChangedText, ...] = ()
    conditions: tuple[str, str] | None = None
    because: str = ""  # why it is no longer used
    instead: str = ""
    titles: tuple[str, str] | None = None
    absent_names: tuple[str, str] | None = None
    unworded: bool = False


def differences(old: str, new: str) -> tuple[Run, ...]:
    """The words of both, in the order of reading; what goes out stands before what comes in for it."""
    before, after = old.split(), new.split()
    runs: list[Run] = []
    for kind, i, j, k, m in SequenceMatcher(None, before, after, autojunk=False).get_opcodes():
        if kind == "equal":
            runs.append(Run("same", " ".join(before[i:j])))
            continue
        if i < j:
            runs.append(Run("out", " ".join(before[i:j])))
        if k < m:
            runs.append(Run("in", " ".join(after[k:m])))
    return tuple(runs)


def compared(
    library: Library, old: int, new: int, language: str, names: tuple[str, ...] = ()
) -> tuple[ChangedClause, ...]:
    """What is not in force in one season as it was in another, as both seasons end; of some clauses, or of
    all, by their names."""
    before, after = library.in_force(old, date.max), library.in_force(new, date.max)
    wanted = sorted(set(names) or {*before.clauses, *after.clauses})
    changes = (_compared(name, before, after, language) for name in wanted)
    return tuple(change for change in changes if change)


def _compared(name: str, before: InForce, after: InForce, language: str) -> ChangedClause | None:
    old, new = (_worded(each.clauses.get(name)) for each in (before, after))
    if old is None and new is None:
        return None
    newest = new or old
    assert newest is not None
    title = newest.title.get(language) or (old and old.title.get(language)) or name
    texts, unworded = tuple(_texts(old, new, language)), language not in newest.texts
    if old is None:
        return ChangedClause(name, title, "new", texts, unworded=unworded)
    if new is None:
        gone = after.retired.get(name)
        because, instead = (gone.because, gone.instead or "") if gone else ("", "")
        return ChangedClause(name, title, "gone", texts, None, because, instead, unworded=unworded)
    pairs = (
        _pair(*(condition_in_words(each.when) for each in (old, new))),
        _pair(*(each.title.get(language, "") for each in (old, new))),
        _pair(*(each.name_if_absent.get(language, "") for each in (old, new))),
    )
    if not texts and not any(pairs):
        return None
    conditions, titles, names = pairs
    return ChangedClause(
        name, title, "changed", texts, conditions, titles=titles, absent_names=names, unworded=unworded
    )


def _pair(old: str, new: str) -> tuple[str, str] | None:
    """Both, where they are not the same."""
    return (old, new) if old != new else None


def changed_elsewhere(
    library: Library, old: int, new: int, language: str, names: tuple[str, ...] = ()
) -> dict[str, tuple[str, ...]]:
    """The clauses that change in other languages alone, as `compared` tells them, with these languages."""
    rulings = [
        ruling for season in (old, new) for ruling in library.in_force(season, date.max).clauses.values()
    ]
    here = {change.clause for change in compared(library, old, new, language, names)}
    found: dict[str, tuple[str, ...]] = {}
    for other in sorted({each for ruling in rulings for each in ruling.texts} - {language}):
        for change in compared(library, old, new, other, names):
            if change.clause not in here:
                found[change.clause] = (*found.get(change.clause, ()), other)
    return dict(sorted(found.items()))


def _worded(ruling: Ruling | None) -> Ruling | None:
    """A clause that has wording by then."""
    return ruling if ruling and ruling.texts else None


def _runs(was: Wording | None, now: Wording | None) -> tuple[Run, ...]:
    """The difference as people read it, with samples in the blanks; as it is written, where only blanks or
    conditions changed."""
    read = differences(_read(was), _read(now))
    if any(run.change != "same" for run in read):
        return read
    return differences(_words(was), _words(now))


def _texts(old: Ruling | None, new: Ruling | None, language: str) -> Iterator[ChangedText]:
    said, says = (each.texts.get(language, {}) if each else {} for each in (old, new))
    for way in dict.fromkeys((*said, *says)):
        was, now = said.get(way), says.get(way)
        runs = _runs(was, now)
        if any(run.change != "same" for run in runs):
            lacking = old if was is None else new if now is None else None
            without = _in_other_words(lacking, way)
            yield ChangedText(way, was.version if was else "", now.version if now else "", runs, without)


def _in_other_words(ruling: Ruling | None, way: str) -> str:
    """The version in which some language has a text for this way; empty where none has."""
    said = ruling.texts.values() if ruling else ()
    return next((texts[way].version for texts in said if way in texts), "")


def _read(wording: Wording | None) -> str:
    return sampled(wording.text, str(wording.path[2])) if wording else ""


def _words(wording: Wording | None) -> str:
    return wording.text if wording else ""
