"""A YAML parser's complaint in a contractor's words."""

from __future__ import annotations

import re
from typing import Any

from scopegen.findings import Place
from scopegen.load.source import Unreadable, unreadable

# What the parser says, what that means, and what to do.
_ADVICE = (
    (
        re.compile(r"cannot start any token|found character '\\t'"),
        "a tab or a sign that YAML keeps for itself",
        "use spaces, never tabs, before a key; put text with special signs in quotes",
    ),
    (
        re.compile(r"mapping values are not allowed"),
        "a second ': ' in one line",
        "put the text in quotes, or start a new line",
    ),
    (
        re.compile(
            r"expected <block end>|while parsing a block|could not find expected ':'|expected alphabetic"
        ),
        "the lines do not line up, or a ':' is missing",
        "let keys that belong together start in the same column, each followed by ': '",
    ),
    (
        re.compile(r"flow (mapping|sequence)|expected ',' or"),
        "a bracket or brace that is not closed, or a missing comma",
        "close each { with } and each [ with ]; put text with commas in quotes",
    ),
    (re.compile(r"quoted scalar|end of stream"), "a quote that is not closed", "close the quote"),
)


def yaml_fault(error: Any, place: Place) -> Unreadable:
    said = " ".join(str(part) for part in (error.context, error.problem) if part)
    if "\t" in place.text[: place.column]:
        return unreadable(
            "yaml",
            "the YAML cannot be read: there is a tab where spaces belong",
            "use spaces, never tabs, before a key",
            place,
        )
    for pattern, what, fix in _ADVICE:
        if pattern.search(said):
            return unreadable("yaml", f"the YAML cannot be read here: {what}", fix, place)
    return unreadable(
        "yaml",
        f"the YAML cannot be read here: {error.problem}",
        "look at this line and the one above it",
        place,
    )
