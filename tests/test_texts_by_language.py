"""Texts of the price chart and of company.yaml in several languages, and the house's own."""

from __future__ import annotations

import json
import pickle
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.build import open_case
from scopegen.chart import Chart
from scopegen.check import check
from scopegen.cli.commands import scopegen
from scopegen.findings import Finding, Level
from scopegen.load import parse
from scopegen.one_language import in_one_language
from scopegen.papers.document import Document
from scopegen.quantities.in_languages import InLanguages
from scopegen.render.printed import printed_texts
from scopegen.understand import understand_chart, understand_company
from tests.jobs import EXAMPLES, agreement, changed, example, laid

CHART = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")
COMPANY = (EXAMPLES / "company.yaml").read_text(encoding="utf-8")
GARZA = example("garza-lane")
WEED = "name: {en: Weed by hand, es: Deshierbe a mano}"


def stops(path: Path) -> list[Finding]:
    return [finding for finding in check(open_case(path)).findings if finding.level is Level.STOPS]


def words(document: Document) -> str:
    return "\n".join(printed_texts(document))


def test_chosen_text_is_plain() -> None:
    """Once a language is chosen no text of the chart or of the company knows of another."""
    chart, company = understand_chart(parse(CHART, "c")).value, understand_company(parse(COMPANY, "c")).value
    assert isinstance(chart.work["hand-weed"].name, InLanguages)
    spanish, missing = in_one_language(chart, "es", "en")
    assert (type(spanish.work["hand-weed"].name), missing) == (str, ())
    assert spanish.work["hand-weed"].name == "Deshierbe a mano"
    assert spanish.work["haul-away"].dump["fabric"].where == "la estación de transferencia"
    assert in_one_language(company, "es", "en")[0].license == "registro 00-5512"
    assert in_one_language(chart, "en", "en")[0].streams["sod"].name == "sod"
    assert spanish.materials.keys() == chart.materials.keys()


def test_text_that_stands_alone_is_in_the_house_s_language() -> None:
    """It is there in that language, and missing in every other; a name is the same in all of them."""
    plain = changed(CHART, (WEED, "name: Weed by hand"))
    chart = understand_chart(parse(plain, "c")).value
    assert in_one_language(chart, "en", "en")[1] == ()
    told, (missing,) = in_one_language(chart, "es", "en")
    assert (missing.path, missing.stands_in) == (("work", "hand-weed", "name"), "Weed by hand")
    assert told.work["hand-weed"].name == "Weed by hand"
    company = understand_company(parse(COMPANY, "c")).value
    assert in_one_language(company, "es", "en")[0].name == "Alder Fork Grounds"


def test_text_with_languages_goes_to_another_process() -> None:
    """It comes back with its languages."""
    text = InLanguages({"en": "sod", "es": "césped"})
    back = pickle.loads(pickle.dumps(text))
    assert (back, back.wordings) == ("sod", text.wordings)


