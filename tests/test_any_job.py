"""Laws that hold for beds of every shape, decided in every way: tried on many jobs, the same in every run."""

from __future__ import annotations

import re
from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction
from typing import Any, get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.strategies import DrawFn
from pydantic import TypeAdapter

from scopegen import shapes
from scopegen.check import check
from scopegen.findings import Level
from scopegen.job.shape import SHAPES, ShapeField
from scopegen.load import parse
from scopegen.papers.agreement import compose
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon
from tests.rules.laid_over import BASE
from tests.test_properties import ANSWERS, FEW, opened, priced

WHOLE = st.integers(2, 60)


def of(**lengths: int) -> str:
    return "{" + ", ".join(f"{key}: {feet} ft" for key, feet in lengths.items()) + "}"


def listed(lengths: list[int]) -> str:
    return "[" + ", ".join(f"{feet} ft" for feet in lengths) + "]"


def _triangle(draw: DrawFn) -> str:
    a, b = draw(WHOLE), draw(WHOLE)
    c = draw(st.integers(abs(a - b) + 1, a + b - 1))
    return f"{{triangle: {{sides: {listed([a, b, c])}}}}}"


def _quadrilateral(draw: DrawFn) -> str:
    a, b, c = draw(WHOLE), draw(WHOLE), draw(WHOLE)
    diagonal = draw(st.integers(abs(a - b) + 1, a + b - 1))
    d = draw(st.integers(abs(c - diagonal) + 1, c + diagonal - 1))
    return f"{{quadrilateral: {{sides: {listed([a, b, c, d])}, diagonal: {diagonal} ft}}}}"


def _trapezoid(draw: DrawFn) -> str:
    return f"{{trapezoid: {{sides: {listed([draw(WHOLE), draw(WHOLE)])}, apart: {draw(WHOLE)} ft}}}}"


def _ring(draw: DrawFn) -> str:
    inner = draw(st.integers(1, 20))
    return f"{{ring: {of(outer=inner + draw(WHOLE), inner=inner)}}}"


def _widths(draw: DrawFn) -> str:
    rule = draw(st.sampled_from(["trapezoid", "simpson", "average"]))
    count = draw(st.sampled_from([3, 5, 7]))
    across = [draw(st.integers(0, 20)) for _ in range(count - 1)] + [draw(WHOLE)]
    return f"{{widths: {{every: {draw(WHOLE)} ft, across: {listed(across)}, rule: {rule}}}}}"


def _polygon(draw: DrawFn) -> str:
    """An L: it does not cross itself, and has a corner that turns inward."""
    x, y, dx, dy = (draw(WHOLE) for _ in range(4))
    corners = [(0, 0), (x + dx, 0), (x + dx, y), (x, y), (x, y + dy), (0, y + dy)]
    return "{polygon: [" + ", ".join(f"[{east} ft, {north} ft]" for east, north in corners) + "]}"


def _map(draw: DrawFn) -> str:
    east, north = draw(st.integers(1, 50)), draw(st.integers(1, 50))
    ring = [(0, 0), (east, 0), (east, north), (0, north)]
    points = ", ".join(f"[{-30 + x / 100_000:.5f}, {40 + y / 100_000:.5f}]" for x, y in ring)
    return f"{{map: [{points}]}}"


def _parts(draw: DrawFn) -> str:
    placed = draw(st.booleans())
    parts = []
    for _ in range(draw(st.integers(1, 3))):
        place = f", at: [{draw(WHOLE)} ft, {draw(WHOLE)} ft], turned: {draw(WHOLE)} degrees" if placed else ""
        parts.append(f"{{rectangle: {of(length=draw(WHOLE), width=draw(WHOLE))}{place}}}")
    return "{parts: [" + ", ".join(parts) + "]}"


def simple(name: str, *keys: str) -> Callable[[DrawFn], str]:
    return lambda draw: f"{{{name}: {of(**{key: draw(WHOLE) for key in keys})}}}"


DRAWN: dict[str, Callable[[DrawFn], str]] = {
    "rectangle": simple("rectangle", "length", "width"),
    "strip": simple("strip", "length", "width"),
    "ellipse": simple("ellipse", "length", "width"),
    "circle": simple("circle", "diameter"),
    "half_circle": simple("half_circle", "radius"),
    "quarter_circle": simple("quarter_circle", "radius"),
    "trapezoid": _trapezoid,
    "triangle": _triangle,
    "quadrilateral": _quadrilateral,
    "ring": _ring,
    "widths": _widths,
    "polygon": _polygon,
    "map": _map,
    "parts": _parts,
    "spokes": lambda draw: f"{{spokes: {listed([draw(WHOLE) for _ in range(draw(st.integers(3, 8)))])}}}",
    "area": lambda draw: f"{{area: {draw(WHOLE)} ft2}}",
    "volume": lambda draw: f"{{volume: {draw(WHOLE)} ft3}}",
}
WIDER = {
    **{decision: dict(answers) for decision, answers in ANSWERS.items()},
    "material": {
        **ANSWERS["material"],
        "spread only": "{use: twice-ground-hardwood, depth: 2 in, supplied_by: customer, by: start,"
        " spot: here}",
        "topped up": "{use: twice-ground-hardwood, top_up_to: 3 in}",
    },
}


