"""What the steps of the working say, held against reckonings by hand and published formulas."""

from __future__ import annotations

import math
import re
from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen import shapes
from scopegen.build import open_case
from scopegen.papers.frame import frame_of
from scopegen.report.worked import working_json
from scopegen.words import lexicon
from scopegen.working.areas import area_steps
from scopegen.working.sums import count, equals, together
from scopegen.working.values import Figures, money
from tests.jobs import EXAMPLES
from tests.price.test_metric_chart import METRIC
from tests.rules.laid_over import opened as laid_over
from tests.test_properties import FEW
from tests.test_working import JOBS, assert_true, steps_of, told

WORDS, SPANISH = lexicon("en"), lexicon("es")
BARE = "{decided: not-needed, because: a test}"


def bed_steps(folder: Path, over: str) -> list[str]:
    """The steps of the only bed, up to what is spread on it."""
    text = f"job: {{beds: [{{{over}, edging: {BARE}, material: {BARE}, substrate: {BARE}}}]}}"
    return working_json(frame_of(laid_over(folder, text), WORDS))["working"][0]["steps"]


# Each by hand; 22 ÷ 7 times a diameter of 7 is 22, pi itself 8.5 thousandths less.
SHAPES = {
    "{rectangle: {length: 12 ft, width: 4 ft 6 in}}": [
        "Rectangle: 12 ft × 4.5 ft = 54 ft²",
        "Outline: 2 × (12 ft + 4.5 ft) = 33 ft",
        "Open edge: 33 ft",
    ],
    "{triangle: {sides: [13 ft, 14 ft, 15 ft]}}": [  # 84: Heron of Alexandria, Metrica I.8, his own triangle
        "Half the outline: (13 ft + 14 ft + 15 ft) ÷ 2 = 21 ft",
        "Three sides, by Heron's formula: √(21 ft × 8 ft × 7 ft × 6 ft) = 84 ft²",
        "Outline: 13 ft + 14 ft + 15 ft = 42 ft",
        "Open edge: 42 ft",
    ],
    # two right triangles: 3 × 4 ÷ 2 and 5 × 12 ÷ 2
    "{quadrilateral: {sides: [3 ft, 4 ft, 12 ft, 13 ft], diagonal: 5 ft}}": [
        "Triangle 1, half its outline: (3 ft + 4 ft + 5 ft) ÷ 2 = 6 ft",
        "Triangle 1, by Heron's formula: √(6 ft × 3 ft × 2 ft × 1 ft) = 6 ft²",
        "Triangle 2, half its outline: (12 ft + 13 ft + 5 ft) ÷ 2 = 15 ft",
        "Triangle 2, by Heron's formula: √(15 ft × 3 ft × 2 ft × 10 ft) = 30 ft²",
        "Two triangles: 6 ft² + 30 ft² = 36 ft²",
        "Outline: 3 ft + 4 ft + 12 ft + 13 ft = 32 ft",
        "Open edge: 32 ft",
    ],
    "{circle: {diameter: 7 ft}}": [
        "Circle: π × (7 ft)² ÷ 4 = 38.485 ft²",
        "Outline: π × 7 ft = 21.991 ft",
        "Open edge: 21.991 ft",
    ],
    "{half_circle: {diameter: 7 ft}}": [
        "Half circle: π × (7 ft)² ÷ 8 = 19.242 ft²",
        "Outline: 7 ft + π × 7 ft ÷ 2 = 17.996 ft",
        "Open edge: 17.996 ft",
    ],
    "{quarter_circle: {radius: 7 ft}}": [
        "Quarter circle: π × (7 ft)² ÷ 4 = 38.485 ft²",
        "Outline: 2 × 7 ft + π × 7 ft ÷ 2 = 24.996 ft",
        "Open edge: 24.996 ft",
    ],
    "{ring: {outer: 7 ft, inner: 1 ft}}": [
        "Ring: π × ((7 ft)² − (1 ft)²) ÷ 4 = 37.699 ft²",
        "Outline: π × 7 ft = 21.991 ft",
        "Open edge: 21.991 ft",
    ],
    "{polygon: [[0 ft, 0 ft], [3 ft, 4 ft], [3 ft, 0 ft]]}": [  # clockwise; sides 3, 4 and 5
        "Corners (x, y) in ft: (3, 0), (3, 4), (0, 0)",
        "Each x times the next y, less the next x times the y, corner by corner: 12 + 0 + 0 = 12 ft²",
        "Corners, by cross products: 12 ft² ÷ 2 = 6 ft²",
        "Outline: √((3 ft)² + (4 ft)²) + 4 ft + 3 ft = 12 ft",
        "Open edge: 12 ft",
    ],
    "{widths: {every: 4 ft, across: [0 ft, 3 ft, 6 ft]}}": [  # slants 5 and 5
        "Widths, by the trapezoid rule: 4 ft × ((0 ft + 6 ft) ÷ 2 + 3 ft) = 24 ft²",
        "The far edge: √((4 ft)² + (3 ft)²) + √((4 ft)² + (3 ft)²) = 10 ft",
        "Outline: 8 ft + 6 ft + 10 ft = 24 ft",
        "Open edge: 24 ft",
    ],
    "{widths: {every: 3 ft, across: [2 ft, 4 ft, 5 ft, 4 ft, 2 ft], rule: simpson}}": [
        # 1, 4, 2, 4, 1 thirds: 2 + 16 + 10 + 16 + 2 = 46
        "Widths, by Simpson's rule: 3 ft ÷ 3 × (2 ft + 2 ft + 4 × (4 ft + 4 ft) + 2 × (5 ft)) = 46 ft²",
    ],
    "{widths: {every: 3 ft, across: [2 ft, 4 ft, 6 ft], rule: average}}": [
        "Widths, by their average: (2 ft + 4 ft + 6 ft) ÷ 3 × 3 ft × 2 = 24 ft²",
    ],
    "{spokes: [6 ft, 7 ft, 8 ft]}": [
        "Average spoke: (6 ft + 7 ft + 8 ft) ÷ 3 = 7 ft",
        "Spokes, by their average: π × (7 ft)² = 153.938 ft²",
    ],
    # 6 by 4 and 4 by 6 from one corner share 4 by 4; the outline is that of 6 by 6
    "{parts: [{rectangle: {length: 6 ft, width: 4 ft}, at: [0 ft, 0 ft]},"
    " {rectangle: {length: 4 ft, width: 6 ft}, at: [0 ft, 0 ft]}]}": [
        "Part 1, rectangle: 6 ft × 4 ft = 24 ft²",
        "Part 2, rectangle: 4 ft × 6 ft = 24 ft²",
        "By computer, 16 ft² lie in more than one part.",
        "Parts, what overlaps counted once: 24 ft² + 24 ft² − 16 ft² = 32 ft²",
        "Outline round the parts, by computer: 24 ft",
        "Open edge: 24 ft",
    ],
}