@pytest.mark.parametrize(
    ("file", "pair", "place", "said", "fix"),
    [
        (
            "chart", (WEED, "name: Weed by hand"), "prices-2027.yaml:97:11",
            "'hand-weed' has no 'name' in 'es', the language of this paper",
            "write 'name: {en: Weed by hand, es: …}'",
        ),
        (
            "chart", (", es: piedra de río lavada (de 1 a 2 in)}", "}"), "", "", "",
        ),
        (
            "chart", (", es: la estación de transferencia}", "}"), "prices-2027.yaml:162:39",
            "'fabric' has no 'where' in 'es', the language of this paper",
            "write 'where: {en: the transfer station, es: …}'",
        ),
        (
            "company", ("{en: registration 00-5512, es: registro 00-5512}", "'registration: 00-5512'"),
            "company.yaml:6:10", "'license' is not there in 'es', the language of this paper",
            "write 'license: {en: \"registration: 00-5512\", es: …}'",
        ),
        ("company", ("name: Alder Fork Grounds", "name: {en: Alder Fork Grounds}"), "company.yaml:2:7",
            "'name' is not there in 'es', the language of this paper",
            "write 'name: {en: Alder Fork Grounds, es: …}'"),
    ],
    ids=["work", "not printed", "dump", "license", "name in one language"],
)  # fmt: skip
def test_text_that_a_paper_prints_is_there_in_its_language(
    tmp_path: Path, file: str, pair: tuple[str, str], place: str, said: str, fix: str
) -> None:
    """What it lacks stops it, and says where and what to add; what it does not print is not asked for."""
    texts = {"chart": CHART, "company": COMPANY}
    texts[file] = changed(texts[file], pair)
    found = stops(laid(tmp_path, GARZA, **texts))
    told = [(f.rule, f.message, f.fix, f"{Path(f.place.file).name}:{f.place.line}") for f in found]
    if not place:
        assert told == []
        return
    assert [(rule, message, to_do) for rule, message, to_do, _ in told] == [("not-in-language", said, fix)]
    assert told[0][3] == place.rpartition(":")[0]
    assert found[0].place.column == int(place.rpartition(":")[2])


def test_draft_has_the_house_s_text_where_another_is_missing(tmp_path: Path) -> None:
    """A draft can be written all the same; what stands in is to be seen, and no mark of ours is."""
    path = laid(tmp_path, GARZA, chart=changed(CHART, (WEED, "name: Weed by hand")))
    said = words(agreement(path, draft=True))
    assert "Weed by hand" in said
    assert "\ue000" not in said
    assert "prices-2027.yaml, línea 97: «scopegen check»" in said


def test_spanish_house_writes_no_language_anywhere_else(tmp_path: Path) -> None:
    """With `language: es` in company.yaml, plain Spanish texts and a job without one are the same paper."""

    def spanish(text: str) -> str:
        return re.sub(r"\{en: [^{}]*?, es: ([^{}]*?)\}", r"\1", text)

    company = "language: es\n" + spanish(COMPANY)
    job = changed(GARZA, ("language: es\n", ""))
    assert "{en:" not in spanish(CHART) + company
    path = laid(tmp_path, job, chart=spanish(CHART), company=company)
    assert stops(path) == []
    assert words(agreement(path)) == words(agreement(EXAMPLES / "garza-lane.yaml"))


def test_english_house_has_plain_texts(tmp_path: Path) -> None:
    """A contractor who writes English alone says no language anywhere."""
    english = re.sub(r"\{en: ([^{}]*?), es: [^{}]*?\}", r"\1", CHART)
    assert " es:" not in english
    job = changed(example(), ("language: en\n", ""))
    path = laid(tmp_path, job, chart=english)
    assert stops(path) == []
    assert words(agreement(path)) == words(agreement(EXAMPLES / "heron-bend.yaml"))


def test_house_s_language_is_one_that_there_are_words_for(tmp_path: Path) -> None:
    """The finding points at company.yaml, and nothing else is asked for."""
    found = stops(laid(tmp_path, example(), company="language: xx\n" + COMPANY))
    assert [(f.rule, Path(f.place.file).name, f.place.line) for f in found] == [
        ("unknown-language", "company.yaml", 1)
    ]


@pytest.mark.parametrize(
    ("written", "said"),
    [
        ("{}", "nothing is written here"),
        ("{english: Weed}", "'english' is not the short name of a language"),
        ("{en: [Weed]}", "a list stands where one line of text belongs"),
        ("{en: }", "'en' has no value"),
        ("[Weed]", "a list stands where one line of text belongs"),
    ],
)
def test_what_is_no_text_is_found(tmp_path: Path, written: str, said: str) -> None:
    """At the work that it belongs to."""
    found = stops(laid(tmp_path, example(), chart=changed(CHART, (WEED, f"name: {written}"))))
    assert said in [f.message for f in found if Path(f.place.file).name == "prices-2027.yaml"]


