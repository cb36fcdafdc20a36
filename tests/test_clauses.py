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
from scopegen.clauses.fill import Unfillable, fill, refuse_code
from scopegen.clauses.library import read_library
from scopegen.load import Unreadable
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


IN_PLAIN_WORDS = {
    "We {% if area %}rake {{ area }}.": ("a {% if area %} that no {% endif %} closes", 0),
    "{% if a %}x{% endif %} {% if b %}y{% if c %}z{% endif %}": (
        "a {% if b %} that no {% endif %} closes",
        2,
    ),
    "We rake {{ area }. Then {{ beds }}.": ("a {{ that no }} closes", 0),
    "{{ beds }} {% if area }} x {% endif %}": ("a {% that no %} closes", 1),
    "We rake. {% endif %}": ("a {% endif %} without {% if … %} before it", 0),
    "{% else %}x{% endif %}": ("a {% else %} without {% if … %} before it", 0),
    "{% if area %}x{% endfi %}": ("'{% endfi %}', which is none of {% if … %}, {% else %}, {% endif %}", 1),
    "{% if %}x{% endif %}": ("a {% if %} that names no blank", 0),
    "We rake {{ front bed }}.": ("'{{ front bed }}', which names no blank", 0),
    "{% if area and %}x{% endif %}": ("its blanks and conditions cannot be told apart", None),
}


@pytest.mark.parametrize("text", IN_PLAIN_WORDS)
def test_a_text_that_cannot_be_parsed_says_why_in_plain_words(text: str) -> None:
    """With the number of the opening brace that is at fault, and no word of the parser's own."""
    with pytest.raises(Unfillable) as refused:
        refuse_code(text)
    assert (str(refused.value), refused.value.opening) == IN_PLAIN_WORDS[text]


def test_a_condition_that_is_not_closed_is_found_at_its_line(tmp_path: Path) -> None:
    """Not where the text begins; folded or in quotes."""
    text = "clause: terms.dogs\ntitle: {en: Dogs}\nwording:\n  - season: 2027\n    en:\n      says: "
    for said, place in (
        (">-\n        Our {{ property }}\n        dogs. {% if total %}They\n        bark.\n", (8, 15)),
        ('"Dogs. {% if total %}They bark."\n', (6, 20)),
        ("'{% if total %}a{% endif %} {% if\n        deposit %}b'\n", (6, 41)),
    ):
        path = tmp_path / "terms" / "dogs.yaml"
        path.parent.mkdir(exist_ok=True)
        path.write_text(text + said)
        (finding,) = read_library(tmp_path).findings
        assert finding.rule == "clause-text"
        assert "that no {% endif %} closes" in finding.message
        assert (finding.place.line, finding.place.column) == place
        assert "Jinja" not in finding.message


def test_a_file_that_says_nothing_gets_the_advice_of_its_kind(tmp_path: Path) -> None:
    """A clause, a chart and the particulars are begun in their own way; a job with a folder of its own."""
    job = laid(tmp_path, example())
    begun = {
        "clauses/terms/dogs.yaml": (
            "begin with 'clause:'",
            "`scopegen schema clause`",
            "clause: terms.color",
        ),
        "company.yaml": ("begin with 'name:'", "`scopegen schema company`", "name: Example Beds"),
        "prices-2027.yaml": ("begin with 'season:'", "`scopegen schema chart`", "season: 2027"),
    }
    for name, (begin, schema, first) in begun.items():
        path = tmp_path / name
        path.parent.mkdir(parents=True, exist_ok=True)
        before = path.read_text() if path.exists() else None
        for said, rule in (("# nothing yet\n", "empty-file"), ("- one\n- two\n", "not-a-mapping")):
            path.write_text(said)
            (finding,) = [f for f in check(open_case(job)).findings if f.rule == rule]
            assert finding.place.file == str(path)
            if rule == "empty-file":
                assert finding.fix.startswith(begin) and schema in finding.fix
                assert "scopegen start" not in finding.fix
            else:
                assert finding.fix == f"start each line with a key, such as '{first}'"
        path.unlink() if before is None else path.write_text(before)
    job.write_text("# nothing yet\n")
    with pytest.raises(Unreadable) as refused:
        open_case(job)
    assert "`scopegen start`" in refused.value.finding.fix


BRICK = """
clause: edging.brick
decides: edging
title: {en: Brick edge%s}
ways: [included, excluded]
needs: [beds]
wording:
  - season: 2027
    en: {included: "We lay bricks along {{ beds }}.", excluded: "No bricks along {{ beds }}."}
"""


def test_a_way_without_wording_has_two_ways_out(tmp_path: Path) -> None:
    """Decide otherwise, or write it, in a file that is named; a site decision has no add-on to write."""
    own = tmp_path / "clauses" / "edging" / "brick.yaml"
    own.parent.mkdir(parents=True)
    own.write_text(BRICK % ", es: Ladrillo")
    chart = changed(
        (EXAMPLES / "prices-2027.yaml").read_text(), ("clause: edging.recut", "clause: edging.brick")
    )
    ways = (
        ("{decided: no-charge, work: recut-edge}", "{decided: add-on, work: recut-edge}"),
        ("buried-lines: {decided: included", "buried-lines: {decided: add-on"),
    )
    job = laid(tmp_path, changed(example(), *ways), chart=chart)
    site, finding = sorted(
        (f for f in check(open_case(job)).findings if f.rule == "no-wording"),
        key=lambda f: f.decision == "edging",
    )
    assert "or write wording" not in site.fix and site.decision == "buried-lines"
    assert finding.message.endswith("the clause 'edging.brick' has no wording for 'add-on'")
    assert finding.fix == (
        "decide it in one of the ways that it has: included, excluded;"
        " or write wording for 'add-on' in clauses/edging/brick.yaml"
    )


def test_a_title_that_a_language_lacks_comes_with_the_wording(tmp_path: Path) -> None:
    """In one finding, not in a second round; each alone is told alone."""
    own = tmp_path / "clauses" / "terms" / "color.yaml"
    own.parent.mkdir(parents=True)
    job = laid(tmp_path, example("garza-lane"))
    head = (
        "clause: terms.color\ntitle: {en: Color%s}\nwording:\n  - season: 2027\n    en: {says: It fades.}\n"
    )
    spanish = "    es: {says: El color se apaga.}\n"
    for text, message, fix in (
        (head % "", "no title and no wording for 'says' in 'es'", "write both in"),
        (head % ", es: Color", "no wording for 'says' in 'es'", "write that wording in"),
        (head % "" + spanish, "no title in 'es'", "write that title in"),
    ):
        own.write_text(text)
        (finding,) = [f for f in check(open_case(job)).findings if f.rule == "no-wording"]
        assert finding.message == f"the clause 'terms.color' has {message}"
        assert finding.fix == f"{fix} clauses/terms/color.yaml"
    own.write_text(head % ", es: Color" + spanish)
    assert not [f for f in check(open_case(job)).findings if f.rule == "no-wording"]


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
