"""YAML text to plain text data with the line and column of every value.

Every scalar stays text: what it means is decided by the field that it stands in. What YAML could
guess or hide (anchors, aliases, tags, directives, a second document, a repeated key) is refused.
"""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from scopegen.findings import Finding, Level, Place

MOST_BYTES = 1_000_000
MOST_DEPTH = 40
MOST_ITEMS = 50_000
MOST_TEXT = 10_000  # of one value: longer paragraphs cost minutes of layout

Data = dict[str, Any] | list[Any] | str | None
Path_ = tuple[str | int, ...]

# Control signs, and signs that change how the text around them reads or cannot be seen (Unicode UAX #9).
_HIDDEN = re.compile(
    "[\x00-\x08\x0b-\x0c\x0e-\x1f\x7f-\x9f\u00ad\u200b-\u200f\u2028-\u202e\u2060-\u2064\u2066-\u2069\ufeff]|\r(?!\n)"
)


@dataclass(frozen=True)
class Source:
    """One file as it was read: its name as shown, its text, its data, and where each value stands."""

    name: str
    text: str = ""
    data: Data = None
    marks: dict[Path_, tuple[int, int]] = field(default_factory=dict)
    lines: tuple[str, ...] = ()

    def place(self, path: Path_ = (), *, key: bool = False) -> Place:
        """Where the value at a path stands, or its key; for what is not there, its nearest parent.

        A list of one may stand as that one: a step `0` into a mapping is passed over.
        """
        known: Path_ = ()
        node = self.data
        for step in path:
            if isinstance(node, dict) and step in node:
                node, known = node[str(step)], (*known, step)
            elif isinstance(node, list) and isinstance(step, int) and step < len(node):
                node, known = node[step], (*known, step)
            elif step != 0 and " " not in str(step):  # a union's tag, two words, is no step of the file
                break
        at_key = (*known, "@key") if key and (*known, "@key") in self.marks else known
        line, column = self.marks.get(at_key, (1, 1))
        return self.at(line, column)

    def at(self, line: int, column: int) -> Place:
        """A place by line and column, counted from 1."""
        text = self.lines[line - 1] if 0 < line <= len(self.lines) else ""
        return Place(self.name, line, column, text)


class Unreadable(Exception):
    """The file could not be understood at all; `finding` says why."""

    def __init__(self, finding: Finding) -> None:
        super().__init__(finding.message)
        self.finding = finding


def unreadable(rule: str, message: str, fix: str, place: Place) -> Unreadable:
    """An Unreadable that stops."""
    return Unreadable(Finding(rule, Level.STOPS, message, fix, place))


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
    builder = _Builder(source)
    try:
        for event in YAML(typ="safe", pure=True, plug_ins=[]).parse(text):
            builder.take(event)
    except MarkedYAMLError as error:
        mark = error.problem_mark or error.context_mark
        raise _yaml_fault(error, source.at(mark.line + 1, mark.column + 1)) from None
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


_ADVICE = (
    (re.compile(r"cannot start any token|found character '\\t'"), "a tab or a sign that YAML keeps for itself", "use spaces, never tabs, before a key; put text with special signs in quotes"),
    (re.compile(r"mapping values are not allowed"), "a second ': ' in one line", "put the text in quotes, or start a new line"),
    (re.compile(r"expected <block end>|while parsing a block|could not find expected ':'|expected alphabetic"), "the lines do not line up, or a ':' is missing", "let keys that belong together start in the same column, each followed by ': '"),
    (re.compile(r"flow (mapping|sequence)|expected ',' or"), "a bracket or brace that is not closed, or a missing comma", "close each { with } and each [ with ]; put text with commas in quotes"),
    (re.compile(r"quoted scalar|end of stream"), "a quote that is not closed", "close the quote"),
)  # fmt: skip


def _yaml_fault(error: Any, place: Place) -> Unreadable:
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


