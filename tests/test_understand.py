"""From text to the models: one clear finding for each value that cannot be what it stands for."""

from __future__ import annotations

import re
import typing
from pathlib import Path
from typing import Any

import pytest
from pydantic import BaseModel

from scopegen.chart import Chart
from scopegen.company import Company
from scopegen.findings import Finding, Level
from scopegen.job import Job
from scopegen.load import Source, parse
from scopegen.understand import Understood, understand_chart, understand_company, understand_job
from tests.jobs import EXAMPLES, changed

PENCIL = Path(__file__).parent / "pencil"
JOB_TEXT = (PENCIL / "feet.yaml").read_text(encoding="utf-8")
CHART_TEXT = (PENCIL / "prices-2027.yaml").read_text(encoding="utf-8")
COMPANY_TEXT = (PENCIL / "company.yaml").read_text(encoding="utf-8")


def job_of(text: str) -> Understood[Job]:
    return understand_job(parse(text, "job.yaml"))


def chart_of(text: str) -> Understood[Chart]:
    return understand_chart(parse(text, "prices-2027.yaml"))


def said(findings: tuple[Finding, ...]) -> list[tuple[str, str, str]]:
    return [(finding.rule, finding.message, finding.fix) for finding in findings]


@pytest.mark.parametrize("name", ["heron-bend", "quarry-lane"])
def test_example_jobs_are_sound(name: str) -> None:
    """Reading has nothing to say about the examples."""
    assert job_of((EXAMPLES / f"{name}.yaml").read_text(encoding="utf-8")).findings == ()


