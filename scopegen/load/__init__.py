"""YAML text to plain text data with the line and column of every value.

Every scalar stays text: what it means is decided by the field that it stands in. What YAML could
guess or hide (anchors, aliases, tags, directives, a second document, a repeated key) is refused.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from scopegen.load.building import LIMITS, Builder
from scopegen.load.events import events_in_c, events_in_python
from scopegen.load.hidden import refuse_hidden_signs
from scopegen.load.kinds import EMPTY, FIRST_LINE, Kind
from scopegen.load.reading import read_bytes, read_text, text_of
from scopegen.load.source import Data, Path_, Source, Unreadable, unreadable
from scopegen.load.yaml_faults import yaml_fault

__all__ = ["Data", "Kind", "Path_", "Source", "Unreadable", "load", "parse", "read_text", "unreadable"]

_BEYOND = re.compile(r"\\U(?!0010|000)[0-9a-fA-F]{8}")  # Unicode ends at U+10FFFF


def parse(text: str, name: str) -> Source:
    """The text as data with marks. Raises Unreadable with one finding for YAML that cannot be used."""
    source = Source(name, text, lines=tuple(text.splitlines()))
    refuse_hidden_signs(source)
    builder = _built_in_c(source) or _built_in_python(source)
    return Source(name, text, builder.result, builder.marks, source.lines)


def _built_in_c(source: Source) -> Builder | None:
    """What the C parser reads; None where there is none, or where it refuses something. Limits are final."""
    from ruamel.yaml.error import YAMLError

    events, builder = events_in_c(source.text), Builder(source)
    if events is None:
        return None
    try:
        for event in events:
            builder.take(event)
    except Unreadable as refused:
        if refused.finding.rule in LIMITS:
            raise
        return None
    except (YAMLError, ValueError):
        return None
    return builder


def _built_in_python(source: Source) -> Builder:
    """What the parser in Python reads, or the one finding that it brings."""
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    builder = Builder(source)
    try:
        for event in events_in_python(source.text):
            builder.take(event)
    except MarkedYAMLError as error:
        raise yaml_fault(error, source) from None
    except (YAMLError, RecursionError, ValueError, OverflowError, IndexError, AssertionError):
        raise _beyond_the_parser(source) from None
    return builder


def load(
    path: Path,
    name: str | None = None,
    content: bytes | None = None,
    inside: Path | None = None,
    kind: Kind = "job",
) -> Source:
    """A YAML file, or `content` in its place, as a Source. Raises Unreadable, for an empty file too, and
    where a link leads out of the folder `inside`; `kind` is what the file is meant to be."""
    name = name or str(path)
    raw = read_bytes(path, name, inside=inside) if content is None else content
    source = replace(parse(text_of(raw, name), name), raw=raw)
    if source.data is None:
        raise unreadable(
            "empty-file",
            f"{name} is empty",
            EMPTY[kind],
            source.at(1, 1),
        )
    if not isinstance(source.data, dict):
        raise unreadable(
            "not-a-mapping",
            f"{name} does not start with 'key: value' lines",
            f"start each line with a key, such as '{FIRST_LINE[kind]}'",
            source.at(1, 1),
        )
    return source


def _beyond_the_parser(source: Source) -> Unreadable:
    """What the parser ends over without a place: an escape beyond Unicode, or what nobody foresaw."""
    found = _BEYOND.search(source.text)
    if found is None:
        return unreadable(
            "yaml", "the YAML goes beyond what can be read", "write it simpler", source.at(1, 1)
        )
    line = source.text.count("\n", 0, found.start()) + 1
    column = found.start() - source.text.rfind("\n", 0, found.start())
    message = f"the YAML cannot be read here: '{found[0]}' names no sign"
    return unreadable("yaml", message, "write the sign itself", source.at(line, column))
