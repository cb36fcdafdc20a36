"""One file as it was read, with the place of every value; and a file that cannot be read."""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import Any

from scopegen.findings import Finding, Level, Place

Data = dict[str, Any] | list[Any] | str | None
Path_ = tuple[str | int, ...]
Spot = tuple[int, int]  # line and column, counted from 1


@dataclass(frozen=True)
class Source:
    """One file as it was read: its name as shown, its text, its data, and where each value stands."""

    name: str
    text: str = ""
    data: Data = None
    marks: dict[Path_, Spot] = field(default_factory=dict)
    lines: tuple[str, ...] = ()
    raw: bytes = b""  # the file itself, with the mark of its byte order if it has one

    def place(self, path: Path_ = (), *, key: bool = False) -> Place:
        """Where the value at a path stands, or its key; for what is not there, its nearest parent.

        A list of one may stand as that one: a step `0` into a mapping is passed over.
        """
        known: Path_ = ()
        node = self.data
        for step in path:
            if isinstance(node, dict) and step in node:
                node, known = node[str(step)], (*known, step)
            elif isinstance(node, list) and isinstance(step, int) and step < len(node):
                node, known = node[step], (*known, step)
            elif step != 0 and " " not in str(step):  # a union's tag, two words, is no step of the file
                break
        at_key = (*known, "@key") if key and (*known, "@key") in self.marks else known
        line, column = self.marks.get(at_key, (1, 1))
        return self.at(line, column)

    def at(self, line: int, column: int) -> Place:
        """A place by line and column, counted from 1."""
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Place(self.name, line, column, text)


class Unreadable(Exception):
    """The file could not be understood at all; `finding` says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


def unreadable(rule: str, message: str, fix: str, place: Place) -> Unreadable:
    """An Unreadable that stops."""
    return Unreadable(Finding(rule, Level.STOPS, message, fix, place))