@pytest.mark.parametrize("shape", SHAPES)
def test_each_shape_is_worked_out_from_its_own_measures(shape: str, tmp_path: Path) -> None:
    """Area and outline, step by step, as in any book of formulas."""
    found = bed_steps(tmp_path, f"shape: {shape}, against: {{}}")
    assert found[: len(SHAPES[shape])] == SHAPES[shape]
    assert_true(found)


def integrated(length: float, width: float, pieces: int = 20_000) -> float:
    """The outline of an ellipse by adding up chords: an independent reckoning."""
    turns = [2 * math.pi * k / pieces for k in range(pieces + 1)]
    points = [(length / 2 * math.cos(turn), width / 2 * math.sin(turn)) for turn in turns]
    return sum(math.dist(one, other) for one, other in zip(points, points[1:], strict=False))


def test_ellipse_by_the_formula_of_ramanujan(tmp_path: Path) -> None:
    """S. Ramanujan, Modular equations and approximations to pi (1914): pi ((a + b) (1 + 3h ÷ (10 + √(4 −
    3h)))). It is shown where it is true to the last digit, and chords round the ellipse say the same."""
    found = bed_steps(tmp_path, "shape: {ellipse: {length: 24 ft, width: 11 ft}}")
    assert found[1:4] == [
        "How thin the ellipse is: 3 × ((24 ft − 11 ft) ÷ (24 ft + 11 ft))² = 0.41388",  # 3 × 169 ÷ 1,225
        "Outline, by Ramanujan's formula: π × (24 ft + 11 ft) ÷ 2 × (1 + 0.41388 ÷ (10 + √(4 − 0.41388)))"
        " = 56.891 ft",
        "Open edge: 56.891 ft",
    ]
    assert abs(integrated(24, 11) - 56.891) < 0.0005


