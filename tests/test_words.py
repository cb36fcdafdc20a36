"""The words on papers: lists, days, money, counts, and phrases made of them."""

from __future__ import annotations

import re
import string
from collections import Counter
from datetime import date
from decimal import Decimal as D
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest
from babel import Locale, dates, numbers
from babel.lists import format_list
from babel.units import format_unit
from hypothesis import given
from hypothesis import strategies as st

from scopegen.job import BED_DECISIONS, DECISIONS, SITE_DECISIONS, WAYS, Job
from scopegen.job.decisions import By
from scopegen.load import parse
from scopegen.quantities import show
from scopegen.quantities.show import grouped
from scopegen.quantities.units import FT_PER_M, LB_PER_KG
from scopegen.understand import understand_job
from scopegen.words import Lexicon, languages, lexicon
from scopegen.words.phrases import by_phrase, counted, last_offer_day, start_phrase
from scopegen.working.hauling import MINUTE
from scopegen.working.sums import count
from tests.jobs import changed

WORDS = lexicon("en")
SPANISH = lexicon("es")
JOB_TEXT = (Path(__file__).parent / "pencil" / "feet.yaml").read_text(encoding="utf-8")


def job(*pairs: tuple[str, str]) -> Job:
    understood = understand_job(parse(changed(JOB_TEXT, *pairs), "job.yaml"))
    assert understood.findings == ()
    return understood.value


@pytest.mark.parametrize(
    ("items", "said"),
    [
        ([], ""),
        (["A"], "A"),
        (["A", "B"], "A and B"),
        (["A", "B", "C"], "A, B and C"),
        (["Oak, and the one beside it", "B", "C"], "Oak, and the one beside it, B and C"),
        (["{0}", "{x}"], "{0} and {x}"),
    ],
)
def test_list(items: list[str], said: str) -> None:
    """As a sentence lists things, whatever they are called."""
    assert WORDS.list(items) == said


@pytest.mark.parametrize(
    ("items", "said"),
    [
        ([], ""),
        (["A"], "A"),
        (["A", "B"], "A y B"),
        (["A", "B", "C"], "A, B y C"),
        (["Rosas, and more", "B", "C"], "Rosas, and more, B y C"),
    ],
)
def test_list_in_spanish(items: list[str], said: str) -> None:
    """No comma before 'y': Real Academia Española, Ortografía de la lengua española (2010), from memory."""
    assert SPANISH.list(items) == said


@given(st.lists(st.text(min_size=1, max_size=8), max_size=5))
def test_list_keeps_each_name_as_it_is(items: list[str]) -> None:
    """Every item stands in the list, unchanged and in order."""
    said, position = WORDS.list(items), 0
    for item in items:
        position = said.index(item, position) + len(item)


def test_days_and_money() -> None:
    """A day is written out, money has its cents and its thousands grouped."""
    assert WORDS.day(date(2027, 3, 19)) == "March 19, 2027"
    assert WORDS.day(date(2028, 2, 29)) == "February 29, 2028"
    assert WORDS.money(D("1069.60")) == "$1,069.60"
    assert WORDS.money(D("0.05")) == "$0.05"
    assert WORDS.money(D("12345678.00")) == "$12,345,678.00"


def test_days_and_money_in_spanish() -> None:
    """As Spanish is written in the United States: a point before the cents, like every other figure on the
    paper (CLDR, es_US)."""
    assert SPANISH.day(date(2027, 3, 19)) == "19 de marzo de 2027"
    assert SPANISH.day_of_year(date(2027, 3, 19)) == "19 de marzo"
    assert SPANISH.money(D("1069.60")) == "$1,069.60"
    assert SPANISH.money(D("12345678.00")) == "$12,345,678.00"


def test_short_day() -> None:
    """A day for a narrow column; 19 March 2027 is a Friday."""
    assert WORDS.short_day(date(2027, 3, 19)) == "Fri, Mar 19"
    assert SPANISH.short_day(date(2027, 3, 19)) == "vie, 19 mar"


@pytest.mark.parametrize(
    ("count", "said"), [(0, "0 days"), (1, "1 day"), (F(1), "1 day"), (F(3, 2), "1.5 days"), (21, "21 days")]
)
def test_count_with_its_noun(count: F | int, said: str) -> None:
    """One day, two days."""
    assert counted(WORDS, "days", count) == said


@pytest.mark.parametrize(
    ("by", "said"),
    [
        (By(day=date(2027, 4, 10)), "April 10, 2027"),
        (By(days_before_start=0), "the day we start"),
        (By(days_before_start=1), "1 day before we start"),
        (By(days_before_start=2), "2 days before we start"),
    ],
)
def test_day_by_which_the_customer_is_done(by: By, said: str) -> None:
    """A day of the calendar, or so many days before the start."""
    assert by_phrase(by, WORDS) == said


