"""How a new value is written: as plain text where YAML takes it as it stands, else in quotes."""

from __future__ import annotations

import json
import re

from scopegen.amend.edits import Value

# What no sign of YAML can be mistaken in, in braces neither: it starts with a letter, a figure or a sign of
# money, and holds no colon, comma, bracket or number sign.
_PLAIN = re.compile(r"[\w$.(](?:[\w$./()%+*'’\"″;=–…-]| (?! ))*")
_NOTHING = ("~", "null")  # what `load` reads as no value


def scalar(value: str | None, style: str = "") -> str:
    """One value on one line, in the quotes of `style` where it has some."""
    if value is None:
        return "~"
    if style == "'" and value.isprintable():
        return "'" + value.replace("'", "''") + "'"
    if style != '"' and _PLAIN.fullmatch(value) and not value.endswith(" ") and value not in _NOTHING:
        return value
    return json.dumps(value, ensure_ascii=False)  # YAML's double quotes take all that JSON's do


def in_braces(value: Value) -> str:
    """A value as it stands in braces, in brackets, or on one line."""
    if isinstance(value, dict):
        return "{" + ", ".join(f"{scalar(key)}: {in_braces(each)}" for key, each in value.items()) + "}"
    if isinstance(value, list):
        return "[" + ", ".join(in_braces(each) for each in value) + "]"
    return scalar(value)


def in_lines(lead: str, value: Value, indent: str, newline: str) -> str:
    """`lead` (a key with its colon, or a dash) and its value, a line an entry; no line end at the end."""
    deeper = f"{indent}  "
    if isinstance(value, dict) and value:
        parts = [in_lines(f"{scalar(key)}:", each, deeper, newline) for key, each in value.items()]
    elif isinstance(value, list) and value:
        parts = [f"- {in_braces(each)}" for each in value]
    else:
        return f"{lead} {in_braces(value)}"
    return newline.join([lead, *(deeper + part for part in parts)])