@st.composite
def beds(draw: DrawFn) -> str:
    """A bed of any shape, each decision made in any way."""
    shape = draw(st.sampled_from(sorted(DRAWN)))
    told = shape == "volume"
    lines = [f"shape: {DRAWN[shape](draw)}", "outline: 9000 ft"]
    if told:
        lines.append("measured_by: eye")
    lines.append("found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}")
    for decision, answers in WIDER.items():
        way = draw(st.sampled_from(sorted(answers)))
        answer = answers[way]
        if told:  # no area: nothing that is priced by the square foot, and no depth
            answer = re.sub(r", (depth|top_up_to): \d in", "", answer)
            if decision in ("bed_prep", "substrate") and "work:" in answer:
                answer = "{decided: excluded}"
        lines.append(f"{decision}: {answer}")
    return "\n    ".join(lines)


def job_of(found: list[str]) -> str:
    head = (BASE / "job.yaml").read_text(encoding="utf-8")
    start, site = head[: head.index("beds:")], head[head.index("site:") :]
    body = "\n".join(f"  - name: Bed {number}\n    {bed}" for number, bed in enumerate(found, 1))
    extra = "extras: [{work: shrub-trim, worker_hours: 2 h, not_over: 200.00, decided: included}]\n"
    return f"{start}beds:\n{body}\n{site}\n{extra}"


jobs = st.lists(beds(), min_size=1, max_size=3).map(job_of)


def test_every_shape_is_drawn() -> None:
    """No shape of the job description is left out, and each of the geometry's is reached."""
    assert set(DRAWN) == set(SHAPES)
    assert len(get_args(shapes.Shape)) >= len(DRAWN)


@FEW
@given(jobs)
def test_any_job_is_priced_and_written(text: str) -> None:
    """Nothing stops such a job, its paper is composed, and every decision has its sentence."""
    with opened(text) as case:
        stopping = [finding.as_text() for finding in check(case).findings if finding.level is Level.STOPS]
        assert stopping == []
        document = compose(frame_of(case, lexicon("en")))
        assert document.sections
        assert case.chosen is not None
        told = {(said.decision, bed) for said in case.chosen.said for bed in said.beds}
        for bed in range(len(case.job.beds)):
            assert {decision for decision, of_bed in told if of_bed == bed} >= set(WIDER)


@FEW
@given(jobs)
def test_any_jobs_figures_add_up(text: str) -> None:
    """Lines, taxes and payments come to the total; at the most it comes to no less."""
    data = priced(text)
    assert sum(Decimal(line["amount"]) for line in data["lines"]) == Decimal(data["subtotal"])
    assert sum(Decimal(each["amount"]) for each in data["payments"]) == Decimal(data["total"])
    assert Decimal(data["at_most"]) >= Decimal(data["total"])
    for line in data["lines"]:
        if line["unit_price"] is not None:
            exact = Fraction(line["quantity"]) * Fraction(line["unit_price"])
            assert abs(exact - Fraction(line["regular_amount"])) <= Fraction(1, 200)
    for supply in data["office"]["supplies"]:
        assert Decimal(supply["low"]) <= Decimal(supply["needed"]) <= Decimal(supply["high"])
        forgiven = Decimal(supply["ordered"]) < Decimal(supply["needed"])
        assert 0 <= Decimal(supply["chance_short"]) <= (1 if forgiven else Decimal("0.5"))


@pytest.mark.parametrize("shape", sorted(set(DRAWN) - {"volume"}))
def test_twice_as_large_is_four_times_the_ground(shape: str) -> None:
    """A bed whose every length is doubled has four times the area; on the map nearly so, for the earth is
    round."""

    @FEW
    @given(st.data())
    def holds(data: Any) -> None:
        drawn = data.draw(st.composite(lambda draw: DRAWN[shape](draw))())
        if shape == "map":
            doubled = re.sub(
                r"\[(-[\d.]+), ([\d.]+)\]",
                lambda at: f"[{-30 + 2 * (float(at[1]) + 30):.5f}, {40 + 2 * (float(at[2]) - 40):.5f}]",
                drawn,
            )
        elif shape == "area":
            doubled = re.sub(r"(\d+) ft2", lambda found: f"{4 * int(found[1])} ft2", drawn)
        else:
            doubled = re.sub(r"(\d+) ft", lambda found: f"{2 * int(found[1])} ft", drawn)
        single, double = (_bed_area(text) for text in (drawn, doubled))
        assert double == pytest.approx(4 * single, rel=1e-4 if shape == "map" else 1e-9)

    holds()


def _bed_area(text: str) -> float:
    """The area of a shape as it is written."""
    found = shapes.area(TypeAdapter(ShapeField).validate_python(parse(text, "shape").data).value())
    assert found is not None
    return float(found)