@pytest.mark.parametrize(
    ("by", "said"),
    [
        (By(day=date(2027, 4, 10)), "el 10 de abril de 2027"),
        (By(days_before_start=0), "el día en que empezamos"),
        (By(days_before_start=1), "1 día antes de que empecemos"),
        (By(days_before_start=2), "2 días antes de que empecemos"),
    ],
)
def test_day_by_which_the_customer_is_done_in_spanish(by: By, said: str) -> None:
    """Each follows 'a más tardar'."""
    assert by_phrase(by, SPANISH) == said


@pytest.mark.parametrize(
    ("start", "said"),
    [
        ("{within: 1 week of signing}", "a más tardar 1 semana después de que usted firme"),
        ("{from: 2027-04-12, to: 2027-04-12}", "el 12 de abril de 2027"),
        ("{from: 2027-04-12, to: 2027-04-16}", "entre el 12 de abril y el 16 de abril de 2027"),
    ],
)
def test_start_in_spanish(start: str, said: str) -> None:
    """What follows 'Empezamos'."""
    assert start_phrase(job(("{from: 2027-04-12, to: 2027-04-16}", start)), SPANISH) == said


@pytest.mark.parametrize(
    ("start", "said"),
    [
        ("{within: 3 weeks of signing}", "within 3 weeks after you sign"),
        ("{within: 1 week of signing}", "within 1 week after you sign"),
        ("{within: 10 days of signing}", "within 10 days after you sign"),
        ("{within: 1 day of signing}", "within 1 day after you sign"),
        ("{from: 2027-04-12, to: 2027-04-12}", "on April 12, 2027"),
    ],
)
def test_start(start: str, said: str) -> None:
    """What follows 'We start'."""
    assert start_phrase(job(("{from: 2027-04-12, to: 2027-04-16}", start)), WORDS) == said


def test_start_between_two_days_names_both() -> None:
    """The years are named where they differ."""
    assert re.fullmatch(r"between April 12.* and April 16, 2027", start_phrase(job(), WORDS))
    over = start_phrase(job(("to: 2027-04-16", "to: 2028-01-07")), WORDS)
    assert over == "between April 12, 2027 and January 7, 2028"


def test_last_day_of_the_offer() -> None:
    """10 days from 19 March 2027 are counted to 29 March, over the end of a month to the next."""
    assert last_offer_day(job()) == date(2027, 3, 29)
    assert last_offer_day(job(("10 days", "2 weeks"))) == date(2027, 4, 2)


CATEGORIES = {"zero", "one", "two", "few", "many", "other"}  # of plurals: CLDR, Language Plural Rules
# What a language takes of these blanks is up to it: a finding's message is English.
UP_TO_IT = {"agreement.open.found": {"message", "file", "line"}}


def is_counted(node: Any) -> bool:
    """Whether a text has a form for each plural category that its language knows."""
    return isinstance(node, dict) and "other" in node and node.keys() <= CATEGORIES


def texts(node: Any, key: str = "") -> list[tuple[str, str]]:
    if is_counted(node):
        return [(key, node["other"])]
    if isinstance(node, dict):
        return [found for name, inner in node.items() for found in texts(inner, f"{key}.{name}".strip("."))]
    return [(key, node)]


@pytest.mark.parametrize("language", languages())
def test_every_decision_and_way_has_its_word(language: str) -> None:
    """No table cell stays empty, and no two ways share a word."""
    words = lexicon(language)
    for decision in (*DECISIONS, *BED_DECISIONS, *SITE_DECISIONS, "extra"):
        assert words.say(f"decision.{decision}")
    ways = [words.say(f"decided.{way}") for way in (*WAYS, "open")]
    assert all(ways) and len(set(ways)) == len(ways)


@pytest.mark.parametrize("language", languages())
def test_blanks_are_plain_names(language: str) -> None:
    """A blank is a name in braces: nothing that reaches into a value, no format of its own."""
    found = texts(lexicon(language).texts)
    assert len(found) > 100
    for key, text in found:
        for _, name, form, conversion in string.Formatter().parse(text):
            assert name is None or (name.isidentifier() and not form and not conversion), key


def test_papers_can_be_written_in_english_and_spanish() -> None:
    """So that the tests of every language reach both."""
    assert languages() == ("en", "es")


@pytest.mark.parametrize("language", languages())
def test_every_language_has_the_same_texts_and_blanks(language: str) -> None:
    """A text that English has and another language has not would stop a paper: the same keys in the same
    order, in each the same blanks as often, and no text empty where the other is not."""
    english = shape_of(WORDS)
    assert len(english) > 300
    assert shape_of(lexicon(language)) == english


def shape_of(words: Lexicon) -> list[tuple[str, Counter[str], bool]]:
    found = texts(words.texts)
    for key, allowed in UP_TO_IT.items():
        assert blanks(dict(found)[key]).keys() <= allowed, key
    return [(key, Counter() if key in UP_TO_IT else blanks(text), bool(text)) for key, text in found]


