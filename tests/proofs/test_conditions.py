"""Conditions that no job can meet: found when the file is read, or by what the workspace has."""

from __future__ import annotations

from fractions import Fraction
from pathlib import Path

import pytest

from scopegen.clauses.clause import Limits
from scopegen.clauses.conditions import bounds, catalogue
from scopegen.job import DECISIONS, SITE_DECISIONS
from scopegen.job.decisions import WAYS
from scopegen.law import read_laws
from scopegen.library_folder import library_folder
from scopegen.proofs import proofread
from tests.proofs.workspaces import stock_of

TERM = (
    "clause: terms.ours\ntitle: {{en: Ours, es: Lo nuestro}}\nwhen: {{{}}}\nwording:\n  - season: {}\n"
    "    en: {{says: Ours.}}\n    es: {{says: Lo nuestro.}}\n"
)
Found = list[tuple[str, str, str, int, int]]


def found_in(folder: Path, when: str, season: str = "2027", more: str = "") -> Found:
    """The findings of a term with this condition: rule, message, what to do, line and column."""
    path = folder / "clauses" / "terms" / "ours.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(TERM.format(when, season) + more)
    found = proofread(stock_of(folder))
    return [(f.rule, f.message, f.fix, f.place.line, f.place.column) for f in found]


@pytest.mark.parametrize(
    ("when", "message", "fix"),
    [
        ("decided: [bed_prep exclude]", "'decided' is never 'bed_prep exclude'",
         "did you mean 'bed_prep excluded'?"),
        ("decided: bedprep excluded", "'decided' is never 'bedprep excluded'",
         "did you mean 'bed_prep excluded'?"),
        ("decided: [bed_prep included, mulch]", "'decided' is never 'mulch'",
         "write something like 'bed_prep excluded'"),
        ("state: [XX]", "'state' is never 'XX'", "write something like 'PA'"),
        ("state: Pa", "'state' is never 'Pa'", "write something like 'PA'"),
        ("kinds: [mulsh]", "'kinds' is never 'mulsh'", "did you mean 'mulch'?"),
        ("total: {over: 5000, under: 100}", "'total' is never more than 5000 and less than 100",
         "mend one of the limits, or take one out"),
    ],
)  # fmt: skip
def test_what_no_job_has_is_found_when_it_is_read(tmp_path: Path, when: str, message: str, fix: str) -> None:
    ((rule, said, told, line, _),) = found_in(tmp_path, when)
    assert (rule, said, told, line) == ("clause-condition", message, fix, 3)


@pytest.mark.parametrize(
    "when",
    [
        "decided: [bed_prep excluded, extra add-on, care-after customer]", "state: [PA, ON, DC, PR]",
        "total: {at_least: 100, at_most: 100}", "total: {over: 5000}",
        "area: {at_least: 500 ft2, under: 60 yd2}",
    ],
)  # fmt: skip
def test_what_some_job_can_have_is_not_found(tmp_path: Path, when: str) -> None:
    assert found_in(tmp_path, when) == []


@pytest.mark.parametrize(
    ("key", "said", "empty"),
    [
        ("area", {"at_least": "9 ft2", "at_most": "9 ft2"}, False),
        ("area", {"at_least": "9 ft2", "at_most": "1 yd2"}, False),
        ("area", {"over": "9 ft2", "at_most": "1 yd2"}, True),
        ("area", {"at_least": "9 ft2", "under": "1 yd2"}, True),
        ("area", {"over": "9 ft2", "under": "9.001 ft2"}, False),
        ("area", {"over": "9 ft2", "at_least": "10 ft2", "at_most": "10 ft2"}, False),
        ("total", {"over": "100.00", "under": "100.01"}, True),
        ("total", {"over": "100.00", "under": "100.02"}, False),
        ("total", {"at_least": "100", "under": "100.01"}, False),
        ("beds", {"over": "3", "under": "4"}, True),
        ("beds", {"over": "3", "at_most": "4"}, False),
        ("beds", {"at_least": "4", "under": "4"}, True),
        ("season", {"over": "2027", "under": "2029"}, False),
        ("season", {"over": "2027", "under": "2028"}, True),
        ("beds", {"under": "0"}, True),
        ("beds", {"under": "1"}, False),
        ("total", {"under": "0"}, True),
        ("worker_hours", {"over": "8", "at_most": "8"}, True),
    ],
)  # fmt: skip
def test_ranges_at_their_ends(tmp_path: Path, key: str, said: dict[str, str], empty: bool) -> None:
    """1 yd2 is 9 ft2; beds and seasons are counted in ones, money in cents, and nothing is below zero."""
    written = ", ".join(f"{word}: {limit}" for word, limit in said.items())
    rules = {rule for rule, *_ in found_in(tmp_path, f"{key}: {{{written}}}")}
    assert ("clause-condition" in rules) is empty


def test_a_limit_that_cannot_be_read_is_found_once(tmp_path: Path) -> None:
    """Nothing follows on from it."""
    assert [rule for rule, *_ in found_in(tmp_path, "total: {over: much, under: 100}")] == [
        "clause-condition"
    ]


def test_bounds_are_in_the_condition_s_unit() -> None:
    """3 ft to the yard."""
    assert bounds("edge", Limits(over="2 yd", at_most="3 yd")) == (Fraction(6), Fraction(9))
    assert bounds("season", Limits(over="2027")) == (Fraction(2028), None)
    assert bounds("season", Limits(under="2027")) == (Fraction(0), Fraction(2026))


