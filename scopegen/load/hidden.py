"""Signs that cannot be seen, or that change how the text around them reads."""

from __future__ import annotations

import re
import unicodedata

from scopegen.findings import Place
from scopegen.load.source import Source, Spot, Unreadable, unreadable

MOST_MARKS = 4  # on one letter: no living language puts more there
# Control signs but tab and line end, and what Unicode calls format signs: direction (UAX #9), joiners, soft
# hyphen, byte order mark, notes between lines, tags; what is no sign at all; and marks heaped on one letter,
# which would cover the lines around it.
_HIDDEN = re.compile(
    "[\x00-\x08\x0b\x0c\x0e-\x1f\x7f-\x9f\u00ad\u061c\u180e\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff"
    "\ufff9-\ufffb\ufffe\uffff\ud800-\udfff\U000e0000-\U000e007f]|\r(?!\n)"
    f"|[\u0300-\u036f\u1ab0-\u1aff\u1dc0-\u1dff\u20d0-\u20ff\ufe20-\ufe2f]{{{MOST_MARKS + 1},}}"
)


def refuse_hidden_signs(source: Source) -> None:
    """Raises Unreadable, at its place, for the first hidden sign that a file holds."""
    found = _HIDDEN.search(source.text)
    if found is None:
        return
    line = source.text.count("\n", 0, found.start()) + 1
    column = found.start() - source.text.rfind("\n", 0, found.start())
    text = source.text.split("\n")[line - 1]
    shown = "".join(each if each.isprintable() else "?" for each in text)
    raise _hidden(found[0], "the line holds", Place(source.name, line, column, shown))


def refuse_hidden_value(value: str, source: Source, spot: Spot) -> None:
    """The same for a value whose escapes, such as `\\u202e`, spell such a sign."""
    if value.isascii() and value.isprintable():
        return  # as most are, and that is told much sooner
    found = _HIDDEN.search(value)
    if found is not None:
        raise _hidden(found[0], "the text spells", source.at(*spot))


def _hidden(sign: str, where: str, place: Place) -> Unreadable:
    if len(sign) > 1:
        message = f"{where} {len(sign)} marks on one letter"
        return unreadable("hidden-sign", message, "delete them and type the word again", place)
    name = unicodedata.name(sign, "control sign").lower()
    return unreadable(
        "hidden-sign",
        f"{where} a sign that cannot be seen, U+{ord(sign):04X} {name}",
        "delete it and type the words again",
        place,
    )