def test_thin_ellipse_is_not_given_a_formula_that_is_off(tmp_path: Path) -> None:
    """60 by 1: Ramanujan's formula gives 120.09 ft, chords 120.15; no false sum is printed."""
    found = bed_steps(tmp_path, "shape: {ellipse: {length: 60 ft, width: 1 ft}}")
    (line,) = [step for step in found if step.startswith("Outline")]
    assert line.startswith("Outline, by computer, as an elliptic integral: ")
    assert abs(integrated(60, 1) - float(line.split()[-2])) < 0.001


def test_each_gap_is_worked_out_by_its_own_measures(tmp_path: Path) -> None:
    """100 less 6 and less 3.1416, a circle of 2 ft."""
    over = (
        "shape: {rectangle: {length: 20 ft, width: 5 ft}}, against: {wall: [front, left], walk: [3 ft]},"
        " leave_out: [{rectangle: {length: 3 ft, width: 2 ft}}, {circle: {diameter: 2 ft}}]"
    )
    assert bed_steps(tmp_path, over)[1:6] == [
        "Left out 1, rectangle: 3 ft × 2 ft = 6 ft²",
        "Left out 2, circle: π × (2 ft)² ÷ 4 = 3.142 ft²",
        "Less what is left out: 100 ft² − 6 ft² − 3.142 ft² = 90.858 ft²",
        "Outline: 2 × (20 ft + 5 ft) = 50 ft",
        "Open edge: 50 ft − 20 ft − 5 ft − 3 ft = 22 ft",
    ]


inches = st.integers(1, 600).map(lambda each: F(each, 12))


@FEW
@given(st.lists(st.tuples(inches, inches), min_size=3, max_size=7, unique=True), st.booleans())
def test_cross_products_follow_from_the_corners_as_printed(points: list[tuple[F, F]], metric: bool) -> None:
    """The surveyor's formula over the printed corners gives each printed product, and their sum is twice the
    area. Corners in whole inches have endless decimals in feet."""
    shape = shapes.Polygon(tuple(points))
    if shapes.faults(shape):
        return
    corners, crossed, half = area_steps(WORDS, Figures(metric), shape)
    printed = [
        (float(x.replace(",", "")), float(y.replace(",", "")))
        for x, y in re.findall(r"\(([\d.,]+), ([\d.,]+)\)", corners.partition(": ")[2])
    ]
    after = [*printed[1:], printed[0]]
    listed, total = crossed.partition(": ")[2].split(" = ")
    products = [
        float(sign.replace("−", "-").replace("+", "") + figure.replace(",", ""))
        for sign, figure in re.findall(r"(^|[+−]) ?([\d.,]+)", listed)
    ]
    assert len(printed) == len(products) == len(points)
    for (x, y), (east, north), product, figure in zip(
        printed, after, products, re.findall(r"[\d.,]+", listed), strict=True
    ):
        digits = max(len(figure.partition(".")[2]), 3)
        assert abs(x * north - east * y - product) <= 0.5 * 10**-digits + 1e-7, (corners, crossed)
    assert_true([crossed, half])


def test_products_that_end_between_two_cents_are_printed_as_fractions() -> None:
    """A third of a cent and a half is half a cent, which goes up; no count of threes would say so."""
    third = count(F(1, 3), 4, "h").term() * count(F(3, 200)).term()
    assert equals(third, money(WORDS, F(1, 200))) == "(1/3) h × 0.015 = $0.01"
    assert_true(["(1/3) h × 0.015 = $0.01"])


def test_a_figure_takes_the_digits_that_its_sum_needs() -> None:
    """0.0241 × 38.00 is 0.9158, but the share is 0.024074, and the product 0.9148."""
    share = count(F(65, 2700)).term()
    assert equals(share * money(WORDS, F(38)).term(), money(WORDS, F(65 * 38, 2700))) == (
        "0.02407 × $38.00 = $0.91"
    )