class _Builder:
    """Builds the data from YAML's flat events, so that nothing recursive meets what a stranger nested."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.marks: dict[Path_, tuple[int, int]] = {}
        self.result: Data = None
        self.items = 0
        self.stack: list[tuple[Any, Path_, bool]] = []  # the open collections: value, path, in braces
        self.keys: list[Any] = []  # for each open mapping the key that waits for its value
        self.documents = 0

    def take(self, event: Any) -> None:
        """One event. Raises Unreadable for what is refused."""
        kind = type(event).__name__
        place = self.source.at(event.start_mark.line + 1, event.start_mark.column + 1)
        self.items += 1
        if self.items > MOST_ITEMS:
            raise unreadable(
                "too-many-items", f"there are more than {MOST_ITEMS:,} items", "split the file", place
            )
        if kind == "AliasEvent" or getattr(event, "anchor", None):
            raise unreadable(
                "alias",
                "anchors (&) and aliases (*) are not used here",
                "write the value out, or say it once under every_bed; put text that starts with & or * in quotes",
                place,
            )
        if kind == "DocumentStartEvent":
            self._document(event, place)
        elif kind == "ScalarEvent":
            self._scalar(event, place)
        elif kind in ("MappingStartEvent", "SequenceStartEvent"):
            self._refuse_tag(event, place)
            self._open({} if kind == "MappingStartEvent" else [], place, bool(event.flow_style))
        elif kind in ("MappingEndEvent", "SequenceEndEvent"):
            self.stack.pop()
            self.keys.pop()

    def _document(self, event: Any, place: Place) -> None:
        self.documents += 1
        if self.documents > 1:
            raise unreadable(
                "second-document",
                "a second document starts here",
                "keep one document a file: take out the line '---'",
                place,
            )
        if event.version or event.tags:
            raise unreadable(
                "directive",
                "a line that starts with % is not used here",
                "take that line out",
                self.source.at(1, 1),
            )

    def _refuse_tag(self, event: Any, place: Place) -> None:
        tag = getattr(event, "tag", None)
        if tag and str(tag) != "None":
            raise unreadable(
                "tag",
                "a tag (!) is not used here",
                "take it out; put text that starts with ! in quotes",
                place,
            )

    def _scalar(self, event: Any, place: Place) -> None:
        self._refuse_tag(event, place)
        quoted = event.style is not None
        if len(event.value) > MOST_TEXT:
            raise unreadable(
                "long-text", f"a text has more than {MOST_TEXT:,} characters", "shorten it", place
            )
        value = event.value if quoted or event.value not in ("", "~", "null") else None
        if not quoted and value is not None:
            rest = place.text[event.end_mark.column :] if event.end_mark.line + 1 == place.line else ""
            if re.match(r"\s+#\d", rest):
                raise unreadable(
                    "lost-comment",
                    "the text from '#' on would be lost as a comment",
                    "put the whole text in quotes",
                    place,
                )
        if self._waits_for_key():
            self._key(value, place)
        else:
            self._refuse_bare_key(event, value, place)
            self._put(value, place)

    def _refuse_bare_key(self, event: Any, value: Data, place: Place) -> None:
        if (
            value is not None
            or not self.stack
            or not self.stack[-1][2]
            or not isinstance(self.stack[-1][0], dict)
        ):
            return
        if event.start_mark.index != event.end_mark.index or self.source.text[
            : event.start_mark.index
        ].rstrip().endswith(":"):
            return
        key = self.keys[-1]
        at = self.marks[(*self.stack[-1][1], key, "@key")]
        raise unreadable(
            "bare-key",
            f"'{key}' stands inside braces without a value",
            "put text that holds a comma in quotes, or give the key a value",
            self.source.at(*at),
        )

    def _waits_for_key(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1][0], dict) and self.keys[-1] is None

    def _key(self, value: Data, place: Place) -> None:
        mapping, path, _ = self.stack[-1]
        if value is None:
            raise unreadable("no-key", "a value stands here without a key", "write 'key: value'", place)
        if value in mapping:
            raise unreadable("repeated-key", f"'{value}' is given twice", "keep one of the two", place)
        self.marks[(*path, str(value), "@key")] = (place.line, place.column)
        mapping[value] = None
        self.keys[-1] = value

    def _put(self, value: Any, place: Place) -> Path_:
        if not self.stack:
            self.result, path = value, ()
        else:
            parent, above, _ = self.stack[-1]
            if isinstance(parent, dict):
                step: str | int = self.keys[-1]
                parent[step], self.keys[-1] = value, None
            else:
                step = len(parent)
                parent.append(value)
            path = (*above, step)
        self.marks[path] = (place.line, place.column)
        return path

    def _open(self, value: Any, place: Place, in_braces: bool) -> None:
        if self._waits_for_key():
            raise unreadable(
                "no-key",
                "a list or braces stand here where a key belongs",
                "write 'key: value', or put the text in quotes",
                place,
            )
        if len(self.stack) >= MOST_DEPTH:
            raise unreadable(
                "too-deep", f"values are nested deeper than {MOST_DEPTH}", "write it flatter", place
            )
        path = self._put(value, place)
        self.stack.append((value, path, in_braces))
        self.keys.append(None)
