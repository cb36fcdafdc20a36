"""Builds plain data from YAML's flat events, and refuses what YAML could guess or hide."""

from __future__ import annotations

import re
from typing import Any

from scopegen.load.hidden import refuse_hidden_value
from scopegen.load.source import Data, Path_, Source, Spot, Unreadable, unreadable
from scopegen.load.yaml_faults import MOST_KEY, too_long_a_key
from scopegen.quantities.units import shortened

MOST_DEPTH = 40
MOST_ITEMS = 75_000
LIMITS = frozenset(["too-many-items", "nested-too-deep", "long-text"])
_NUMBER_SIGN = re.compile(r"#\d")
_LOST_BEHIND, _LOST_ALONE = re.compile(r"\s*#\d"), re.compile(r"([^:]*:)?\s+#\d")
MOST_TEXT = 10_000  # of one value: longer paragraphs cost minutes of layout


class Builder:
    """Builds the data from YAML's flat events, so that nothing recursive meets what a stranger nested."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.marks: dict[Path_, Spot] = {}
        self.result: Data = None
        self.items = 0
        self.stack: list[tuple[Any, Path_, bool]] = []  # the open collections: value, path, in braces
        self.keys: list[Any] = []  # for each open mapping the key that waits for its value
        self.documents = 0
        self.may_lose_text = bool(
            _NUMBER_SIGN.search(source.text)
        )  # most files have none, so it is asked once

    def take(self, event: Any) -> None:
        """One event. Raises Unreadable for what is refused."""
        kind, mark = type(event).__name__, event.start_mark
        spot = mark.line + 1, mark.column + 1
        self.items += 1
        if self.items > MOST_ITEMS:
            raise self._unreadable(
                "too-many-items", f"there are more than {MOST_ITEMS:,} items", "split the file", spot
            )
        if kind == "AliasEvent" or getattr(event, "anchor", None):
            raise self._unreadable(
                "alias",
                "anchors (&) and aliases (*) are not used here",
                "write the value out; put text that starts with & or * in quotes",
                spot,
            )
        if kind == "DocumentStartEvent":
            self._document(event, spot)
        elif kind == "ScalarEvent":
            self._scalar(event, spot)
        elif kind in ("MappingStartEvent", "SequenceStartEvent"):
            self._refuse_tag(event, spot)
            self._open({} if kind == "MappingStartEvent" else [], spot, bool(event.flow_style))
        elif kind in ("MappingEndEvent", "SequenceEndEvent"):
            self.stack.pop()
            self.keys.pop()

    def _unreadable(self, rule: str, message: str, fix: str, spot: Spot) -> Unreadable:
        return unreadable(rule, message, fix, self.source.at(*spot))

    def _document(self, event: Any, spot: Spot) -> None:
        self.documents += 1
        if self.documents > 1:
            raise self._unreadable(
                "second-document",
                "a second document starts here",
                "keep one document a file: take out the line '---' or '...'",
                spot,
            )
        # the parser passes over directives that it does not know, so they are looked for in the text
        for number, line in enumerate(self.source.lines[: spot[0]], 1):
            if line.startswith("%"):
                raise self._unreadable(
                    "directive",
                    "a line that starts with % is not used here",
                    "take that line out",
                    (number, 1),
                )

    def _refuse_tag(self, event: Any, spot: Spot) -> None:
        tag = getattr(event, "tag", None)
        if tag and str(tag) != "None":
            raise self._unreadable(
                "tag",
                "a tag (!) is not used here",
                "take it out; put text that starts with ! in quotes",
                spot,
            )

    def _scalar(self, event: Any, spot: Spot) -> None:
        self._refuse_tag(event, spot)
        quoted = bool(event.style)  # the parser in C says '' where the one in Python says None
        if not quoted and not event.value and self._waits_for_value():
            spot = self._key_spot()  # the parser puts an empty value where the next thing begins
        if len(event.value) > MOST_TEXT:
            raise self._unreadable(
                "long-text", f"a text has more than {MOST_TEXT:,} characters", "shorten it", spot
            )
        refuse_hidden_value(event.value, self.source, spot)
        value = event.value if quoted or event.value not in ("", "~", "null") else None
        if not quoted and self.may_lose_text:
            self._refuse_lost_comment(event, spot)
        if self._waits_for_key():
            if value == "<<" and not quoted:
                raise self._unreadable(
                    "alias", "a merge key (<<) is not used here", "write the values out", spot
                )
            self._key(value, spot)
        else:
            self._refuse_bare_key(event, value, spot)
            self._put(value, spot)

    def _refuse_lost_comment(self, event: Any, spot: Spot) -> None:
        """'gate #2', and '#2' alone: a person means a number, YAML a comment."""
        if event.value:
            end = self.source.at(event.end_mark.line + 1, event.end_mark.column + 1)
            lost = _LOST_BEHIND.match(end.text, end.column - 1)
        else:
            start = self.source.at(*spot)
            lost = _LOST_ALONE.match(start.text, start.column - 1)
        if lost:
            raise self._unreadable(
                "lost-comment",
                "the text from '#' on would be lost as a comment",
                "put the whole text in quotes",
                spot,
            )

    def _refuse_bare_key(self, event: Any, value: Data, spot: Spot) -> None:
        if (
            value is not None
            or not self.stack
            or not self.stack[-1][2]
            or not isinstance(self.stack[-1][0], dict)
        ):
            return
        if event.start_mark.index != event.end_mark.index or self._follows_a_colon(event.start_mark.index):
            return
        if len(self.keys[-1]) > MOST_KEY - 2:  # its quotes count
            raise too_long_a_key(self.source.at(*spot))
        raise self._unreadable(
            "bare-key",
            f"'{shortened(self.keys[-1])}' stands inside braces without a value",
            "write numbers without a comma"
            if self.keys[-1][:1].isdigit()
            else "put text that holds a comma in quotes, or give the key a value",
            spot,
        )

    def _follows_a_colon(self, index: int) -> bool:
        """Whether the last sign before a place in the text, blanks apart, is a colon."""
        text = self.source.text
        while index and text[index - 1].isspace():
            index -= 1
        return text[index - 1 : index] == ":"

    def _waits_for_key(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1][0], dict) and self.keys[-1] is None

    def _waits_for_value(self) -> bool:
        return bool(self.stack) and isinstance(self.stack[-1][0], dict) and self.keys[-1] is not None

    def _key_spot(self) -> Spot:
        return self.marks[(*self.stack[-1][1], self.keys[-1], "@key")]

    def _key(self, value: Data, spot: Spot) -> None:
        mapping, path, _ = self.stack[-1]
        if value is None:
            raise self._unreadable("no-key", "a value stands here without a key", "write 'key: value'", spot)
        if value in mapping:
            raise self._unreadable(
                "repeated-key", f"'{shortened(value)}' is given twice", "keep one of the two", spot
            )
        self.marks[(*path, str(value), "@key")] = spot
        mapping[value] = None
        self.keys[-1] = value

    def _put(self, value: Any, spot: Spot) -> Path_:
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
        self.marks[path] = spot
        return path

    def _open(self, value: Any, spot: Spot, in_braces: bool) -> None:
        if self._waits_for_key():
            raise self._unreadable(
                "no-key",
                "a list or braces stand here where a key belongs",
                "write 'key: value', or put the text in quotes",
                spot,
            )
        if len(self.stack) >= MOST_DEPTH:
            raise self._unreadable(
                "nested-too-deep", f"values are nested deeper than {MOST_DEPTH}", "write it flatter", spot
            )
        path = self._put(value, spot)
        self.stack.append((value, path, in_braces))
        self.keys.append(None)