def test_a_sum_may_have_as_many_addends_as_a_job_has_beds() -> None:
    """3,000 thirds of a yard are 1,000 yards, which takes eight digits of each: 3,000 × 0.0000000033 is below
    half of the last one, 3,000 × 0.000000033 is not."""
    third = count(F(1, 3), 4, "yd³")
    said = equals(together(third.term() for _ in range(3000)), count(1000, 4, "yd³"))
    assert said.startswith("0.33333333 yd³ + ") and said.endswith(" yd³ = 1,000 yd³")
    assert said.count(" + ") == 2999


# By hand. Sod of the old edge 47 ft × 4 in × 2 in ÷ 2 = 47 × 4 ÷ 144 = 1.3056 ft³, ÷ 27 = 0.0484 yd³; of the
# new one 37.699 ft × (12 + 25) in² ÷ 144 ÷ 27 = 0.3588 yd³; together 0.4071, loose 0.5089 yd³, 1,099.2 lb.
HERON_BEND = [
    "Green waste, Weed by hand: 528.029 ft² × 0.125 in ÷ 324 = 0.2037 yd³",
    "Sod, Recut a spade edge: 47 ft × 4 in × 2 in ÷ 2 ÷ 3,888 = 0.0484 yd³",
    "Sod, Cut a new spade edge: 37.699 ft × (4 in × 6 in ÷ 2 + 10 in × 2.5 in) ÷ 3,888 = 0.3588 yd³",
    "Sod, together: 0.04835 yd³ + 0.35876 yd³ = 0.4071 yd³",
    "Sod, loosened by 25 %: 0.4071 yd³ × 1.25 = 0.5089 yd³",
    "Old fabric, Pull old landscape fabric: 18 ft² × 0.25 in ÷ 324 = 0.0139 yd³",
    "Old fabric, loosened by 100 %: 0.0139 yd³ × 2 = 0.0278 yd³",
    "Loose in all: 0.2037 yd³ + 0.5089 yd³ + 0.0278 yd³ = 0.7404 yd³",
    "Trips, the transfer station: 0.0278 yd³ ÷ 5 yd³ = 0.0056, rounded up 1",
    "Trips: (1 + 1) × $38.00 = $76.00",
    "Drive there and back: (1 + 1) × 40 min ÷ 60 × $62.00 = $82.67",
    "Loading: 0.7404 yd³ ÷ 1.5 yd³/h × $62.00 = $30.60",
    "Dump fee, green waste: 0.2037 yd³ × $12.00 = $2.44",
]


def test_hauling_is_worked_out_from_the_ground_to_its_amount() -> None:
    """Depths, widths, swell, the truck, the drive and the loading of the first example."""
    data = told(EXAMPLES / "heron-bend.yaml", "--working")
    sheets = {sheet["title"]: sheet["steps"] for sheet in data["working"]}
    haul = sheets["Haul away"]
    assert [step for step in haul if step in HERON_BEND] == HERON_BEND
    edges = F(47 * 4, 144) + F(12 + 25, 144) * F(math.pi * 12)
    assert abs(float(edges / 27 * F(5, 4)) - 0.5089) < 0.00005
    gift = sheets["No charge this time: Recut a spade edge (Street strip)"]
    # 26 ft of edge weigh 26 × 4 ÷ 144 ÷ 27 × 2,700 = 72.222 lb
    assert "  Part of the truck, which comes anyway: 72.222 lb ÷ 3,000 lb = 0.0241" in gift
    assert "  Trips: 0.02407 × $38.00 = $0.91" in gift


@pytest.mark.parametrize("name", ["heron-bend", "cedar-row", "tern-court", "garza-lane", "heron-bend-2028"])
def test_no_haul_is_without_the_steps_to_its_volume(name: str) -> None:
    """Each load that is priced has its cross-section or depth, its drive, its loading and its sum."""
    text = "\n".join(steps_of(told(EXAMPLES / f"{name}.yaml", "--working")))
    hauls = text.count("In all, rounded once: ")
    assert hauls >= 2
    for step in ("Drive there and back: ", "Loading: ", "Trips: "):
        assert text.count(step) == hauls
    assert len(re.findall(r": .* in(?: ÷ 2|\))* ÷ (?:324|3,888) = ", text)) >= hauls
    totals = re.findall(r"In all, rounded once: .* = (\$[\d.,]+)", text)
    assert len(totals) == hauls


