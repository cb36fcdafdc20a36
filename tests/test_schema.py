"""The schemas of the contractor's files, as an editor uses them: YAML 1.2 read by an ordinary parser, held
against JSON Schema (draft 2020-12) by the library `jsonschema`."""

from __future__ import annotations

import json
from datetime import date
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from jsonschema import Draft202012Validator
from pydantic import TypeAdapter, ValidationError
from ruamel.yaml import YAML
from ruamel.yaml.error import YAMLError

from scopegen.library_folder import library_folder
from scopegen.load import parse
from scopegen.quantities import fields
from scopegen.schema import KINDS, schema_of
from scopegen.schema.schema import meanings
from scopegen.understand import understand_chart, understand_job
from tests.jobs import EXAMPLES, changed, example

PENCIL = Path(__file__).parent / "pencil"


def is_job(path: Path) -> bool:
    """A job description, among particulars, charts and sheets of figures."""
    return {"customer", "every_bed"} & set(YAML(typ="safe", pure=True).load(path) or {}) != set()


FILES = [
    *(("job", path) for path in (*EXAMPLES.rglob("*.yaml"), *PENCIL.rglob("*.yaml")) if is_job(path)),
    *(("chart", path) for path in (*EXAMPLES.glob("prices-*.yaml"), *sorted(PENCIL.rglob("prices-*.yaml")))),
    *(("company", folder / "company.yaml") for folder in (EXAMPLES, PENCIL)),
    *(
        ("clause", path)
        for path in sorted(library_folder().glob("*/*.yaml"))
        if path.parent.name != "law"
    ),
]  # fmt: skip
CHART = (EXAMPLES / "prices-2027.yaml").read_text(encoding="utf-8")
WITHIN, PAID = "{within: 3 weeks of signing}", "{deposit: 25 %, rest: on completion}"
FRONT = "{rectangle: {length: 32 ft, width: 4 ft 6 in}}"
WEEDED = "{decided: included, work: hand-weed}\n  debris"
COMPANY = (EXAMPLES / "company.yaml").read_text(encoding="utf-8")


def as_an_editor_reads(text: str) -> Any:
    """YAML 1.2 by an ordinary parser: numbers and booleans are such. JSON has no days; they are texts."""
    return _without_days(YAML(typ="safe", pure=True).load(text))


