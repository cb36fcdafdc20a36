"""A job worked out step by step: every printed sum is true, and no amount of the price is missing."""

from __future__ import annotations

import json
import math
import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner
from hypothesis import given

from scopegen.cli.commands import scopegen
from scopegen.papers.frame import frame_of
from scopegen.report.worked import working_json
from scopegen.words import lexicon
from tests.jobs import EXAMPLES
from tests.price.test_metric_chart import METRIC
from tests.rules.laid_over import opened as laid_over
from tests.test_any_job import jobs
from tests.test_properties import FEW, opened

PENCIL = Path(__file__).parent / "pencil"
JOBS = [
    *(EXAMPLES / f"{name}.yaml" for name in ("heron-bend", "cedar-row", "tern-court", "garza-lane")),
    PENCIL / "feet.yaml",
    PENCIL / "metres.yaml",
]
UNITS = r"(?<=[\d)]) ?(?:ft²|ft|yd³/h|m³/h|yd³|m²|m³|mm|min|in|lb|kg|loads?|cargas?|ton|h|m|t)(?=[ )]|$)"
AFTERWARDS = r"[,;] (at the minimum|rounded up|con el mínimo|redondeado hacia arriba).*$"


def told(path: Path, *words: str) -> dict[str, Any]:
    result = CliRunner().invoke(scopegen, ["price", str(path), *words, "--json"])
    assert result.exit_code == 0, result.output
    data: dict[str, Any] = json.loads(result.stdout)
    return data


def sums(steps: list[str]) -> Iterator[tuple[str, str]]:
    """The left and the right side of each printed sum."""
    for step in steps:
        text = re.sub(r"^.*?: (?=[$\d(√π])", "", step.strip().replace("CA$", "$"))
        text = re.sub(AFTERWARDS, "", text).removesuffix(" days").removesuffix(" días")
        text = re.sub(" (?:tax|de impuesto) = ", " = ", text)
        if " = " in text:
            left, right = text.split(" = ")
            yield left, right


SIGNS = {"×": "*", "÷": "/", "−": "-", "²": "**2", "π": "math.pi", "√": "math.sqrt", "$": "", ",": ""}


def value(text: str) -> float:
    text = re.sub(r"([\d.]+) %", lambda share: f"({share[1]} / 100)", re.sub(UNITS, "", text))
    for sign, spelled in SIGNS.items():
        text = text.replace(sign, spelled)
    assert re.fullmatch(r"[\d.+*/() -]*(math\.(pi|sqrt)[\d.+*/() -]*)*", text), text
    return float(eval(text, {"math": math}))  # figures and signs alone, as asserted


def half_of_the_last_digit(right: str) -> float:
    """Of money the cent, of lengths, areas, depths and weights three decimals, of the rest four: needless
    zeros are left out. What is printed on the left side is taken as it is printed."""
    printed = len(re.sub(UNITS, "", right).partition(".")[2])
    usual = 2 if "$" in right else 3 if re.search(r"\d (ft²?|m²?|in|mm|lb|kg)$", right) else 4
    return 0.5 * 10.0 ** -max(printed, usual) + 1e-9


def assert_true(steps: list[str]) -> int:
    count = 0
    for left, right in sums(steps):
        assert abs(value(left) - value(right)) <= half_of_the_last_digit(right), (left, right)
        count += 1
    return count


def steps_of(data: dict[str, Any]) -> list[str]:
    return [step for sheet in data["working"] for step in sheet["steps"]]


def test_the_reader_of_sums_is_not_blind() -> None:
    """A false sum is seen, whatever its signs."""
    for false in (
        "32 ft × 4.5 ft = 145 ft²",
        "Ring: π × (12 ft)² ÷ 4 = 100 ft²",
        "$2.00 × 25 % = $0.51",
        "Drive there and back: 1.3333 h × $62.00 = $82.67",  # 82.66 as printed
        "0.0241 × $38.00 = $0.91",  # 0.92
        "0.7111 yd³ + 0.5185 yd³ + 0.1111 yd³ + 0.2516 yd³ + 0.6545 yd³ + 0.7037 yd³ = 2.9506 yd³",
        "Left out: 65.833 ft² − 7.069 ft² = 58.765 ft²",
    ):
        with pytest.raises(AssertionError):
            assert_true([false])
    assert assert_true(["32 ft × 4.5 ft = 144 ft²", "no sum here"]) == 1


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_printed_sum_is_true(path: Path) -> None:
    """Of every example, and of the job worked by hand in feet and in metres."""
    assert assert_true(steps_of(told(path, "--working"))) >= 15


@FEW
@given(jobs)
def test_sums_of_any_job_are_true(text: str) -> None:
    """Whatever the shapes and the ways."""
    with opened(text) as case:
        assert_true(steps_of(working_json(frame_of(case, lexicon("en")))))