@pytest.mark.parametrize("language", languages())
def test_every_count_has_the_form_that_its_language_wants(language: str) -> None:
    """Each plural category that the CLDR gives the language for a count up to a thousand."""
    words, found = lexicon(language), []
    rule = Locale.parse(words.say("locales.language")).plural_form
    needed = {str(rule(count)) for count in range(1000)}

    def look(node: Any, key: str) -> None:
        if is_counted(node):
            found.append(key)
            assert node.keys() >= needed, key
            assert all(blanks(text) <= blanks(node["other"]) for text in node.values()), key
        elif isinstance(node, dict):
            for name, inner in node.items():
                look(inner, f"{key}.{name}")

    look(words.texts, "")
    assert len(found) >= 8


@pytest.mark.parametrize("language", languages())
def test_days_money_and_lists_are_those_of_the_cldr(language: str) -> None:
    """Source: the Common Locale Data Repository (CLDR), as Babel has it. What days, money, lists and plurals
    look like is taken from it alone, by the names of locales in the words of the language."""
    words = lexicon(language)
    locale, lists, short = (words.say(f"locales.{key}") for key in ("language", "lists", "short_days"))
    assert {Locale.parse(each).language for each in (locale, lists, short)} == {language}
    day = date(2027, 3, 19)
    assert words.day(day) == dates.format_date(day, "long", locale=locale)
    assert words.day_of_year(day) == dates.format_skeleton("MMMMd", day, locale=locale)
    assert words.short_day(day) == dates.format_skeleton("MMMEd", day, locale=short)
    for currency in ("USD", "CAD", "MXN"):
        for amount in (D("0.05"), D("1069.60"), D("12345678.00")):
            said = numbers.format_currency(amount, currency, locale=locale)
            assert words.in_currency(currency).money(amount) == said
    assert words.list("ABC") == format_list("ABC", locale=lists)


@pytest.mark.parametrize("language", languages())
def test_figures_look_alike_in_quantities_and_in_money(language: str) -> None:
    """Quantities have a point before decimals and a comma between thousands in every paper, so a language's
    locale must write its money so as well (CLDR, number symbols; es_US has them, es has not)."""
    locale = lexicon(language).say("locales.language")
    for value, places in ((F(12345678, 100), 2), (F(1, 2), 1), (F(1000), 0)):
        assert grouped(value, places) == numbers.format_decimal(
            D(value.numerator) / value.denominator, locale=locale
        )


@pytest.mark.parametrize("unit", ["foot", "inch", "meter", "millimeter", "pound", "kilogram", "ton", "tonne"])
def test_signs_of_units_are_those_of_spanish_in_the_united_states(unit: str) -> None:
    """The signs on paper are the short forms of es_US in the CLDR: they need no translation."""
    kind = "length" if unit in ("foot", "inch", "meter", "millimeter") else "mass"
    signs = {
        "foot": show.run(F(2)), "inch": show.depth(F(1, 6)), "meter": show.run(F(2) * FT_PER_M, "metric"),
        "millimeter": show.depth(F(2, 1000) * FT_PER_M, "metric"), "pound": show.weight(F(2)),
        "kilogram": show.weight(2 * LB_PER_KG, "metric"), "ton": show.measure(F(2), "ton"),
        "tonne": show.measure(F(2), "t"),
    }  # fmt: skip
    assert signs[unit] == format_unit(2, f"{kind}-{unit}", "short", locale="es_US")


def test_signs_of_areas_volumes_and_hours_in_spanish() -> None:
    """The same of areas and volumes, and of the unit of time (CLDR, es_US)."""
    assert show.area(F(2)) == format_unit(2, "area-square-foot", "short", locale="es_US")
    assert show.measure(F(2), "m2") == format_unit(2, "area-square-meter", "short", locale="es_US")
    assert show.measure(F(2), "yd3") == format_unit(2, "volume-cubic-yard", "short", locale="es_US")
    assert show.measure(F(2), "m3") == format_unit(2, "volume-cubic-meter", "short", locale="es_US")
    assert f"2 {SPANISH.say('unit.worker-hour')}" == format_unit(2, "duration-hour", "short", locale="es_US")
    assert str(count(2, 0, MINUTE)) == format_unit(2, "duration-minute", "short", locale="es_US")
    assert MINUTE == format_unit(2, "duration-minute", "short", locale="en_US").split()[1]


def blanks(text: str) -> Counter[str]:
    return Counter(name for _, name, _, _ in string.Formatter().parse(text) if name)


def test_unknown_language_and_unknown_text_are_named() -> None:
    """Both are errors with the name that was asked for."""
    with pytest.raises(KeyError, match="xx"):
        lexicon("xx")
    with pytest.raises(KeyError, match="nothing_of_the_kind"):
        WORDS.say("nothing_of_the_kind")