def test_example_chart_and_company_are_sound() -> None:
    """Nor about their price chart and their company."""
    assert chart_of((EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")).findings == ()
    company = (EXAMPLES / "company.yaml").read_text(encoding="utf-8")
    assert understand_company(parse(company, "company.yaml")).findings == ()


LENGTH = "write it like 12 ft 6 in, 12'6\", 1/2 in or 3.5 m"
NO_COMMA = "write it without a comma, like 12 ft 6 in, 12'6\", 1/2 in or 3.5 m"
DAY = "write year-month-day, like 2027-03-19"
# what stands there, what is written instead, and what is said about it
JOB_VALUES = {
    "a length with a comma": (
        "length: 60 ft", "length: '1,060 ft'", "'1,060 ft' has a comma, which could be read two ways",
        NO_COMMA,
    ),
    "a length below zero": (
        "length: 60 ft", "length: -60 ft", "'-60 ft' has a sign",
        "write it without a sign, like 12 ft 6 in, 12'6\", 1/2 in or 3.5 m",
    ),
    "a length of nothing": (
        "length: 60 ft", "length: 0 ft", "'0 ft' is zero", "write what was measured, or take the key out"
    ),
    "a length without its unit": (
        "length: 60 ft", "length: 60", "'60' has no unit",
        "write the unit too, like 12 ft 6 in, 12'6\", 1/2 in or 3.5 m",
    ),
    "a length that is no number": ("length: 60 ft", "length: NaN", "'NaN' is not a length", LENGTH),
    "a length with an exponent": ("length: 60 ft", "length: 1e5 ft", "'1e5 ft' is not a length", LENGTH),
    "a length of 401 digits": (
        "length: 60 ft", f"length: 1{'0' * 400} ft", f"'1{'0' * 38}…' has more than 15 digits",
        f"round it, and {LENGTH}",
    ),
    "a length beyond any bed": (
        "length: 60 ft", "length: 100001 ft", "'100001 ft' is larger than any job",
        "check the number and its unit",
    ),
    "an area for a length": ("length: 60 ft", "length: 60 ft2", "'60 ft2' is not a length", LENGTH),
    "a list for a length": (
        "length: 60 ft", "length: [60 ft]", "a list stands where a length belongs", "write a length"
    ),
    "a depth of nothing": (
        "depth: 2 in", "depth: 0 in", "'0 in' is zero", "write what was measured, or take the key out"
    ),
    "a day that does not exist": (
        "dated: 2027-03-19", "dated: 2027-02-30", "'2027-02-30' is not a day of the calendar", DAY
    ),
    "a day the other way round": (
        "dated: 2027-03-19", "dated: 03/19/2027", "'03/19/2027' is not a day of the calendar", DAY
    ),
    "a day by its week": (
        "dated: 2027-03-19", "dated: 2027-W11-5", "'2027-W11-5' is not a day of the calendar", DAY
    ),
    "a day in no job's time": (
        "dated: 2027-03-19", "dated: 9999-12-31", "'9999-12-31' is not in the time of any job",
        "check the year",
    ),
    "a percentage over the whole": (
        "amount: 5 %", "amount: 101 %", "'101 %' is more than the whole",
        "write a percentage from 0 % to 100 %",
    ),
    "a part of a cent": (
        "amount: 5 %", "amount: 5.005", "'5.005' has a part of a cent",
        "write dollars and cents, like 150.00",
    ),
    "a season of two": (
        "season: 2027", "season: 2027.5", "'2027.5' is not a whole number", "write it like 3"
    ),
    "a word that is no decision": (
        "plants: {decided: included}", "plants: included", "'included' is not a decision",
        "write {decided: …} with one of: included, add-on, excluded, customer, elsewhere, not-needed,"
        " no-charge",
    ),
    "no text where one belongs": (
        "name: Corner", "name: ''", "nothing is written here", "write some words, or take the key out"
    ),
    "two shapes": (
        "{triangle: {sides: [30 ft, 40 ft, 50 ft]}}", "{circle: {diameter: 6 ft}, area: 30 ft2}",
        "2 shapes stand here where one belongs", "keep one shape",
    ),
    "two sides of a triangle": (
        "[30 ft, 40 ft, 50 ft]", "[30 ft, 40 ft]", "entry 3 of this list is missing",
        "write it in brackets, like [3 ft, 4 ft, 5 ft]",
    ),
    "four sides of a triangle": (
        "[30 ft, 40 ft, 50 ft]", "[30 ft, 40 ft, 50 ft, 60 ft]", "a list of 3 belongs here",
        "write it in brackets, like [3 ft, 4 ft, 5 ft]",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", JOB_VALUES)
def test_value_that_cannot_be(name: str) -> None:
    """The whole message, what to do, and the place of what was written."""
    right, wrong, message, fix = JOB_VALUES[name]
    text = changed(JOB_TEXT, (right, wrong))
    (finding,) = job_of(text).findings
    assert (finding.rule, finding.level, finding.message, finding.fix) == ("value", Level.STOPS, message, fix)
    line, _, piece = text.partition(wrong)[0].rpartition("\n")
    inside = wrong.index(": ") + 2 if re.match(r"\w+: ", wrong) else 0
    assert (finding.place.line, finding.place.column) == (line.count("\n") + 2, len(piece) + inside + 1)


CHART_VALUES = {
    "money with a comma": (
        "trip: 40.00", "trip: '1,040.00'", "'1,040.00' has a comma, which could be read two ways",
        "write it without a comma, like 150.00",
    ),
    "money below zero": (
        "trip: 40.00", "trip: -40.00", "'-40.00' has a sign", "write it without a sign, like 150.00"
    ),
    "a third of a dollar": (
        "trip: 40.00", "trip: 1/3", "'1/3' has a part of a cent", "write dollars and cents, like 150.00"
    ),
    "a yes that is none": (
        "clears: yes", "clears: perhaps", "'perhaps' is neither yes nor no", "write yes or no"
    ),
    "a crew of nobody": ("crew: 2", "crew: 0", "'0' is zero", "write a number above zero"),
    "a rate of nothing": (
        "lays: 1 yd3/h", "lays: 0 yd3/h", "'0 yd3/h' is zero", "write what was weighed or timed"
    ),
    "a weight of nothing": (
        "weight: 800 lb/yd3", "weight: 0 lb/yd3", "'0 lb/yd3' is zero", "write what was weighed or timed"
    ),
    "a rate without a time": (
        "does: 20 ft/h", "does: 20 ft", "'20 ft' is not a rate of work", "write it like 90 ft/h or 300 ft2/h"
    ),
    "a dump fee without its measure": (
        "sod: 20.00/yd3", "sod: 20.00", "'20.00' is not a dump fee", "write it like 24.00/yd3 or 45.00/ton"
    ),
    "volume prices that fall": (
        "[{over: 10 yd3, price: 90.00}]", "[{over: 10 yd3, price: 90.00}, {over: 5 yd3, price: 80.00}]",
        "the volume prices of 'Bark' do not rise",
        "list them from the smallest quantity to the largest, each once",
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CHART_VALUES)
def test_value_of_the_chart_that_cannot_be(name: str) -> None:
    """In the price chart too; the line is that of the value, or of the entry that does not fit together."""
    right, wrong, message, fix = CHART_VALUES[name]
    found = chart_of(changed(CHART_TEXT, (right, wrong))).findings
    assert said(found) == [("value", message, fix)]


def test_yes_and_no_are_read_in_each_usual_way() -> None:
    """YAML's own true and false mean the same, in capitals too."""
    for word, meant in (("yes", True), ("Yes", True), ("true", True), ("no", False), ("FALSE", False)):
        assert (
            chart_of(CHART_TEXT.replace("clears: yes", f"clears: {word}")).value.work["strip"].clears is meant
        )


@pytest.mark.parametrize(
    ("right", "wrong", "message", "fix"),
    [
        ("walked:", "waked:", "'waked' is not a key that belongs here", "did you mean 'walked'?"),
        ("against:", "agianst:", "'agianst' is not a key that belongs here", "did you mean 'against'?"),
        ("along: 40 ft", "alng: 40 ft", "'alng' is not a key that belongs here", "did you mean 'along'?"),
        (
            "triangle: {sides: [30 ft, 40 ft, 50 ft]}", "triangel: {sides: [30 ft, 40 ft, 50 ft]}",
            "'triangel' is not a key that belongs here", "did you mean 'triangle'?",
        ),
        (
            "clean-up:", "cleanup:", "'cleanup' is not a key that belongs here", "did you mean 'clean-up'?"
        ),
    ],
)  # fmt: skip
def test_unknown_key_names_the_nearest(right: str, wrong: str, message: str, fix: str) -> None:
    """A key that nobody knows is named with the one that was meant, at the key itself."""
    text = changed(JOB_TEXT, (right, wrong))
    findings = job_of(text).findings
    assert ("unknown-key", message, fix) in said(findings)
    finding = next(each for each in findings if each.rule == "unknown-key")
    line = text.splitlines()[finding.place.line - 1]
    assert line[finding.place.column - 1 :].startswith(wrong.strip().split(":")[0])


def test_unknown_key_that_is_near_to_none_lists_what_is_known() -> None:
    """Where nothing is near, the known keys are listed, in the order of the manual."""
    text = changed(JOB_TEXT, ("discount: {amount: 5 %,", "discount: {amount: 5 %, zzz: 1,"))
    assert said(job_of(text).findings) == [
        ("unknown-key", "'zzz' is not a key that belongs here", "known here: amount, because")
    ]


@pytest.mark.parametrize(
    ("right", "wrong", "message", "fix"),
    [
        (
            "measured_by: tape", "measured_by: tpae",
            "'tpae' is not one of the words that are known here",
            "did you mean 'tape'? write one of: tape, wheel, map, pacing, eye",
        ),
        (
            "signed_at: our office", "signed_at: the moon",
            "'the moon' is not one of the words that are known here",
            "write one of: customer's home, our office, remotely, a fair",
        ),
    ],
)  # fmt: skip
def test_unknown_word_names_the_nearest(right: str, wrong: str, message: str, fix: str) -> None:
    """A word that nobody knows is named with the one that was meant, and with all that are known."""
    assert said(job_of(changed(JOB_TEXT, (right, wrong))).findings) == [("unknown-word", message, fix)]


def test_missing_keys_are_all_named_at_once() -> None:
    """Each key that a job must have and has not."""
    text = changed(JOB_TEXT, ("walked: 2027-03-18\n", ""), (", property: 1 Ruler Road", ""))
    found = job_of(text)
    assert said(found.findings) == [
        ("missing-key", "'walked' is missing", "add 'walked: …'"),
        ("missing-key", "'property' is missing", "add 'property: …'"),
    ]
    assert {("walked",), ("customer",)} <= found.broken


def test_one_bad_section_leaves_the_others_readable() -> None:
    """A bed that is not sound keeps what is; the other bed, the site and the head are read in full."""
    text = changed(JOB_TEXT, ("length: 60 ft", "length: sixty"), ("depth: 2 in", "depth: two"))
    found = job_of(text)
    assert [(finding.bed, finding.message) for finding in found.findings] == [
        ("Long border", "'sixty' is not a length"),
        ("Corner", "'two' is not a length"),
    ]
    assert found.broken == {("beds", 0, "shape"), ("beds", 1, "material")}
    border, corner = found.value.beds
    assert (border.name, border.shape, corner.material) == ("Long border", None, None)
    assert border.edging is not None and len(border.edging) == 2
    assert corner.shape is not None
    assert found.value.site.plants is not None
    assert found.value.customer.name == "Pat Sample"


def test_bad_entry_of_the_chart_is_left_out_and_the_others_stay() -> None:
    """Half a price is no price: the entry is gone, its neighbours are there."""
    found = chart_of(changed(CHART_TEXT, ("does: 20 ft/h", "does: fast")))
    assert "new-edge" not in found.value.work
    assert {"weed", "rake", "strip", "haul"} == set(found.value.work)
    assert ("work", "new-edge") in found.broken
    assert said(found.findings) == [
        ("value", "'fast' is not a rate of work", "write it like 90 ft/h or 300 ft2/h")
    ]


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("beds: Long border\n", "a list belongs under 'beds'"),
        ("beds: [Long border]\n", "a group of 'key: value' lines belongs here"),
        ("site: all of it\n", "a group of 'key: value' lines belongs here"),
        ("every_bed: [a]\n", "a group of 'key: value' lines belongs here"),
    ],
)
def test_section_that_is_no_group(text: str, message: str) -> None:
    """What should be a group or a list and is not, is said once."""
    key = text.split(":")[0]
    found = job_of(text).findings
    assert [each.message for each in found if each.rule in ("not-a-list", "not-a-group")] == [message]
    assert all(each.place.line == 1 for each in found), key


def test_a_share_of_too_many_digits_is_quoted_whole() -> None:
    """With its sign and nothing beside it, and what to do about the digits."""
    chart = CHART_TEXT + "profit: 6.254321987654321 %\n"
    assert said(chart_of(chart).findings) == [
        ("value", "'6.254321987654321 %' has more than 15 digits", "round it, and write it like 25 %")
    ]


def test_what_was_meant_is_guessed_for_twenty_keys_only() -> None:
    """Each unknown key is found; of twenty thousand none was mistyped by hand, and guesses cost seconds."""
    keys = [f"walked_{'x' * number}" for number in range(1, 26)]
    found = job_of("".join(f"{key}: 2027-03-18\n" for key in keys)).findings
    unknown = [each for each in found if each.rule == "unknown-key"]
    assert [each.message for each in unknown] == [f"'{key}' is not a key that belongs here" for key in keys]
    assert [each.fix for each in unknown[:3]] == ["did you mean 'walked'?"] * 3
    assert all(each.fix.startswith("known here: job, season") for each in unknown[20:])
    twentieth = "".join(f"unlike_{number}: x\n" for number in range(19)) + "walkd: 2027-03-18\n"
    assert job_of(twentieth).findings[-1].fix == "did you mean 'walked'?"
    late = "".join(f"unlike_{number}: x\n" for number in range(20)) + "walkd: 2027-03-18\n"
    assert job_of(late).findings[-1].fix.startswith("known here: job")


def test_company_is_understood_key_by_key() -> None:
    """A slip in the terms does not take the name and the address with it."""
    found = understand_company(parse(changed(COMPANY_TEXT, ("30 days", "a month")), "company.yaml"))
    assert said(found.findings) == [
        ("value", "'a month' is not a number of days", "write it like 21 days or 3 weeks")
    ]
    assert found.value.name == "Two Barrow Grounds"


def models(model: type[BaseModel], seen: dict[str, type[BaseModel]]) -> dict[str, type[BaseModel]]:
    """A model and every model that its fields hold."""
    if model.__name__ in seen:
        return seen
    seen[model.__name__] = model
    waiting: list[Any] = [info.annotation for info in model.model_fields.values()]
    while waiting:
        annotation = waiting.pop()
        if isinstance(annotation, type) and issubclass(annotation, BaseModel):
            models(annotation, seen)
        waiting += typing.get_args(annotation)
    return seen


ALL_MODELS: dict[str, type[BaseModel]] = {}
for top in (Job, Chart, Company):
    models(top, ALL_MODELS)


# ISO 4217, list A.1: no currency involved, tests, four metals, the drawing right, two units of account, four
# units of European bonds; and of its fund codes (list A.2) those with hundredths.
NO_MONEY = (
    "XXX", "XTS", "XAU", "XAG", "XPT", "XPD", "XDR", "XSU", "XUA", "XBA", "XBB", "XBC", "XBD",
    "BOV", "CHE", "CHW", "COU", "MXV", "USN",
)  # fmt: skip


@pytest.mark.parametrize(
    ("code", "message"),
    [
        ("XYZ", "'XYZ' is not a currency"),
        ("JPY", "'JPY' has no hundredths, and prices here are reckoned in hundredths"),
        *((code, f"nobody pays with '{code}' today") for code in NO_MONEY),
        ("DEM", "nobody pays with 'DEM' today"),
    ],
)
def test_currency_that_is_none_is_found(code: str, message: str) -> None:
    """ISO 4217 has no XYZ, and the yen has no hundredths (CLDR, by babel); marks ended in 2002."""
    assert [f.message for f in chart_of(changed(CHART_TEXT, ("USD", code))).findings] == [message]


@pytest.mark.parametrize("code", ["CAD", "EUR", "GBP", "MXN", "XCD", "CHF"])
def test_currency_of_another_country_is_taken(code: str) -> None:
    """A chart may be in any currency that has hundredths."""
    chart = chart_of(changed(CHART_TEXT, ("USD", code)))
    assert chart.findings == () and chart.value.currency == code


ODD: tuple[Any, ...] = (None, "", "1,5", "9" * 400, [], ["a"], {"a": "b"}, "٣")
READERS = [
    (JOB_TEXT, understand_job, 700),
    (CHART_TEXT, understand_chart, 800),
    (COMPANY_TEXT, understand_company, 60),
]


def every_path(data: Any, path: tuple[Any, ...] = ()) -> list[tuple[Any, ...]]:
    steps = data.items() if isinstance(data, dict) else enumerate(data) if isinstance(data, list) else ()
    return [
        *([path] if path else []),
        *(found for step, value in steps for found in every_path(value, (*path, step))),
    ]


def put(data: Any, path: tuple[Any, ...], value: Any) -> Any:
    """The data with another value at a path."""
    if not path:
        return value
    copy = dict(data) if isinstance(data, dict) else list(data)
    copy[path[0]] = put(data[path[0]], path[1:], value)
    return copy


@pytest.mark.parametrize(("text", "understand", "at_least"), READERS, ids=["job", "chart", "company"])
def test_no_value_anywhere_ends_in_a_traceback(text: str, understand: Any, at_least: int) -> None:
    """Whatever stands at whatever place of a file, reading ends and says in plain words what it finds."""
    source = parse(text, "file.yaml")
    found = 0
    for path in every_path(source.data):
        for value in ODD:
            odd = Source(source.name, source.text, put(source.data, path, value), source.marks, source.lines)
            for finding in understand(odd).findings:
                found += 1
                assert finding.message and finding.fix
                assert not finding.message.startswith("this value does not fit here"), (path, value)
    assert found > at_least