def test_what_the_program_itself_says_is_in_the_paper_s_language(tmp_path: Path) -> None:
    """The deposit's day, the dump without a name, the line up to the least that a job costs."""
    chart = changed(CHART, ("job: {minimum: 280.00", "job: {minimum: 2800.00"))
    said = words(agreement(laid(tmp_path, GARZA, chart=chart)))
    for text in ("cuando usted firme", "Destino: el vertedero (", "Hasta el precio mínimo de un trabajo"):
        assert text in said
    for text in ("when you sign", "the dump", "the least"):
        assert text not in said


def test_price_and_its_json_name_things_in_the_job_s_language() -> None:
    """As the paper names them; the program's own words on a screen stay English."""
    run = CliRunner().invoke(scopegen, ["price", str(EXAMPLES / "garza-lane.yaml"), "--json"])
    priced = json.loads(run.output)
    assert run.exit_code == 0
    assert "Deshierbe a mano" in [line["description"] for line in priced["lines"]]
    assert [payment["when"] for payment in priced["payments"]] == [
        "cuando usted firme",
        "al terminar el trabajo",
    ]
    shown = CliRunner().invoke(scopegen, ["price", str(EXAMPLES / "garza-lane.yaml")]).output
    assert "Deshierbe a mano" in shown and "Subtotal" in shown


def test_job_s_own_words_are_looked_for_in_its_language(tmp_path: Path) -> None:
    """A note in Spanish on the gap along the house is understood, and one that leaves it out is not."""
    note = "Dejamos un espacio de 12 pulgadas sin material junto a la pared de la casa."
    said = {f.rule for f in check(open_case(EXAMPLES / "garza-lane.yaml")).findings}
    without = changed(GARZA, (f", note: {note}", ""))
    missed = {f.rule for f in check(open_case(laid(tmp_path, without))).findings}
    assert missed - said == {"siding-gap"}


def test_no_right_is_denied_in_spanish_either(tmp_path: Path) -> None:
    """16 CFR 429.1(d) and (f): no waiver, and no word that misstates the right, in the paper's language."""
    path = laid(tmp_path, changed(GARZA, ("rest: on completion", "rest: al terminar; no reembolsable")))
    assert [f.rule for f in stops(path)] == ["right-denied"]


def test_chart_is_left_as_it_was_read() -> None:
    """Choosing a language makes a new value: jobs in two languages share one chart."""
    chart: Chart = understand_chart(parse(CHART, "c")).value
    in_one_language(chart, "es", "en")
    assert in_one_language(chart, "en", "en")[0].work["hand-weed"].name == "Weed by hand"


def test_text_for_another_paper_may_hold_what_no_font_draws(tmp_path: Path) -> None:
    """A language without words yet stops no paper in another; the paper's own text is found."""
    license = "{en: registration 00-5512, es: registro 00-5512}"
    other = changed(COMPANY, (license, "{en: registration 00-5512, zh: 注册 00-5512}"))
    assert stops(laid(tmp_path, example(), company=other)) == []
    own = changed(COMPANY, (license, "{en: 注册 00-5512, es: registro 00-5512}"))
    assert {f.rule for f in stops(laid(tmp_path, example(), company=own))} == {"undrawable-character"}


def test_license_of_the_property_s_state_is_asked_for_in_the_paper_s_language(tmp_path: Path) -> None:
    """At its own place; the license for other states, and the one that it stands for, are not printed."""
    english, own = "{en: registration 00-5512, es: registro 00-5512}", "registration 00-6"
    company = changed(COMPANY, (english, own))
    company += "licenses: {PA: registration 00-7, OH: registration 00-8}\n"
    job = changed(GARZA, ("  signs_as: owner", "  signs_as: owner\n  state: PA"))
    found = [f for f in stops(laid(tmp_path, job, company=company)) if f.rule == "not-in-language"]
    said = "'licenses' has no 'PA' in 'es', the language of this paper"
    assert [(f.message, f.place.line) for f in found] == [(said, company.count("\n"))]
