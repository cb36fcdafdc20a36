"""The wording that a workspace has put on paper: kept word by word, so that a later change to it is found.

`clauses.lock` has a line of JSON for each text (https://jsonlines.org), so that two people's additions can be
laid together line by line.
"""

from __future__ import annotations

import json
from collections.abc import Iterable
from dataclasses import asdict, dataclass
from hashlib import sha256

from scopegen.findings import Place
from scopegen.load import Unreadable, unreadable

NAME = "clauses.lock"
_KEYS = ("clause", "version", "whose", "language", "way", "since", "job", "sha256", "text")


@dataclass(frozen=True, slots=True)
class Printed:
    """A text that was put on paper: of which clause and version, whose, in which language and for which way
    to decide, on which day (as the paper is dated) and for which job first."""

    clause: str
    version: str
    whose: str
    language: str
    way: str
    since: str
    job: str
    sha256: str
    text: str

    @property
    def key(self) -> tuple[str, str, str, str, str]:
        """What a text is one of: none of it changes while the text stays as it was signed."""
        return self.clause, self.version, self.whose, self.language, self.way


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
    """The texts with those that were not there before, by key and words, in the order of keys."""
    there = {(text.key, text.sha256): text for text in known}
    for text in more:
        there.setdefault((text.key, text.sha256), text)
    return tuple(sorted(there.values(), key=lambda text: (text.key, text.since, text.sha256)))


def as_lines(printed: Iterable[Printed]) -> str:
    """The content of a lock."""
    return "".join(f"{json.dumps(asdict(text), ensure_ascii=False)}\n" for text in printed)


def first_of_each(printed: Iterable[Printed]) -> dict[tuple[str, str, str, str, str], Printed]:
    """The text that was put on paper first, by its key."""
    first: dict[tuple[str, str, str, str, str], Printed] = {}
    for text in sorted(printed, key=lambda text: text.since):
        first.setdefault(text.key, text)
    return first
