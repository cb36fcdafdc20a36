"""YAML text to plain text data with the line and column of every value.

Every scalar stays text: what it means is decided by the field that it stands in. What YAML could
guess or hide (anchors, aliases, tags, directives, a second document, a repeated key) is refused.
"""

from __future__ import annotations

import re
import unicodedata
from pathlib import Path

from scopegen.findings import Place
from scopegen.load.building import Builder
from scopegen.load.source import Data, Path_, Source, Unreadable, unreadable
from scopegen.load.yaml_faults import yaml_fault

__all__ = ["Data", "Path_", "Source", "Unreadable", "load", "parse", "read_text", "unreadable"]

MOST_BYTES = 1_000_000

# Control signs, and signs that change how the text around them reads or cannot be seen (Unicode UAX #9).
_HIDDEN = re.compile(
    "[\x00-\x08\x0b-\x0c\x0e-\x1f\x7f-\x9f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2064\u2066-\u2069\ufeff]|\r(?!\n)"
)


def read_text(path: Path, name: str) -> str:
    """The text of a file. Raises Unreadable where it cannot be read or is no text."""
    start = Place(name, 1, 1)
    try:
        if path.is_dir():
            raise unreadable(
                "unreadable-file",
                f"{name} is a folder, not a file",
                "name a file in it, such as its job description",
                start,
            )
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise unreadable(
            "unreadable-file", f"there is no file {name}", "check the name and the folder you are in", start
        ) from None
    except (OSError, ValueError) as error:
        reason = getattr(error, "strerror", None) or str(error)
        raise unreadable(
            "unreadable-file",
            f"{name} cannot be read: {reason}",
            "check the file and your right to read it",
            start,
        ) from None
    if len(raw) > MOST_BYTES:
        raise unreadable(
            "too-large",
            f"{name} is larger than {MOST_BYTES:,} bytes",
            "split it: one job description a job",
            start,
        )
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        line = raw.count(b"\n", 0, error.start) + 1
        column = error.start - (raw.rfind(b"\n", 0, error.start) + 1) + 1
        raise unreadable(
            "not-text",
            f"{name} is not UTF-8 text",
            "save it as plain text in UTF-8; if it is a picture or a PDF, name another file",
            Place(name, line, column),
        ) from None


def parse(text: str, name: str) -> Source:
    """The text as data with marks. Raises Unreadable with one finding for YAML that cannot be used."""
    from ruamel.yaml import YAML
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    source = Source(name, text, lines=tuple(text.splitlines()))
    _refuse_hidden_signs(source)
    builder = Builder(source)
    try:
        for event in YAML(typ="safe", pure=True, plug_ins=[]).parse(text):
            builder.take(event)
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        raise yaml_fault(error, source.at(mark.line + 1, mark.column + 1)) from None
    except (YAMLError, RecursionError, ValueError) as error:
        reason = str(error).splitlines()[0] if str(error) else "it is nested too deeply"
        raise unreadable(
            "yaml",
            f"the YAML cannot be read: {reason}",
            "look at the lines around this place",
            source.at(1, 1),
        ) from None
    return Source(name, text, builder.result, builder.marks, source.lines)


def load(path: Path, name: str | None = None) -> Source:
    """A YAML file as a Source. Raises Unreadable; an empty file is unreadable too."""
    name = name or str(path)
    source = parse(read_text(path, name), name)
    if source.data is None:
        raise unreadable(
            "empty-file",
            f"{name} is empty",
            "write at least the keys that README.md's first example has",
            source.at(1, 1),
        )
    if not isinstance(source.data, dict):
        raise unreadable(
            "not-a-mapping",
            f"{name} does not start with 'key: value' lines",
            "start each line with a key, such as 'job: Front beds'",
            source.at(1, 1),
        )
    return source


def _refuse_hidden_signs(source: Source) -> None:
    found = _HIDDEN.search(source.text)
    if found is None:
        return
    sign, line = found[0], source.text.count("\n", 0, found.start()) + 1
    column = found.start() - source.text.rfind("\n", 0, found.start())
    text = source.text.split("\n")[line - 1]
    place = Place(source.name, line, column, "".join(each if each.isprintable() else "?" for each in text))
    name = unicodedata.name(sign, "control sign").lower()
    raise unreadable(
        "hidden-sign",
        f"the line holds a sign that cannot be seen, U+{ord(sign):04X} {name}",
        "delete it and type the words again",
        place,
    )
