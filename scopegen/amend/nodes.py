"""Where each value of a YAML text stands: a tree of spans, from the parser's own marks."""

from __future__ import annotations

import re
from dataclasses import dataclass, field
from typing import Any

from scopegen.amend.edits import CannotAmend, spelled
from scopegen.load import Path_

_COLON = re.compile(r"[ \t]*:")


@dataclass(slots=True)
class Node:
    """One value: where it starts and where its last sign ends. `flow` says that it is in braces or brackets;
    `style` is the sign of a quoted text or of one in a block; `keeps` that the blank lines below it are
    part of it."""

    start: int
    end: int
    kind: str  # text, group, list
    flow: bool = False
    style: str = ""
    keeps: bool = False
    entries: list[Entry] = field(default_factory=list)


@dataclass(slots=True)
class Entry:
    """A key with its value, or one value of a list: `start` is where the key or the dash stands."""

    step: str | int
    start: int
    node: Node


def tree_of(text: str) -> Node:
    """The spans of a text that `load.parse` has taken: so it has no aliases, tags or second document."""
    from ruamel.yaml import YAML

    root = YAML(typ="safe", pure=True, plug_ins=[]).compose(text)
    if root is None:
        raise CannotAmend("there is nothing in the file")
    return _node(text, root)


def _node(text: str, found: Any) -> Node:
    start, end = found.start_mark.index, found.end_mark.index
    kind = {"MappingNode": "group", "SequenceNode": "list"}.get(type(found).__name__, "text")
    if kind == "text":
        return _text(text, start, end, found.style or "")
    node = Node(start, end, kind, flow=bool(found.flow_style))
    add = _add_pairs if kind == "group" else _add_items
    add(text, node, found.value)
    if not node.flow:  # the mark of its end lies behind the comments that follow
        last = node.entries[-1].node
        node.end, node.keeps = last.end, last.keeps
    return node


def _text(text: str, start: int, end: int, style: str) -> Node:
    if style not in ("|", ">"):
        return Node(start, end, "text", style=style)
    header = text[start : text.find("\n", start)]
    if "+" in header.partition("#")[0]:
        return Node(start, end, "text", style=style, keeps=True)
    return Node(start, start + len(text[start:end].rstrip()), "text", style=style)


def _add_pairs(text: str, node: Node, pairs: list[tuple[Any, Any]]) -> None:
    for key, value in pairs:
        inside = _node(text, value)
        if inside.kind == "text" and inside.start == inside.end:  # nothing: its mark is the next key's
            colon = _COLON.match(text, key.end_mark.index)
            inside.start = inside.end = colon.end() if colon else key.end_mark.index
        node.entries.append(Entry(key.value, key.start_mark.index, inside))


def _add_items(text: str, node: Node, items: list[Any]) -> None:
    behind = node.start
    for index, item in enumerate(items):
        inside = _node(text, item)
        start = inside.start if node.flow else _dash(text, behind)
        if inside.start == inside.end and not node.flow:
            inside.start = inside.end = start + 1
        node.entries.append(Entry(index, start, inside))
        behind = inside.end


def _dash(text: str, position: int) -> int:
    """The next dash from a position on, comments passed over."""
    while position < len(text) and text[position] != "-":
        if text[position] == "#":
            position = text.find("\n", position)
            if position < 0:
                break
        position += 1
    if position >= len(text) or position < 0:
        raise CannotAmend("a list is written in a way that is not known here")
    return position


def node_at(root: Node, path: Path_) -> Node:
    """The value at a path. Raises CannotAmend where there is none."""
    node = root
    for index in range(len(path)):
        node = entry_at(node, path[: index + 1]).node
    return node


def entry_at(above: Node, path: Path_) -> Entry:
    """The entry that a path's last step leads to, in the group or list that it stands in."""
    for entry in above.entries:
        if entry.step == path[-1]:
            return entry
    raise CannotAmend(f"{spelled(path)} is not there")
