"""Edits of YAML text: what each leaves, sign by sign, and what is refused."""

from __future__ import annotations

import pytest

from scopegen.amend import AddItem, AddKey, CannotAmend, Edit, Put, Remove, Repeat, amended
from scopegen.load import Unreadable

CHART = (
    "# One price for everyone.\r\n---\r\nseason: 2027   # the year\r\n"
    "job: {minimum: 280.00, set_up: 30 min}\r\nwork:\r\n- name: 'Weed'  # by hand\r\n  price:"
    " 0.24\r\n\r\n# the next one\r\n-   name: >-\r\n"
    "      Cut an\r\n      edge\r\nnote: ~\r\n"
)


@pytest.mark.parametrize(
    ("edits", "old", "new"),
    [
        ([Put(("season",), "2028")], "season: 2027   #", "season: 2028   #"),
        ([Put(("job", "minimum"), "291.20")], "minimum: 280.00,", "minimum: 291.20,"),
        ([Put(("work", 0, "name"), "Weed it's")], "'Weed'", "'Weed it''s'"),
        ([Put(("work", 1, "name"), "Edge: new")], ">-\r\n      Cut an\r\n      edge", '"Edge: new"'),
        ([Put(("note",), "gate, 42 in")], "note: ~", 'note: "gate, 42 in"'),
        ([Put(("note",), None)], "note: ~", "note: ~"),
        ([AddKey(("job",), "come_back", "95.00")], "30 min}", "30 min, come_back: 95.00}"),
        (
            [AddKey((), "to_review", ["a.b", "c: d"], after="season", above=("Look.",))],
            "the year\r\n",
            'the year\r\n# Look.\r\nto_review:\r\n  - a.b\r\n  - "c: d"\r\n',
        ),
        ([AddKey(("work", 0), "does", "9 ft/h")], "0.24\r\n", "0.24\r\n  does: 9 ft/h\r\n"),
        ([AddItem(("work",), {"name": "New"})], "edge\r\n", "edge\r\n-   {name: New}\r\n"),
        ([Remove(("work", 0, "price"))], "  price: 0.24\r\n", ""),
        ([Remove(("work", 0, "name"))], "name: 'Weed'  # by hand\r\n  price", "price"),
        ([Remove(("job", "minimum"))], "minimum: 280.00, ", ""),
        ([Remove(("work", 1))], "-   name: >-\r\n      Cut an\r\n      edge\r\n", ""),
        (
            [Repeat(("work", 0))],
            "  price: 0.24\r\n",
            "  price: 0.24\r\n- name: 'Weed'  # by hand\r\n  price: 0.24\r\n",
        ),
        ([Put(("season",), "2028"), Remove(("note",))], "note: ~\r\n", ""),
    ],
    ids=str,
)
@pytest.mark.parametrize("mark", ["", "\ufeff"])
def test_the_rest_is_byte_for_byte(edits: list[Edit], old: str, new: str, mark: str) -> None:
    """CRLF, the mark of byte order, spaces, comments and quotes stay, in lines and in braces."""
    assert CHART.count(old) == 1
    expected = CHART.replace(old, new)
    if len(edits) > 1:
        expected = expected.replace("season: 2027", "season: 2028")
    assert amended(mark + CHART, edits) == mark + expected


def test_a_last_line_without_its_end_keeps_having_none() -> None:
    """Whoever wrote the file so has it so."""
    assert amended("a: 1", [AddKey((), "b", "2")]) == "a: 1\nb: 2"


@pytest.mark.parametrize(
    ("text", "edit", "left"),
    [
        ("a:\n- b # c\n", Remove(("a", 0)), "a:\n  [] # c\n"),
        ("a: [b]\n", Remove(("a", 0)), "a: []\n"),
        ("a:\n  b: 1\nc: 2\n", Remove(("a", "b")), "a:\n    {}\nc: 2\n"),
    ],
)
def test_what_is_emptied_stays_a_list_or_a_group(text: str, edit: Edit, left: str) -> None:
    """A key without a value would say something else."""
    assert amended(text, [edit]) == left


@pytest.mark.parametrize(
    ("text", "edit", "why"),
    [
        ("a: 1\n", Put(("b",), "2"), "b is not there"),
        ("a: {b: 1}\n", Put(("a",), "2"), "a is a group or a list, not one value"),
        ("a: 1\n", AddKey((), "a", "2"), "a is there already"),
        ("a: 1\n", AddKey((), "b", "2", after="c"), "c is not there"),
        ("a: 1\n", AddKey(("a",), "b", "2"), "a is no group of keys"),
        ("a: {b: 1}\n", AddItem(("a",), "2"), "a is no list"),
        ("a: [b]\n", Remove(("a", 1)), "a.2 is not there"),
        (
            "a: {b: 1}\n",
            AddKey(("a",), "c", "2", above=("no",)),
            "a is written in braces, where no comment has room",
        ),
        ("a: [b: 1]\n", AddKey(("a", 0), "c", "2"), "a pair in brackets cannot take another key"),
        ("- - b\n  - c\n", Repeat((0, 0)), "1.1 shares its line with what stands above it"),
        (
            "? a\n: 1\nb: 2\n",
            Remove(("a",)),
            "the file is written in a way that cannot be changed without touching more than was asked",
        ),
    ],
)
def test_refused_with_what_is_in_the_way(text: str, edit: Edit, why: str) -> None:
    """Nothing is changed by halves."""
    with pytest.raises(CannotAmend) as refused:
        amended(text, [edit])
    assert str(refused.value) == why


def test_two_edits_of_one_place_are_refused() -> None:
    """Which of the two was meant nobody can tell."""
    with pytest.raises(CannotAmend, match="stand in each other's way"):
        amended("a: {b: 1}\n", [Put(("a", "b"), "2"), Remove(("a",))])


def test_what_the_reader_refuses_is_not_changed() -> None:
    """An alias would change in two places."""
    with pytest.raises(Unreadable):
        amended("a: &x 1\nb: *x\n", [Put(("b",), "2")])
