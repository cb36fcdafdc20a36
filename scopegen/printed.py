"""The wording that a workspace has put on paper: kept word by word, so that a later change to it is found.

`clauses.lock` has a line of JSON for each text (https://jsonlines.org), so that two people's additions can be
laid together line by line. Its lines stand in the order of their keys, and those of one key as they were
written: what stands first there went on paper first, whatever the papers are dated.
"""

from __future__ import annotations

import json
import re
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from datetime import date
from hashlib import sha256

from scopegen.findings import Place
from scopegen.load import Unreadable, unreadable

NAME = "clauses.lock"
Key = tuple[str, str, str, str]  # clause, version, language, way
_VERSION = re.compile(r"([0-9]+)(?:, from ([0-9-]+))?")  # as `clauses.clause.Version.name` has it
_KEYS = ("clause", "version", "whose", "language", "way", "since", "job", "sha256", "text")


@dataclass(frozen=True, slots=True)
class Printed:
    """A text that was put on paper: of which clause and version, whose, in which language and for which way
    to decide, on which day (as the paper is dated) and for which job first.

    Raises ValueError where `version` or `since` is not as they are written.
    """

    clause: str
    version: str
    whose: str
    language: str
    way: str
    since: str
    job: str
    sha256: str
    text: str

    def __post_init__(self) -> None:
        _ = self.season, self.day

    @property
    def key(self) -> Key:
        """What a text is one of, whoever wrote it: a job of that season has one text for it."""
        return self.clause, self.version, self.language, self.way

    @property
    def season(self) -> int:
        """The season of its version."""
        return int(self._named()[1])

    @property
    def day(self) -> date:
        """The day that the paper was dated; the first of its version for one that a later season took."""
        first = self._named()[2]
        dated = date.fromisoformat(self.since)
        return max(dated, date.fromisoformat(first)) if first else dated

    def _named(self) -> re.Match[str]:
        found = _VERSION.fullmatch(self.version)
        if found is None:
            raise ValueError(f"no name of a version: {self.version}")
        return found


def digest(text: str) -> str:
    """The SHA-256 of a text, however its lines are broken in the file."""
    return sha256(" ".join(text.split()).encode()).hexdigest()


def read_printed(content: str, name: str) -> tuple[Printed, ...]:
    """The texts of a lock. Raises Unreadable, with the line, for one that is not as it was written."""
    printed = []
    for number, line in enumerate(content.splitlines(), start=1):
        try:
            said = json.loads(line)
            if (
                not isinstance(said, dict)
                or {*said} != {*_KEYS}
                or not all(isinstance(v, str) for v in said.values())
            ):
                raise ValueError
            text = Printed(**said)
        except (ValueError, RecursionError):
            raise _altered(name, number, "is no line of what was put on paper") from None
        if digest(text.text) != text.sha256:
            raise _altered(name, number, f"has another text of '{text.clause}' than was put on paper")
        printed.append(text)
    return tuple(printed)


def _altered(name: str, number: int, what: str) -> Unreadable:
    fix = "take the file back from your last copy; without it, old papers cannot be told from new wording"
    return unreadable("clauses-lock", f"line {number} of {name} {what}", fix, Place(name, number, 1))


def with_more(known: tuple[Printed, ...], more: Iterable[Printed]) -> tuple[Printed, ...]:
    """The texts with those that were not there before, by key and words: in the order of keys, and behind
    what was there of the same key."""
    there: dict[tuple[Key, str], Printed] = {}
    for text in (*known, *more):
        there.setdefault((text.key, text.sha256), text)
    return tuple(sorted(there.values(), key=lambda text: text.key))


def as_lines(printed: Iterable[Printed]) -> str:
    """The content of a lock."""
    return "".join(f"{json.dumps(asdict(text), ensure_ascii=False)}\n" for text in printed)


def first_of_each(printed: Iterable[Printed]) -> dict[Key, Printed]:
    """The text that was put on paper first, by its key: in the order of writing, not of the papers' days."""
    first: dict[Key, Printed] = {}
    for text in printed:
        first.setdefault(text.key, text)
    return first
