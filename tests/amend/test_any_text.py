"""Laws of an edit, tried on YAML of every style: the data are exactly the change, and every sign outside it
is as it was."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import pytest
from hypothesis import assume, event, given, settings
from hypothesis import strategies as st

from scopegen.amend import AddItem, AddKey, CannotAmend, Edit, Put, Remove, Repeat, amended
from scopegen.load import Data, Path_, Unreadable, parse
from tests.amend.texts import MARKS, texts

NEW = (
    "plain",
    "4.60",
    "with, comma",
    "a: b",
    "it's",
    'say "so"',
    "#5",
    "- dash",
    "{x}",
    "~",
    " edge ",
    "ñ é",
    "",
)
# What an edit refuses by its own words, rather than write it otherwise.
REFUSALS = ("shares its line with", "a pair in brackets", "cannot be changed without touching more")


def read(text: str) -> Data:
    return parse(text.removeprefix("\ufeff"), "file.yaml").data


def readable(text: str) -> Data:
    """What a text says; what the reader refuses is not tried."""
    try:
        return read(text)
    except Unreadable:
        assume(False)


def paths(data: Data, path: Path_ = ()) -> Iterator[tuple[Path_, Data]]:
    yield path, data
    entries = data.items() if isinstance(data, dict) else enumerate(data if isinstance(data, list) else ())
    for step, inside in entries:
        yield from paths(inside, (*path, step))


def some(draw: Any, data: Data, *kinds: type) -> Path_:
    """The path of one value of such a kind."""
    found = [path for path, value in paths(data) if isinstance(value, kinds)]
    assume(found)
    return draw(st.sampled_from(found))


def at(data: Data, path: Path_) -> Any:
    for step in path:
        data = data[step]  # type: ignore[index, call-overload]
    return data


def done(text: str, edit: Edit) -> str:
    """The text after it. A refusal in plain words is no fault; it is counted, and is rare."""
    try:
        changed = amended(text, [edit])
    except CannotAmend as error:
        assert any(words in str(error) for words in REFUSALS), error
        event(f"refused: {type(edit).__name__}")
        assume(False)
    return changed


def only_added(old: str, new: str) -> bool:
    """Whether the new text is the old one with one piece put in."""
    piece = len(new) - len(old)
    return piece > 0 and any(new[:i] + new[i + piece :] == old for i in range(len(old) + 1))


@settings(max_examples=120, deadline=None)
@given(st.data(), texts())
def test_a_value_is_put_in_place_of_another(data: st.DataObject, text: str) -> None:
    """That value is the new one, every other as before, and no comment is touched."""
    before = readable(text)
    path = some(data.draw, before, str, type(None))
    assume(path)
    value = data.draw(st.sampled_from(NEW))
    changed = done(text, Put(path, value))
    expected = readable(text)
    at(expected, path[:-1])[path[-1]] = value
    assert read(changed) == expected
    old = str(at(readable(text), path))  # what looks like a comment inside a folded text is text
    left = [text.count(mark) - old.count(mark) for mark in MARKS]
    assert [changed.count(mark) for mark in MARKS] == left


@settings(max_examples=120, deadline=None)
@given(st.data(), texts())
def test_a_key_is_added(data: st.DataObject, text: str) -> None:
    """It is the group's, and the text is the old one with one piece put in."""
    path = some(data.draw, readable(text), dict)
    value: Data = data.draw(st.sampled_from([*NEW, ["x", "y, z"], {"k": ["1"]}, []]))
    after = data.draw(st.sampled_from([None, *at(readable(text), path)]))
    changed = done(text, AddKey(path, "new", value, after))
    expected = readable(text)
    at(expected, path)["new"] = value
    assert read(changed) == expected
    assert only_added(text, changed)


@settings(max_examples=120, deadline=None)
@given(st.data(), texts(with_list=True))
def test_an_entry_is_added(data: st.DataObject, text: str) -> None:
    """It is the list's last, and the text is the old one with one piece put in."""
    path = some(data.draw, readable(text), list)
    value: Data = data.draw(st.sampled_from([*NEW, ["x"], {"k": "1", "m": "a, b"}]))
    changed = done(text, AddItem(path, value))
    expected = readable(text)
    at(expected, path).append(value)
    assert read(changed) == expected
    assert only_added(text, changed)


@settings(max_examples=120, deadline=None)
@given(st.data(), texts(with_list=True))
def test_an_entry_is_repeated(data: st.DataObject, text: str) -> None:
    """It stands there twice, and the text is the old one with one piece put in."""
    path = some(data.draw, readable(text), list)
    assume(at(readable(text), path))
    index = data.draw(st.integers(0, len(at(readable(text), path)) - 1))
    changed = done(text, Repeat((*path, index)))
    expected = readable(text)
    at(expected, path).insert(index, at(readable(text), (*path, index)))
    assert read(changed) == expected
    assert only_added(text, changed)


@settings(max_examples=160, deadline=None)
@given(st.data(), texts())
def test_a_key_or_an_entry_is_removed(data: st.DataObject, text: str) -> None:
    """It is gone, and the text is the old one with one piece taken out; where nothing is left in the group or
    list, braces or brackets stand in its place."""
    path = some(data.draw, readable(text), str, type(None), dict, list)
    assume(path)
    changed = done(text, Remove(path))
    expected = readable(text)
    above = at(expected, path[:-1])
    del above[path[-1]]
    assert read(changed) == expected
    if above:
        assert only_added(changed, text)


@settings(max_examples=100, deadline=None)
@given(st.data(), texts(with_list=True))
def test_many_at_once_is_one_after_the_other(data: st.DataObject, text: str) -> None:
    """Several entries of a list leave it as they would one by one, from the last to the first."""
    path = some(data.draw, readable(text), list)
    count = len(at(readable(text), path))
    assume(count)
    indexes = data.draw(st.lists(st.integers(0, count - 1), min_size=1, unique=True))
    try:
        changed = amended(text, [Remove((*path, index)) for index in indexes])
    except CannotAmend:
        assume(False)
    expected = readable(text)
    for index in sorted(indexes, reverse=True):
        del at(expected, path)[index]
    assert read(changed) == expected


def test_refusals_are_rare() -> None:
    """Of many edits of many texts, nearly all can be made: the laws above are not held by doing nothing."""
    tried = refused = 0

    @settings(max_examples=150, deadline=None, database=None)
    @given(texts())
    def look(text: str) -> None:
        nonlocal tried, refused
        for path, value in list(paths(readable(text))):
            edits: list[Edit] = [Put(path, "new")] if isinstance(value, str) else []
            edits += [Remove(path)] if path else []
            edits += [AddKey(path, "new", "x")] if isinstance(value, dict) else []
            edits += [AddItem(path, "x")] if isinstance(value, list) else []
            for edit in edits:
                tried += 1
                try:
                    amended(text, [edit])
                except CannotAmend:
                    refused += 1

    look()
    assert tried > 500
    assert refused / tried < 0.02, (refused, tried)


@pytest.mark.parametrize("new", NEW)
def test_a_new_value_is_read_as_it_was_meant(new: str) -> None:
    """In lines and in braces, whatever quotes stood there before."""
    for old in ("a: x\n", "a: 'x'\n", 'a: "x"\n', "b: {a: x, c: d}\n", "b: [x, y]\n"):
        path: Path_ = ("a",) if old.startswith("a") else ("b", "a") if "{" in old else ("b", 0)
        assert at(read(amended(old, [Put(path, new)])), path) == new