def test_sums_of_a_metric_chart_are_true(tmp_path: Path) -> None:
    """In cubic meters and Canadian dollars."""
    case = laid_over(tmp_path, METRIC)
    assert assert_true(steps_of(working_json(frame_of(case, lexicon("en"))))) >= 10


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_no_amount_is_missing(path: Path) -> None:
    """Each line, offer, tax, payment and the total of the priced job stands in the working."""
    priced, steps = told(path), " ".join(steps_of(told(path, "--working")))
    amounts = [line["amount"] for line in priced["lines"] if line["decided"] == "included"]
    amounts += [
        part["amount"] for key in ("add_ons", "if_not_done") for each in priced[key] for part in each["parts"]
    ]
    amounts += [add_on["amount"] for add_on in priced["add_ons"]]
    amounts += [tax["amount"] for tax in priced["taxes"]] + [each["amount"] for each in priced["payments"]]
    missing = [each for each in (*amounts, priced["total"]) if f"${float(each):,.2f}" not in steps]
    assert missing == []
    titles = [sheet["title"] for sheet in told(path, "--working")["working"]]
    assert {bed["name"] for bed in priced["beds"]} <= set(titles)


def test_working_of_the_job_worked_by_hand() -> None:
    """Its own figures: 1,200 ft² × 2.5 in, the edge at 4.00, the payments (by hand in tests/pencil)."""
    steps = steps_of(told(PENCIL / "feet.yaml", "--working"))
    for said in ("= 9.2593 yd³", "40 ft × $4.00 = $160.00", "$2,638.48 × 30 % = $791.54"):
        assert any(said in step for step in steps), said


def test_working_and_by_bed_do_not_go_together() -> None:
    """One question at a time."""
    path = str(EXAMPLES / "heron-bend.yaml")
    result = CliRunner().invoke(scopegen, ["price", path, "--working", "--by", "bed"])
    assert result.exit_code == 2
    assert "--by and --working do not go together" in result.output


def working_of(folder: Path, over: str) -> dict[str, list[str]]:
    """The steps of a job over the sound one, by title."""
    frame = frame_of(laid_over(folder, over), lexicon("en"))
    return {sheet["title"]: sheet["steps"] for sheet in working_json(frame)["working"]}


def test_pile_that_lies_there_is_taken_off_in_a_step(tmp_path: Path) -> None:
    """0.7407 yd³ less the quarter yard is what is bought; the quarter is what is spread."""
    found = working_of(
        tmp_path,
        "job: {on_hand: {use: hardwood, amount: 0.25 yd3, spot: behind the shed}}\n"
        "chart: {materials: {hardwood: {spread_only: 48.00}}}",
    )
    assert found["Hardwood mulch"][:2] == [
        "Less what lies there: 0.7407 yd³ − 0.25 yd³ = 0.4907 yd³",
        "0.4907 yd³ measured, 0.5 yd³ billed",
    ]
    assert found["Spreading alone, Hardwood mulch"][0] == "0.25 yd³ measured, 0.5 yd³ billed"


def test_own_material_is_not_added_to_what_is_bought(tmp_path: Path) -> None:
    """Two beds are the customer's and one is ours: each line adds up its own."""
    own = "{use: hardwood, depth: 2 in, supplied_by: customer, by: start, spot: here}"
    found = working_of(
        tmp_path,
        f"job: {{beds: [{{name: A, material: {own}}}, {{name: B, material: {own}}}, {{name: C}}]}}\n"
        "chart: {materials: {hardwood: {spread_only: 48.00}}}",
    )
    assert found["Hardwood mulch"][0] == "0.7407 yd³ measured, 1 yd³ billed"
    assert found["Spreading alone, Hardwood mulch"][0] == "0.74074 yd³ + 0.74074 yd³ = 1.4815 yd³"


def test_tonnes_are_worked_out_from_cubic_meters(tmp_path: Path) -> None:
    """0.6 m³ at 1,540 kg is 0.924 t."""
    metric = METRIC.replace("use: hardwood", "use: river-stone").replace(
        "depth: 50 mm}", "depth: 50 mm}\n      substrate: {decided: not-needed, because: no fabric is wanted}"
    )
    assert "0.6 m³ × 1,540 kg ÷ 1,000 = 0.924 t" in working_of(tmp_path, metric)["River stone"]


def test_meters_of_the_job_are_turned_into_the_feet_of_the_price(tmp_path: Path) -> None:
    """12 m² are 129.1669 ft² and 0.6 m³ are 0.7848 yd³ (1 ft = 0.3048 m, NIST Handbook 44)."""
    shape = "{rectangle: {length: 6 m, width: 2 m}}"
    over = f"job: {{units: metric, beds: [{{shape: {shape}, material: {{use: hardwood, depth: 50 mm}}}}]}}"
    found = working_of(tmp_path, over)
    assert found["Weed by hand"][0] == "12 m² make 129.1669 ft²"
    assert found["Hardwood mulch"][0] == "0.6 m³ make 0.7848 yd³"