@pytest.mark.parametrize(
    ("season", "limits", "more", "said"),
    [
        ("2027", "{under: 2020}", "",
         "the season is at most 2019 here, and the first wording is of season 2027"),
        ("2027", "{under: 2027}", "",
         "the season is at most 2026 here, and the first wording is of season 2027"),
        ("2027", "{at_most: 2027}", "", ""),
        ("2027", "{at_least: 2030}", "", ""),
        ("2027", "{at_least: 2030}", "no_longer: {season: 2030, because: ours}\n",
         "the season is at least 2030 here, and the clause is no longer used from 2030 on"),
        ("2027", "{at_least: 2029}", "no_longer: {season: 2030, because: ours}\n", ""),
    ],
)  # fmt: skip
def test_a_season_without_wording(tmp_path: Path, season: str, limits: str, more: str, said: str) -> None:
    found = found_in(tmp_path, f"season: {limits}", season, more)
    assert [message for rule, message, *_ in found if rule == "condition-never-met"] == [said] * bool(said)


@pytest.mark.parametrize(
    ("when", "message", "fix"),
    [
        ("works: [hedge-walk, recut-edge, new-edg]", "no price chart has work 'hedge-walk'",
         "name one that a price chart has, or add it there"),
        ("works: recut-edg", "no price chart has work 'recut-edg'", "did you mean 'recut-edge'?"),
        ("cautions: [diging]", "no price chart names the caution 'diging'", "did you mean 'digging'?"),
        ("kinds: [compost]", "no price chart has material of the kind 'compost'",
         "name one that a price chart has, or add it there"),
    ],
)  # fmt: skip
def test_names_that_no_chart_has(tmp_path: Path, when: str, message: str, fix: str) -> None:
    found = found_in(tmp_path, when)
    assert {rule for rule, *_ in found} == {"condition-in-no-chart"}
    assert found[0][1:4] == (message, fix, 3)


@pytest.mark.parametrize("when", ["kinds: [compost, mulch]", "works: [recut-edge]", "cautions: [digging]"])
def test_names_that_a_chart_has(tmp_path: Path, when: str) -> None:
    assert found_in(tmp_path, when) == []


def test_a_name_of_any_season_s_chart_is_known(tmp_path: Path) -> None:
    """A chart of another season is there as well."""
    stock_of(tmp_path)
    chart = (tmp_path / "prices-2027.yaml").read_text(encoding="utf-8")
    assert "recut-edge:" in chart
    (tmp_path / "prices-2028.yaml").write_text(
        chart.replace("recut-edge:", "old-edge:").replace("season: '2027'", "season: '2028'"),
        encoding="utf-8",
    )
    found = found_in(tmp_path, "works: [old-edge, recut-edge]")
    assert [message for rule, message, *_ in found if rule == "condition-in-no-chart"] == []


def test_each_state_with_a_legal_page_is_a_state() -> None:
    """50 states, the district, five territories and three states in free association; 13 of Canada."""
    states = catalogue()["states"]
    assert len(states) == len({*states}) == 50 + 1 + 5 + 3 + 13
    laws, _ = read_laws(library_folder())
    assert {law.state for law in laws if law.state} <= {*states}


def test_every_decision_and_way_can_be_asked(tmp_path: Path) -> None:
    """No decided part of any job is shut out."""
    every = [f"{decision} {way}" for decision in (*DECISIONS, *SITE_DECISIONS, "extra") for way in WAYS]
    assert found_in(tmp_path, f"decided: [{', '.join(every)}]") == []


@pytest.mark.parametrize(
    ("forbids", "message"),
    [
        ("terms.color, debris", "'terms.ours' calls for 'debris' and forbids it"),
        ("terms.ours", "'terms.ours' forbids itself"),
        (
            "terms.weeds-and-wear, edging.recut",
            "'terms.ours' calls for 'terms.weeds-and-wear' and forbids it",
        ),
        ("terms.theirs", "'terms.ours' forbids 'terms.theirs', which calls for it"),
        ("terms.color", ""),
    ],
)
def test_what_is_called_for_and_forbidden(tmp_path: Path, forbids: str, message: str) -> None:
    theirs = TERM.replace("terms.ours", "terms.theirs").format("has: [deposit]", "2027")
    (tmp_path / "clauses" / "terms").mkdir(parents=True)
    (tmp_path / "clauses" / "terms" / "theirs.yaml").write_text(f"calls_for: [terms.ours]\n{theirs}")
    more = f"calls_for: [debris, terms.weeds-and-wear]\nforbids: [{forbids}]\n"
    found = found_in(tmp_path, "has: [deposit]", more=more)
    assert [said for rule, said, *_ in found if rule == "companion-torn"] == [message] * bool(message)


def test_what_is_laid_over_cannot_forbid_what_ships_calls_for(tmp_path: Path) -> None:
    """A recut calls for the debris; a whole clause of one's own that does not may forbid it."""
    (tmp_path / "clauses" / "edging").mkdir(parents=True)
    path = tmp_path / "clauses" / "edging" / "recut.yaml"
    head = "clause: edging.recut\nforbids: [debris]\n"
    text = "wording:\n  - season: 2028\n    en: {included: Ours.}\n    es: {included: Nuestro.}\n"
    path.write_text(f"{head}replaces: parts\n{text}")
    found = [f.message for f in proofread(stock_of(tmp_path)) if f.rule == "companion-torn"]
    assert found == ["'edging.recut' calls for 'debris' and forbids it"]
    path.write_text(f"{head}decides: edging\ntitle: {{en: A, es: B}}\nways: [included]\n{text}")
    assert [f for f in proofread(stock_of(tmp_path)) if f.rule == "companion-torn"] == []
