"""YAML text to plain text data with the line and column of every value.

Every scalar stays text: what it means is decided by the field that it stands in. What YAML could
guess or hide (anchors, aliases, tags, directives, a second document, a repeated key) is refused.
"""

from __future__ import annotations

import re
from dataclasses import replace
from pathlib import Path

from scopegen.findings import Place
from scopegen.load.building import Builder
from scopegen.load.hidden import refuse_hidden_signs
from scopegen.load.source import Data, Path_, Source, Unreadable, unreadable
from scopegen.load.yaml_faults import yaml_fault

__all__ = ["Data", "Path_", "Source", "Unreadable", "load", "parse", "read_text", "unreadable"]

MOST_BYTES = 1_000_000
_BEYOND = re.compile(r"\\U(?!0010|000)[0-9a-fA-F]{8}")  # Unicode ends at U+10FFFF


def read_text(path: Path, name: str, content: bytes | None = None) -> str:
    """The text of a file, or of `content` in its place. Raises Unreadable where it is no text or not read."""
    start = Place(name, 1, 1)
    return _text_of(_bytes_of(path, name, start) if content is None else content, name)


def _text_of(raw: bytes, name: str) -> str:
    start = Place(name, 1, 1)
    if len(raw) > MOST_BYTES:
        message = f"{name} is larger than {MOST_BYTES:,} bytes"
        raise unreadable("too-large", message, "split it: one job description a job", start)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        fix = "save it as plain text in UTF-8; if it is a picture or a PDF, name another file"
        place = _place_of_byte(raw, error.start, name)
        raise unreadable("not-text", f"{name} is not UTF-8 text", fix, place) from None


def _bytes_of(path: Path, name: str, start: Place) -> bytes:
    """The file's bytes, one more than it may have at the most."""
    try:
        if path.is_dir():
            fix = "name a file in it, such as its job description"
            raise unreadable("unreadable-file", f"{name} is a folder, not a file", fix, start)
        with path.open("rb") as file:
            return file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        fix = "check the name and the folder you are in"
        raise unreadable("unreadable-file", f"there is no file {name}", fix, start) from None
    except (OSError, ValueError) as error:
        message = f"{name} cannot be read: {getattr(error, 'strerror', None) or error}"
        fix = "check the file and your right to read it"
        raise unreadable("unreadable-file", message, fix, start) from None


def _place_of_byte(raw: bytes, position: int, name: str) -> Place:
    """Line and column of a byte that is no UTF-8, counted in characters, a byte order mark left out."""
    read = raw.removeprefix(b"\xef\xbb\xbf")
    before = read[:position].decode("utf-8")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    text = read.decode("utf-8", "replace").split("\n")[line - 1]
    return Place(name, line, column, "".join(each if each.isprintable() else "?" for each in text))


def parse(text: str, name: str) -> Source:
    """The text as data with marks. Raises Unreadable with one finding for YAML that cannot be used."""
    from ruamel.yaml.error import MarkedYAMLError, YAMLError

    source = Source(name, text, lines=tuple(text.splitlines()))
    refuse_hidden_signs(source)
    try:
        builder = _read_fast(source) or _built(source, pure=True)
    except MarkedYAMLError as error:
        raise yaml_fault(error, source) from None
    except (YAMLError, RecursionError, ValueError, OverflowError):
        raise _beyond_the_parser(source) from None
    return Source(name, text, builder.result, builder.marks, source.lines)


def _read_fast(source: Source) -> Builder | None:
    """What the parser in C makes of a text, None where the one in Python has to say what is wrong with it.

    The one in C lets tabs pass, which the other refuses, and finds an empty document elsewhere.
    """
    if "\t" in source.text:
        return None
    try:
        builder = _built(source, pure=False)
        return None if builder.result is None else builder
    except Exception:  # whatever it is, the parser in Python says it with its place, and in words we know
        return None


def _built(source: Source, *, pure: bool) -> Builder:
    """The events taken one by one, from the parser in Python (`pure`) or the seven times faster one in C."""
    from ruamel.yaml import YAML

    builder = Builder(source)
    for event in YAML(typ="safe", pure=pure, plug_ins=[]).parse(source.text):
        builder.take(event)
    return builder


def load(path: Path, name: str | None = None, content: bytes | None = None) -> Source:
    """A YAML file, or `content` in its place, as a Source. Raises Unreadable, for an empty file too."""
    name = name or str(path)
    raw = _bytes_of(path, name, Place(name, 1, 1)) if content is None else content
    source = replace(parse(_text_of(raw, name), name), raw=raw)
    if source.data is None:
        raise unreadable(
            "empty-file",
            f"{name} is empty",
            "lay out a folder with `scopegen start`, and begin with the first job in it",
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
