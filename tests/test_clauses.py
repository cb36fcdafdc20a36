"""Choosing and filling clauses: the catalogue is true, own clauses go first, nothing escapes."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest
from ruamel.yaml import YAML

import scopegen.clauses
from scopegen.build import open_case
from scopegen.check import check
from scopegen.clauses.blanks import Blanks
from scopegen.clauses.clause import Clause
from scopegen.clauses.conditions import Facts, holds
from scopegen.clauses.facts import facts_of
from scopegen.clauses.fill import Unfillable, fill
from scopegen.words import lexicon
from tests.jobs import EXAMPLES, agreement, changed, example, laid, section, words_of

FACTS = YAML(typ="safe", pure=True).load(
    (Path(scopegen.clauses.__file__).parent / "facts.yaml").read_text(encoding="utf-8")
)


def test_catalogue_names_every_blank_and_condition() -> None:
    """facts.yaml lists exactly the blanks that are filled and the conditions that are known."""
    case = open_case(EXAMPLES / "heron-bend.yaml")
    assert case.chart and case.measured and case.priced
    blanks = Blanks(case.job, case.chart, case.company, case.measured, case.priced, lexicon("en"))
    share = case.measured.shares[0]
    filled = {**blanks.paper(), **blanks.decision("edging", share.part, (share,), share.path, beds="x")}
    assert set(filled) == set(FACTS["blanks"])
    facts = facts_of(case.job, case.chart, case.company, case.answers, case.measured, case.priced)
    assert {*facts.words, *facts.amounts} == set(FACTS["conditions"])
    assert set(facts.amounts) == {
        key for key, asks in FACTS["conditions"].items() if asks["type"] == "number"
    }


def test_condition_holds_where_each_key_has_one_of_its_values() -> None:
    """Every key must hold, and for each any of its values."""
    facts = Facts({"kinds": frozenset({"mulch"}), "purpose": frozenset({"household"})})
    assert holds({}, facts)
    assert holds({"kinds": ("stone", "mulch")}, facts)
    assert not holds({"kinds": ("mulch",), "purpose": ("business",)}, facts)
    assert not holds({"basis": ("fixed",)}, facts)


def clause(*versions: dict[str, object]) -> Clause:
    return Clause.model_validate({"clause": "terms.a", "title": {"en": "A"}, "wording": list(versions)})


def test_newest_version_that_is_not_later_serves() -> None:
    """A season takes the newest wording not later than it; a mending within a season counts from its day."""
    found = clause(
        {"season": "2026", "en": {"says": "old"}},
        {"season": "2027", "en": {"says": "new"}},
        {"season": "2027", "from": "2027-06-01", "en": {"says": "mended"}},
    )

    def says(season: int, day: str) -> str | None:
        version = found.version(season, date.fromisoformat(day))
        return version.texts["en"]["says"] if version else None

    assert says(2025, "2025-05-01") is None
    assert says(2026, "2026-05-01") == "old"
    assert says(2027, "2027-05-31") == "new"
    assert says(2027, "2027-06-01") == "mended"
    assert says(2028, "2028-01-01") == "mended"


HOSTILE = [
    "{{ ''.__class__ }}",
    "{{ beds.__class__.__mro__ }}",
    "{{ unknown }}",
    "{% for i in range(9) %}x{% endfor %}",
    "{% include 'x' %}",
    "{{ beds|upper }}",
    "{{ cycler }}",
    "{{ self }}",
    "{{ beds",
    "{% if %}",
]


@pytest.mark.parametrize("text", HOSTILE)
def test_text_that_tries_more_than_blanks_is_refused(text: str) -> None:
    """Names and simple conditions, nothing of Python."""
    with pytest.raises(Unfillable):
        fill(text, {"beds": "Front walk"})


def test_values_are_text_and_nothing_else() -> None:
    """A bed's name that looks like a template is printed as it is."""
    assert fill("Cut {{ beds }}.", {"beds": "{{ 7 * 7 }} <b>"}) == "Cut {{ 7 * 7 }} <b>."


OWN_EDGE = """
clause: edging.brick-edge
decides: edging
title: {en: Brick edge}
ways: [included, add-on]
needs: [beds, length]
wording:
  - season: 2027
    en:
      included: We lay a brick edge along {{ beds }}, for {{ length }}.
      add-on: If you choose this, we lay a brick edge along {{ beds }}, for {{ length }}.
"""
OWN_WORK = """
work:
  brick-edge:
    decides: edging
    name: Lay a brick edge
    price: {per: ft, amount: 11.50}
    does: 6 ft/h
    clause: edging.brick-edge
"""


def test_new_work_and_its_clause_need_no_code(tmp_path: Path) -> None:
    """A kind of work in the chart and a clause in `clauses/` reach the table, the sentences and the price."""
    (tmp_path / "clauses" / "edging").mkdir(parents=True)
    (tmp_path / "clauses" / "edging" / "brick-edge.yaml").write_text(OWN_EDGE, encoding="utf-8")
    chart = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8").replace("\nwork:\n", OWN_WORK)
    old = "    edging: {decided: included, work: recut-edge}\n"
    path = laid(tmp_path, changed(example(), (old, old.replace("recut-edge", "brick-edge"))), chart=chart)
    assert not check(open_case(path)).stops
    document = agreement(path)
    assert "We lay a brick edge along Entry corner, for 27 ft." in words_of(section(document, "work-edging"))
    assert "Lay a brick edge" in words_of(section(document, "scope"))
    assert "$310.50" in words_of(section(document, "price"))  # 27 ft × 11.50


def test_own_clause_replaces_the_one_that_ships(tmp_path: Path) -> None:
    """A file of the same folder and name goes before the shipped one."""
    (tmp_path / "clauses" / "site").mkdir(parents=True)
    own = "clause: site.clean-up\ndecides: clean-up\ntitle: {en: Clean-up}\nways: [included]\nneeds: []\n"
    own += "wording:\n  - season: 2027\n    en: {included: We leave it as we found it.}\n"
    (tmp_path / "clauses" / "site" / "clean-up.yaml").write_text(own, encoding="utf-8")
    text = words_of(section(agreement(laid(tmp_path, example())), "work-site"))
    assert "We leave it as we found it." in text
    assert "sweep the walks" not in text


def test_clause_file_that_is_not_sound_is_found(tmp_path: Path) -> None:
    """A slip in a clause file is a finding at its line, and stops."""
    (tmp_path / "clauses" / "site").mkdir(parents=True)
    (tmp_path / "clauses" / "site" / "clean-up.yaml").write_text(
        "clause: site.cleanup\ntitle: {en: A}\nwording: [{season: 2027, en: {says: A.}}]\n"
    )
    checked = check(open_case(laid(tmp_path, example())))
    (found,) = [finding for finding in checked.findings if finding.rule == "clause-name"]
    assert found.message == "the clause calls itself 'site.cleanup', but its file makes it 'site.clean-up'"
    assert (found.place.line, found.place.column) == (1, 9)
    assert checked.stops
