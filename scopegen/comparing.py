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


@dataclass(frozen=True, slots=True)
class ChangedClause:
    """One clause of which something is not as it was. `conditions` are when it was taken and when it is."""

    clause: str
    title: str
    kind: Literal["new", "gone", "changed"]
    texts: tuple[ChangedText, ...] = ()
    conditions: tuple[str, str] | None = None
    because: str = ""  # why it is no longer used
    instead: str = ""


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
    title = (new or old).title.get(language) or name  # type: ignore[union-attr]
    texts = tuple(_texts(old, new, language))
    if old is None:
        return ChangedClause(name, title, "new", texts)
    if new is None:
        gone = after.retired.get(name)
        because, instead = (gone.because, gone.instead or "") if gone else ("", "")
        return ChangedClause(name, title, "gone", texts, None, because, instead)
    asked = tuple(condition_in_words(each.when) for each in (old, new))
    conditions = (asked[0], asked[1]) if asked[0] != asked[1] else None
    return ChangedClause(name, title, "changed", texts, conditions) if texts or conditions else None


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
            yield ChangedText(way, was.version if was else "", now.version if now else "", runs)


def _read(wording: Wording | None) -> str:
    return sampled(wording.text, str(wording.path[2])) if wording else ""


def _words(wording: Wording | None) -> str:
    return wording.text if wording else ""
