"""A YAML parser's complaint in a contractor's words."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from scopegen.load.source import Source, Unreadable, unreadable


class _Advice(NamedTuple):
    """What the parser says, what that means, what to do, and whether the fault is where the piece begins."""

    said: re.Pattern[str]
    what: str
    fix: str
    at_begin: bool = False


_LINES = "let keys that belong together start in the same column, each followed by ': '"
_ADVICE = (
    _Advice(
        re.compile(r"escape (character|sequence)|hexdecimal numbers"),
        "a backslash that YAML does not know",
        "put the text in single quotes instead of double ones",
    ),
    _Advice(
        re.compile(r"cannot start any token"),
        "a sign that YAML keeps for itself",
        "put the text in quotes",
    ),
    _Advice(
        re.compile(r"but found '(,|\?)'|(sequence entries|mapping keys) are not allowed"),
        "a comma, a dash or a question mark where a value belongs",
        "take it out, or put the text in quotes",
    ),
    _Advice(
        re.compile(r"expected ':'|expected alphabetic"),
        "the lines do not line up, or a ':' is missing",
        _LINES,
        at_begin=True,
    ),
    _Advice(
        re.compile(r"expected <block end>|while parsing a block"),
        "the lines do not line up, or a ':' is missing",
        _LINES,
    ),
    _Advice(
        re.compile(r"flow (mapping|sequence)"),
        "a bracket or brace that is not closed, a missing comma, or a ': ' inside a text",
        "close each { with } and each [ with ]; put text with commas or colons in quotes",
        at_begin=True,
    ),
    _Advice(re.compile(r"quoted scalar"), "a quote that is not closed", "close the quote", at_begin=True),
)


def yaml_fault(error: Any, source: Source) -> Unreadable:
    """The finding for what the parser could not read."""
    mark = error.problem_mark or error.context_mark
    place = source.at(mark.line + 1, mark.column + 1)
    if "\t" in place.text[: place.column]:
        column = place.text.index("\t") + 1
        return unreadable(
            "yaml",
            "the YAML cannot be read: there is a tab where spaces belong",
            "use spaces, never tabs, before a key",
            source.at(place.line, column),
        )
    said = " ".join(str(part) for part in (error.context, error.problem) if part)
    if "mapping values are not allowed" in said:
        return _colon(source, place.line, place.column)
    for advice in _ADVICE:
        if advice.said.search(said):
            if advice.at_begin and error.context_mark:
                place = source.at(error.context_mark.line + 1, error.context_mark.column + 1)
            return unreadable("yaml", f"the YAML cannot be read here: {advice.what}", advice.fix, place)
    return unreadable(
        "yaml",
        "the YAML cannot be read here: this does not belong to what is above it",
        "look at this line and the one above it",
        place,
    )


def _colon(source: Source, line: int, column: int) -> Unreadable:
    """A colon too many: the second one of its line, or that of a line which stands too deep."""
    text = source.at(line, column).text
    if ": " in text[: column - 1]:
        what, fix = "a second ': ' in one line", "put the text in quotes, or start a new line"
    else:
        what, fix = "this line stands deeper than the one above it", _LINES
        column = len(text) - len(text.lstrip()) + 1
    return unreadable("yaml", f"the YAML cannot be read here: {what}", fix, source.at(line, column))
