"""The edits, as values, and what the data are to be after them."""

from __future__ import annotations

from collections.abc import Sequence
from copy import deepcopy
from dataclasses import dataclass
from typing import Any

from scopegen.load import Data, Path_

Value = Data  # text, nothing, or lists and groups of them


class CannotAmend(Exception):
    """An edit that cannot be made; the text says why."""


@dataclass(frozen=True, slots=True)
class Put:
    """Another text, or nothing (`~`), in place of one that stands there."""

    path: Path_
    value: str | None


@dataclass(frozen=True, slots=True)
class AddKey:
    """A new key of the group at `path`: as the last one, or behind the key `after`. `above` are lines of
    comment over it."""

    path: Path_
    key: str
    value: Value
    after: str | None = None
    above: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AddItem:
    """A new last entry of the list at `path`."""

    path: Path_
    value: Value


@dataclass(frozen=True, slots=True)
class Remove:
    """No more the key, or the entry of a list, that `path` leads to."""

    path: Path_


@dataclass(frozen=True, slots=True)
class Repeat:
    """The entry of a list that `path` leads to a second time behind itself, its comments too."""

    path: Path_


Edit = Put | AddKey | AddItem | Remove | Repeat


def spelled(path: Path_) -> str:
    """A path as a message names it, entries counted from 1."""
    return ".".join(str(step + 1) if isinstance(step, int) else step for step in path) or "the file"


def wanted(data: Data, edits: Sequence[Edit]) -> Data:
    """The data after all edits. Raises CannotAmend where one does not fit what is there."""
    goal = deepcopy(data)
    groups = [(_at(goal, edit.path, dict), edit) for edit in edits if isinstance(edit, AddKey)]
    for edit in edits:
        if isinstance(edit, Put):
            _put(goal, edit)
        elif isinstance(edit, AddItem):
            _at(goal, edit.path, list).append(deepcopy(edit.value))
    # from the last entry to the first, so that every path still leads to what it was said of
    moving = [edit for edit in edits if isinstance(edit, (Remove, Repeat))]
    for moved in sorted(moving, key=lambda each: _order(each.path), reverse=True):
        _move(goal, moved)
    for group, edit in groups:
        _add_key(group, edit)
    return goal


def _order(path: Path_) -> tuple[tuple[int, str], ...]:
    return tuple((step, "") if isinstance(step, int) else (-1, step) for step in path)


def _put(goal: Data, edit: Put) -> None:
    above = _at(goal, edit.path[:-1], (dict, list))
    if isinstance(_entry(above, edit.path), (dict, list)):
        raise CannotAmend(f"{spelled(edit.path)} is a group or a list, not one value")
    above[edit.path[-1]] = edit.value


def _add_key(group: dict[str, Any], edit: AddKey) -> None:
    if edit.key in group:
        raise CannotAmend(f"{spelled((*edit.path, edit.key))} is there already")
    if edit.after is not None and edit.after not in group:
        raise CannotAmend(f"{spelled((*edit.path, edit.after))} is not there")
    group[edit.key] = deepcopy(edit.value)


def _move(goal: Data, edit: Remove | Repeat) -> None:
    above = _at(goal, edit.path[:-1], (dict, list) if isinstance(edit, Remove) else list)
    entry = _entry(above, edit.path)
    step: Any = edit.path[-1]
    if isinstance(edit, Remove):
        del above[step]
    else:
        above.insert(step + 1, deepcopy(entry))


def _at(goal: Data, path: Path_, kind: Any) -> Any:
    """The group or list at a path."""
    node: Any = goal
    for index in range(len(path)):
        node = _entry(node, path[: index + 1])
    if not isinstance(node, kind):
        known = "list" if kind is list else "group of keys" if kind is dict else "group or list"
        raise CannotAmend(f"{spelled(path)} is no {known}")
    return node


def _entry(above: Any, path: Path_) -> Any:
    """What the last step of a path leads to, from what stands above it."""
    step = path[-1] if path else None
    known = (
        isinstance(above, dict)
        and isinstance(step, str)
        and step in above
        or isinstance(above, list)
        and isinstance(step, int)
        and 0 <= step < len(above)
    )
    if not known:
        raise CannotAmend(f"{spelled(path)} is not there")
    return above[step]
