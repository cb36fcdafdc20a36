"""What is wrong or open, as a value, and how it prints."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterable
from dataclasses import dataclass
from enum import StrEnum


class Level(StrEnum):
    """How much a finding weighs. Only `stops` keeps the agreement from being written."""

    STOPS = "stops"
    WARNS = "warns"
    NOTES = "notes"


@dataclass(frozen=True, slots=True)
class Place:
    """Where in a file, counted from 1, and the line as it stands there."""

    file: str
    line: int
    column: int
    text: str = ""


def printable(text: str, breaks: str = "\n") -> str:
    """A text with every sign that cannot be seen, or that a terminal would obey, written as its code.

    The `breaks` stay as they are."""
    if text.translate(dict.fromkeys(map(ord, breaks))).isprintable():
        return text  # nearly every text
    return "".join(sign if sign in breaks or _is_seen(sign) else ascii(sign)[1:-1] for sign in text)


def _is_seen(sign: str) -> bool:
    return sign.isprintable() or unicodedata.category(sign) == "Zs"


_ONE_LINE = str.maketrans("\t\n", "  ")  # so that the mark stands under its sign
SHOWN = 100  # characters of a long line that are shown around the place


def _around(text: str, column: int) -> tuple[str, int]:
    """A piece of a long line around a column, and the column within it."""
    if len(text) <= SHOWN:
        return text, column
    first = max(0, min(column - SHOWN // 2, len(text) - SHOWN))
    before, after = "…" * (first > 0), "…" * (first + SHOWN < len(text))
    return f"{before}{text[first : first + SHOWN]}{after}", column - first + len(before)


@dataclass(frozen=True, slots=True)
class Finding:
    """One thing that a check has to say, in the contractor's words."""

    rule: str
    level: Level
    message: str
    fix: str
    place: Place
    bed: str | None = None
    decision: str | None = None

    def as_json(self) -> dict[str, object]:
        """The finding as plain data; `bed` and `decision` only where they apply."""
        data: dict[str, object] = {
            "rule": self.rule,
            "level": str(self.level),
            "message": self.message,
            "fix": self.fix,
            "file": self.place.file,
            "line": self.place.line,
            "column": self.place.column,
        }
        if self.bed is not None:
            data["bed"] = self.bed
        if self.decision is not None:
            data["decision"] = self.decision
        return data

    def as_text(self) -> str:
        """The finding as a terminal prints it: where, what, the line with a mark under it, what to do."""
        where = f"{self.place.file}:{self.place.line}:{self.place.column}"
        message = self.message.translate(_ONE_LINE)
        lines = [f"{where}: {self.level}: {message}  [{self.rule}]"]
        if self.place.text and not self.place.text.isspace():
            shown, column = _around(self.place.text.rstrip(), self.place.column)
            lines += [f"    {shown.translate(_ONE_LINE)}", "    " + " " * (column - 1) + "^"]
        if self.fix:
            lines.append(f"    To do: {self.fix}")
        return "\n".join(lines)


def in_file_order(findings: Iterable[Finding]) -> tuple[Finding, ...]:
    """Findings without repeats, by file as first met, then line and column; ties keep their order."""
    unique = list(dict.fromkeys(findings))
    files: dict[str, int] = {}
    for finding in unique:
        files.setdefault(finding.place.file, len(files))
    return tuple(sorted(unique, key=lambda f: (files[f.place.file], f.place.line, f.place.column)))


def stops(findings: Iterable[Finding]) -> bool:
    """Whether any of the findings keeps the agreement from being written."""
    return any(finding.level is Level.STOPS for finding in findings)
