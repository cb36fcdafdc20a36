"""Why nothing was drawn."""

from __future__ import annotations

import unicodedata


class RenderingUnavailable(Exception):
    """Something that drawing needs is not there. The text says what to install, or where room is needed."""


class UndrawableText(Exception):
    """A text holds a character that the fonts cannot draw."""

    def __init__(self, character: str, text: str) -> None:
        """`character` is the one that cannot be drawn, `text` what it stands in, to find it by."""
        self.character = character
        self.code = f"U+{ord(character):04X}"
        category = unicodedata.category(character)
        shown = "" if category[0] in "CZM" else f"“{character}” "
        name = unicodedata.name(character, "a character without a name")
        super().__init__(
            f"the papers' fonts cannot draw {shown}({self.code}, {name}) in “{excerpt(text, character)}”: "
            "write it another way"
        )


def excerpt(text: str, character: str, around: int = 30) -> str:
    """The text near a character, with every sign that cannot be seen written as its code."""
    at = text.index(character)
    near = text[max(0, at - around) : at + around + 1]
    return "".join(c if c.isprintable() else f"[U+{ord(c):04X}]" for c in near)
