"""Clauses that try to be programs are found when they are read, and nothing of them is run."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from scopegen.clauses import read_library
from scopegen.clauses.fill import MOST_FILLED, Unfillable, fill, refuse_code
from scopegen.library_folder import library_folder

HOSTILE = {
    "an attribute": "{{ beds.__class__ }}",
    "an item": "{{ beds[0] }}",
    "a call": "{{ beds() }}",
    "a filter": "{{ beds|attr('x') }}",
    "a test": "{% if beds is defined %}x{% endif %}",
    "a loop of a million": "{% for a in range(1000000) %}x{% endfor %}",
    "a gigabyte of text": "{{ 'a' * 10 ** 9 }}",
    "a gigabyte by a list": "{{ [1] * 10 ** 9 }}",
    "a gigabyte by a format": "{{ '%1000000000d' % 1 }}",
    "a sum of texts": "{{ 'a' ~ beds }}",
    "include": "{% include '/etc/passwd' %}",
    "import": "{% import 'os' as os %}",
    "from import": "{% from 'os' import system %}",
    "extends": "{% extends 'x' %}",
    "a macro that calls itself": "{% macro a() %}{{ a() }}{% endmacro %}{{ a() }}",
    "a variable": "{% set a = beds %}",
    "a block": "{% block a %}{{ self.a() }}{% endblock %}",
    "a choice in a blank": "{{ beds if area else area }}",
    "a list": "{{ [beds, area] }}",
    "conditions in conditions": "{% if area %}" * 200 + "x" + "{% endif %}" * 200,
    "not after not": "{{ " + "not " * 2000 + "area }}",
    "and after and": "{{ area" + " and area" * 1000 + " }}",
    "brackets": "{{ " + "(" * 4000,
    "a number of 5,000 digits": "{{ 1" + "0" * 5000 + " }}",
    "a blank left open": "{{ beds",
    "a condition left open": "{% if area %}x",
    "a comment left open": "{# x",
    "two ends": "{% if area %}x{% endif %}{% endif %}",
    "an end before its beginning": "{% endif %}{% if area %}",
}


@pytest.mark.parametrize("name", HOSTILE)
def test_program_in_a_clause_is_found_at_its_text(tmp_path: Path, name: str) -> None:
    """One finding, at file, line and column of the text; the clause is left out, the others stay."""
    text = HOSTILE[name]
    (tmp_path / "edging").mkdir()
    (tmp_path / "edging/brick.yaml").write_text(
        "clause: edging.brick\ndecides: edging\ntitle: {en: Brick}\nways: [included]\nwording:\n"
        f"  - season: 2027\n    en:\n      included: {json.dumps(text)}\n",
        encoding="utf-8",
    )
    library = read_library(library_folder(), tmp_path)
    if (
        name == "an end before its beginning"
    ):  # it has conditions and no more, it is found when a job takes it
        with pytest.raises(Unfillable):
            fill(text, {})
        return
    (found,) = library.findings
    assert found.rule == "clause-text"
    assert (found.place.file, found.place.line) == ("clauses/edging/brick.yaml", 8)
    # at the text's beginning, or at the very tag that is left open or closes nothing
    assert found.place.column == 17 or text[found.place.column - 18] == "{"
    assert library.broken == {"edging.brick"}
    assert len(library.held) > 100
    assert len(found.message) < 200


def test_every_text_that_ships_is_let_through() -> None:
    """Names, `if`, `else` and a comparison with nothing."""
    library = read_library(library_folder())
    assert library.findings == ()
    texts = [
        text
        for clause in (held.shipped for held in library.held.values())
        for version in clause.wording
        for said in version.texts.values()
        for text in said.values()
    ]
    assert len(texts) > 300
    for text in texts:
        refuse_code(text)


def test_text_that_is_filled_has_a_most() -> None:
    """A blank said a thousand times with a value of ten thousand characters."""
    assert len(fill("{{ beds }} " * 100, {"beds": "x" * 100})) == 100 * 101 - 1
    with pytest.raises(Unfillable, match="more than 20,000 characters"):
        fill("{{ beds }} " * 900, {"beds": "x" * 10_000})
    assert MOST_FILLED == 20_000


def test_value_is_never_read_as_a_text_of_its_own() -> None:
    """What a blank is filled with is not filled again."""
    assert fill("For {{ beds }}.", {"beds": "{{ 7*7 }} {% if a %}"}) == "For {{ 7*7 }} {% if a %}."