def _without_days(value: Any) -> Any:
    if isinstance(value, dict):
        return {str(key): _without_days(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_without_days(inner) for inner in value]
    return value.isoformat() if isinstance(value, date) else value


def marked(kind: str, text: str) -> list[str]:
    """Where an editor marks a slip: the paths of the innermost errors."""
    errors = list(Draft202012Validator(schema_of(kind)).iter_errors(as_an_editor_reads(text)))
    return sorted({"/".join(map(str, error.absolute_path)) for error in errors})


@pytest.mark.parametrize("kind", KINDS)
def test_schema_is_a_schema(kind: str) -> None:
    """It is valid by the draft's own meta-schema, and is plain JSON."""
    schema = schema_of(kind)
    Draft202012Validator.check_schema(schema)
    assert schema["$schema"] == Draft202012Validator.META_SCHEMA["$id"]
    assert json.loads(json.dumps(schema)) == schema
    assert schema["additionalProperties"] is False


def test_there_are_files_of_every_kind() -> None:
    """What is held against the schemas below is there."""
    assert len(FILES) > 90
    assert {kind for kind, _ in FILES} == set(KINDS)


@pytest.mark.parametrize(
    ("kind", "path"), FILES, ids=[f"{path.parent.name}/{path.name}" for _, path in FILES]
)
def test_sound_file_has_no_mark(kind: str, path: Path) -> None:
    """Examples, the job worked by hand, and every clause of the library."""
    assert marked(kind, path.read_text(encoding="utf-8")) == []


@pytest.mark.parametrize(
    ("kind", "pair", "where"),
    [
        ("job", ("walked:", "waked:"), ""),
        ("job", ("offer_stands: 21 days", "offer_stands: 21"), "offer_stands"),
        ("job", ("offer_stands: 21 days", "offer_stands: 21 ft"), "offer_stands"),
        ("job", ("signed_at: customer's home", "signed_at: his home"), "signed_at"),
        ("job", ("dated: 2027-03-19", "dated: 3/19/2027"), "dated"),
        ("job", (WITHIN, "{within: soon}"), "start/within"),
        ("job", (WITHIN, "{from: 2027-05-03}"), "start"),
        ("job", (WITHIN, "{within: 3 weeks, from: 2027-05-03, to: 2027-05-04}"), "start"),
        ("job", (PAID, "{deposit: a bit, rest: on completion}"), "payments"),
        ("job", (PAID, "on completion"), "payments"),
        ("job", ("measured_by: tape", "measured_by: taped"), "every_bed/measured_by"),
        ("job", ("depth: 2 in}", "depth: 2}"), "every_bed/material"),
        ("job", (WEEDED, "{decide: included}\n  debris"), "every_bed/bed_prep"),
        ("job", (WEEDED, "opne\n  debris"), "every_bed/bed_prep"),
        ("job", ("width: 4 ft 6 in}", "width: 4.5}"), "beds/0/shape/rectangle/width"),
        ("job", ("width: 4 ft 6 in}", "width: }"), "beds/0/shape/rectangle/width"),
        ("job", ("  name: Rosa Ejemplo", "  name:"), "customer/name"),
        ("job", (" width: 4 ft 6 in}", " width: 4 ft}, area: 9 ft2"), "beds/0/shape"),
        ("job", ("weeds: heavy}", "weeds: havy}"), "beds/2/found"),
        ("job", ("call_first: yes", "call_first: maybe"), "if_found/1/call_first"),
        ("job", ("by: 2 days before start", "by: in time"), "beds/2/bed_prep"),
        ("job", ("season: 2027", "season: spring"), "season"),
        ("chart", ("worker_hour: 62.00", "worker_hour: -62.00"), "worker_hour"),
        ("chart", ("crew: 3", "crew: 2.5"), "crew"),
        ("chart", ("set_up: 30 min", "set_up: 30"), "job/set_up"),
        ("chart", ("load: 6 yd3", "load: 6 ft"), "delivery/load"),
        ("chart", ("rate: 6.25 %", "rate: 6.25"), "taxes/goods/rate"),
        ("chart", ("2700 lb/yd3", "2700 lb"), "streams/sod/in_ground_weight"),
        ("chart", ("    kind: stone", "    kind: rock"), "materials/washed-river-stone/kind"),
        ("chart", ("does: 600 ft2/h", "does: 600 ft2"), "work/clear-leaves/does"),
        ("chart", ("sod: 24.00/yd3", "sod: 24.00"), "work/haul-away/dump/sod"),
        ("chart", ("decides: debris\n    name: {", "decide: debris\n    name: {"), "work/haul-away"),
        ("company", ("phone:", "fone:"), ""),
        ("company", ("stands_for: 60 days", "stands_for: 60"), "terms/stands_for"),
    ],
)  # fmt: skip
def test_slip_is_marked(kind: str, pair: tuple[str, str], where: str) -> None:
    """A mistyped key, a word that is not known, a missing unit: marked where it stands."""
    text = changed({"job": example(), "chart": CHART, "company": COMPANY}[kind], pair)
    assert where in marked(kind, text)


@pytest.mark.parametrize(
    ("pair", "where"),
    [
        (("ways: [included", "ways: [include"), "ways/0"),
        (("season: 2027", "seson: 2027"), "wording/0"),
        (("      included: >-", "      include: >-"), "wording/0/en"),
        (("title: {en:", "title: New spade edge  #"), "title"),  # the rest of the line is a comment
    ],
)  # fmt: skip
def test_slip_in_a_clause_is_marked(pair: tuple[str, str], where: str) -> None:
    """A clause of one's own is marked too."""
    text = changed((library_folder() / "edging" / "new-edge.yaml").read_text(encoding="utf-8"), pair)
    assert where in marked("clause", text)


@pytest.mark.parametrize(
    "pair",
    [
        ("{deposit: 25 %, rest: on completion}", "{deposit: 300.00, rest: on completion}"),
        ("{deposit: 25 %, rest: on completion}", "{rest: on completion}"),
        ("{deposit: 25 %, rest: on completion}", "[{when: first, amount: 25 %}, {when: last, amount: rest}]"),
        ("{within: 3 weeks of signing}", "{from: 2027-05-03, to: 2027-05-07}"),
        ("{within: 3 weeks of signing}", "{within: 10 Days}"),
        ("  bed_prep: {decided: included, work: hand-weed}\n  debris", "  bed_prep: open\n  debris"),
        ("  bed_prep: {decided: included, work: hand-weed}\n  debris", "  bed_prep:\n  debris"),
        ("  bed_prep: {decided: included, work: hand-weed}\n  debris", "  bed_prep: {decided: }\n  debris"),
        ("leave_out: [{circle: {diameter: 3 ft}}]", "leave_out: {circle: {diameter: 3'}}"),
        ("against: {walk: front}", "against: {walk: [front, back]}"),
        ("length: 32 ft,", "length: 32’ 6”,"),
        ("length: 32 ft,", "length: 9.75 m,"),
        ("depth: 2 in}", "depth: 1 ½ IN}"),
        ("call_first: yes", "call_first: true"),
        ("call_first: yes", "call_first: Yes"),
        ("not_over: 150.00", "not_over: $150"),
        ("not_over: 150.00", "not_over: 150"),
        ("season: 2027", 'season: "2027"'),
        ("phone: 555-0117", "phone: 5550117"),
        ("by: 2 days before start", "by: the start"),
        ("by: 2 days before start", "by: 2027-04-01"),
        (FRONT, "{parts: [{rectangle: {length: 9 ft, width: 4 ft}, at: [0 ft, 0 ft], turned: 30°}]}"),
        (FRONT, "{map: [[-71.05, 42.1], [-71.0501, 42.1], [-71.05, 42.1001]]}"),
        (FRONT, "{half_circle: {radius: 4 ft}}"),
        (FRONT, "{spokes: [4 ft, 5 ft, 4 ft 6 in]}"),
        (FRONT, "{volume: 1.5 yd3}"),
        ("price_basis: fixed", "price_basis: by measure\ntolerance: 10 %"),
        ("price_basis: fixed", "on_hand: {use: pine-bark-nuggets, amount: 1 yd3, spot: the drive}"),
        ("price_basis: fixed", "visits: [{name: spring, start: {within: 2 weeks}}]"),
    ],
)
def test_every_way_to_write_a_job_has_no_mark(pair: tuple[str, str]) -> None:
    """Short forms, one entry for a list, other spellings: what the reader takes, the schema takes."""
    text = changed(example(), pair)
    assert understand_job(parse(text, "job.yaml")).findings == ()
    assert marked("job", text) == []


@pytest.mark.parametrize(
    "pair",
    [
        ("currency: USD", "currency: EUR"),
        ("    waste: 5 %", "    waste: 5 %\n    spread_only: 48.00"),
        ("    waste: 5 %", "    waste: 5 %\n    spread_only: {price: 48, tax: services}"),
        ("    volume_price: [{over: 15 yd3, price: 99.00}]", "    volume_price: {over: 15 yd3, price: 99}"),
        (
            "fabric: {fee: 30.00/yd3, where: {en: the transfer station, es: la estación de transferencia}}",
            "fabric: $30 / yd3",
        ),
        ("name: {en: Weed by hand, es: Deshierbe a mano}", "name: Weed by hand"),
        (
            "where: {en: the transfer station, es: la estación de transferencia}",
            "where: the transfer station",
        ),
        ("licensed: yes", "licensed: true"),
        ("spoil: {depth: found,", "spoil: {depth: 2 in,"),
    ],
)
def test_every_way_to_write_a_chart_has_no_mark(pair: tuple[str, str]) -> None:
    """The same for a price chart."""
    text = changed(CHART, pair)
    assert understand_chart(parse(text, "prices-2027.yaml")).findings == ()
    assert marked("chart", text) == []


TYPES = {
    name: getattr(fields, name)
    for name in (
        "Length", "Width", "Area", "Volume", "Weight", "Hours", "Days", "Day", "Money", "Percent", "Whole",
        "Number", "AboveZero", "YesNo", "Words", "WeightPerVolume", "VolumePerHour", "Share", "SoldAmount",
        "Degrees", "Angle", "Currency",
    )
}  # fmt: skip
ADAPTERS = {name: TypeAdapter(kind) for name, kind in TYPES.items()}
SCHEMAS = {name: Draft202012Validator(adapter.json_schema()) for name, adapter in ADAPTERS.items()}
UNITS = (
    "ft", "FT", "'", "’", "feet", "in", '"', "yd", "m", "ft2", "ft²", "sq ft", "yd3", "Cu  Yd", "m3", "lb",
    "ton", "kg", "h", "min", "days", "week", "%", "lb/yd3", "lb / yd³", "yd3/h", "kg/m3", "l", "°", "degrees",
    "Deg", "",
)  # fmt: skip
NUMERALS = (
    "0",
    "1",
    "12",
    "2.50",
    ".5",
    "1/2",
    "1 1/2",
    "1 ½",
    "¾",
    "3⁄4",
    "$5",
    "$ 7.25",
    "300.00",
    "-1",
    "1,000",
)


def taken(name: str, text: str) -> bool:
    """Whether the reader takes a text for a type."""
    try:
        ADAPTERS[name].validate_python(text)
    except ValidationError:
        return False
    return True


@given(
    st.sampled_from(NUMERALS),
    st.sampled_from(("", " ", "  ", "\u00a0")),
    st.sampled_from(UNITS),
    st.sampled_from(("", "", " 6 in", "6\"", "\u00a03″", " 6 ft")),
)  # fmt: skip
def test_whatever_the_reader_takes_the_schema_takes(number: str, gap: str, unit: str, more: str) -> None:
    """No editor marks what `scopegen check` has nothing to say about, quoted or as the editor reads it."""
    text = f"{number}{gap}{unit}{more}"
    try:
        read = as_an_editor_reads(text)
    except YAMLError:
        read = text
    for name in TYPES:
        if taken(name, text):
            assert SCHEMAS[name].is_valid(text), (name, text)
            assert SCHEMAS[name].is_valid(read), (name, text)


def test_reader_takes_something_of_every_type() -> None:
    """The law above has cases to hold for, type by type."""
    for name in TYPES:
        extra = {"Day": ["2027-03-19"], "Currency": ["USD", " EUR "], "YesNo": ["yes", "No", "TRUE"]}.get(
            name, []
        )
        some = [f"{number} {unit}".strip() for number in NUMERALS for unit in UNITS] + extra
        sound = [text for text in some if taken(name, text)]
        assert sound, name
        assert [text for text in sound if not SCHEMAS[name].is_valid(text)] == [], name


@pytest.mark.parametrize(
    "name", ["Length", "Area", "Volume", "Weight", "Hours", "Days", "Percent", "SoldAmount"]
)
def test_number_without_its_unit_is_marked(name: str) -> None:
    """A bare number where a unit is needed, as a number and as text."""
    for bare in (12, 12.5, "12", "1 1/2"):
        assert not SCHEMAS[name].is_valid(bare)


def models() -> dict[str, set[str]]:
    """The models behind the schemas, by name, with their keys."""
    found: dict[str, set[str]] = {}
    for kind, (model, _) in KINDS.items():
        schema = schema_of(kind)
        found[model.__name__] = set(schema["properties"])
        found |= {name: set(shape.get("properties", ())) for name, shape in schema["$defs"].items()}
    return found


def test_meanings_are_of_keys_that_are_there() -> None:
    """A key that is gone, or renamed, leaves no meaning behind."""
    known = models()
    known["Decided"] = known["Bed"]  # in every schema only as what it makes
    assert len(meanings()) > 20
    for model, keys in meanings().items():
        assert set(keys) <= known[model], model