def test_metric_spoil_is_worked_out_in_millimeters(tmp_path: Path) -> None:
    """12 m² × 3 mm is 0.036 m³; 10 m × 4 in × 2 in ÷ 2 is 10 × 101.6 × 50.8 ÷ 2 millionths."""
    steps = steps_of(working_json(frame_of(laid_over(tmp_path, METRIC), WORDS)))
    text = "\n".join(steps)
    assert "12 m² × 3 mm ÷ 1,000 = 0.036 m³" in text
    assert "10 m × 101.6 mm × 50.8 mm ÷ 2 ÷ 1,000,000 = 0.0258 m³" in text


LEAVE = (
    "chart: {work: {leave: {decides: debris, name: Leave it, price: {per: UNIT, amount: 14.00},"
    " takes: [sod, green], clause: debris.leave-on-site}}}\n"
    "job: {beds: [{debris: {decided: included, work: leave, spot: the hedge}}]}"
)


@pytest.mark.parametrize(
    ("unit", "said"),
    [
        # 120 ft² an eighth of an inch deep: 1.25 ft³; 32 ft of wedges of 4 in²: 0.8889 ft³ and a quarter
        ("yd3", ["Loose in all: 0.046296 yd³ + 0.041152 yd³ = 0.0874 yd³"]),
        (
            "ton",
            [
                "Green waste, weight: 0.046296 yd³ × 250 lb = 11.574 lb",
                "Sod, weight: 0.032922 yd³ × 2,700 lb = 88.889 lb",  # 800 ÷ 9
                "(11.574 lb + 88.889 lb) ÷ 2,000 = 0.0502 ton",
            ],
        ),
    ],
)
def test_spoil_that_is_priced_by_what_it_is_has_its_steps(unit: str, said: list[str], tmp_path: Path) -> None:
    """Left on the property, by the cubic yard and by the ton."""
    frame = frame_of(laid_over(tmp_path, LEAVE.replace("UNIT", unit)), WORDS)
    steps = {sheet["title"]: sheet["steps"] for sheet in working_json(frame)["working"]}["Leave it"]
    assert steps[:3] == [
        "Green waste, Weed by hand: 120 ft² × 0.125 in ÷ 324 = 0.0463 yd³",
        "Sod, Recut a spade edge: 32 ft × 4 in × 2 in ÷ 2 ÷ 3,888 = 0.0329 yd³",
        "Sod, loosened by 25 %: 0.03292 yd³ × 1.25 = 0.0412 yd³",
    ]
    assert steps[3 : 3 + len(said)] == said
    assert assert_true(steps) >= 4


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("heron-bend", "The rest of the edge: 41 ft − 20 ft = 21 ft"),
        ("heron-bend", "The rest: 58.765 ft² − 18 ft² = 40.765 ft²"),
        ("heron-bend", "Sunny end, the rest: 194 ft² − 80 ft² = 114 ft²"),
        ("heron-bend", "Twice-ground hardwood mulch: 80 ft² × 3 in ÷ 324 = 0.7407 yd³"),  # 20 ft³
        ("heron-bend", "Truckloads: 3 yd³ ÷ 6 yd³ = 0.5"),
        ("heron-bend", "The discount: $1,077.59 × 3 % = $32.33"),
        ("cedar-row", "The new edge adds: 104 ft × 10 in ÷ 12 = 86.667 ft²"),
        ("cedar-row", "The new edge adds: 30.5 ft × 10 in ÷ 12 = 25.417 ft²"),
        ("cedar-row", "Truckloads: 16,000 lb × 1.2 ÷ 9,000 lb = 2.1333"),  # 8 ton, wetter by a fifth
    ],
)
def test_what_was_left_to_be_guessed_is_a_step(name: str, said: str) -> None:
    """Rests, strips, cleared ground, truckloads and the discount, each by its own sum."""
    assert said in [step.strip() for step in steps_of(told(EXAMPLES / f"{name}.yaml", "--working"))]


@pytest.mark.parametrize("path", JOBS, ids=lambda path: path.stem)
def test_every_printed_sum_is_true_in_spanish(path: Path) -> None:
    """The same figures, as many sums as in English, and no step that is left in English."""
    case = open_case(path)
    steps = {words.language: steps_of(working_json(frame_of(case, words))) for words in (WORDS, SPANISH)}
    assert assert_true(steps["es"]) == assert_true(steps["en"]) >= 15
    assert not [step for step in steps["es"] if re.match(r" *(Outline|Trips|Loading|Open edge)\b", step)]
