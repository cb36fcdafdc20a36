"""What is looked for in wording, by language: hard words, promises, statements, denials."""

from __future__ import annotations

import re
from functools import cache
from importlib.resources import files
from typing import Any

from scopegen.load import parse


@cache
def plain_words() -> dict[str, Any]:
    """The lists of `plain_words.yaml`, which says what each is for."""
    data = parse((files("scopegen") / "plain_words.yaml").read_text(encoding="utf-8"), "").data
    assert isinstance(data, dict)
    return data


def promised(text: str, language: str) -> str:
    """What a text says that we do; empty where it says nothing of the kind, or nothing is known of the
    language."""
    said = plain_words().get(language, {})
    if not said.get("promises"):
        return ""
    bare = re.sub(said.get("harmless") or "(?!)", "", text, flags=re.IGNORECASE)
    found = re.search(said["promises"], bare, re.IGNORECASE)
    return found[0] if found else ""
