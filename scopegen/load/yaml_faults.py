"""A YAML parser's complaint in a contractor's words."""

from __future__ import annotations

import re
from typing import Any, NamedTuple

from scopegen.findings import Place
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
    _Advice(
        re.compile(r"more indented follow up line"),
        "the first line of a text stands further left than the next",
        "let its lines start in one column, and take the spaces out of a blank line above them",
    ),
    _Advice(re.compile(r"quoted scalar"), "a quote that is not closed", "close the quote", at_begin=True),
)


def yaml_fault(error: Any, source: Source) -> Unreadable:
    """The finding for what the parser could not read."""
    mark = error.problem_mark or error.context_mark
    place = source.at(mark.line + 1, mark.column + 1) if mark else source.at(1, 1)
    if "\t" in place.text[: place.column]:
        column = place.text.index("\t") + 1
        return unreadable(
            "yaml",
            "the YAML cannot be read: there is a tab where spaces belong",
            "use spaces, never tabs, before a key",
            source.at(place.line, column),
        )
    long = _long_key(source, error)
    if long:
        return too_long_a_key(long)
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


# YAML 1.2.2, 7.4.2: "the \":\" indicator must appear at most 1024 Unicode characters beyond the start of
# the key".
MOST_KEY = 1024


def too_long_a_key(place: Place) -> Unreadable:
    """A key of which YAML does not see that it is one."""
    what = f"a key is longer than the {MOST_KEY:,} signs that YAML lets it be"
    fix = "give it a short key, and write the long text as its value"
    return unreadable("yaml", f"the YAML cannot be read here: {what}", fix, place)


def _long_key(source: Source, error: Any) -> Place | None:
    """Where a key that is too long begins: the parser says where it began, or met its colon."""
    mark, start = error.problem_mark, error.context_mark
    if mark is None:
        return None
    if start is not None and "simple key" in str(error.context):
        line = source.at(start.line + 1, start.column + 1)
        rest = line.text[start.column :]
        key = _QUOTED.match(rest)
        end = key.end() if key else rest.find(": ")
        is_long = end > MOST_KEY and rest[end:].lstrip().startswith(":")
        return line if is_long else None
    line = source.at(mark.line + 1, mark.column + 1)
    before = line.text[: mark.column].rstrip()
    quote = before[-1:] if before[-1:] in ("'", '"') else ""
    if not line.text[mark.column :].startswith(":"):
        return None
    first = before.rfind(quote, 0, -1) if quote else max(before.rfind(sign) for sign in "{[,:") + 1
    first += len(before[first:]) - len(before[first:].lstrip())
    is_value = before[:first].rstrip().endswith(":")  # then it is a second colon in one line
    return source.at(line.line, first + 1) if len(before) - first > MOST_KEY and not is_value else None


_QUOTED = re.compile(r"""\"(?:[^\"\\]|\\.)*\"|'(?:[^']|'')*'""")


def _colon(source: Source, line: int, column: int) -> Unreadable:
    """A colon too many: the second one of its line, or that of a line which stands too deep."""
    text = source.at(line, column).text
    if ": " in text[: column - 1]:
        what, fix = "a second ': ' in one line", "put the text in quotes, or start a new line"
    else:
        what, fix = "this line stands deeper than the one above it", _LINES
        column = len(text) - len(text.lstrip()) + 1
    return unreadable("yaml", f"the YAML cannot be read here: {what}", fix, source.at(line, column))
