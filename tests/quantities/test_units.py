"""What people write, as exact quantities; and what is refused."""

from __future__ import annotations

from fractions import Fraction

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.quantities.units import AREA, LENGTH, TIME, VOLUME, WEIGHT, NotAQuantity, number, quantity, rate

FOOT = Fraction(1)


@pytest.mark.parametrize(
    ("written", "feet"),
    [
        ("12 ft 6 in", Fraction(25, 2)),
        ("12'6\"", Fraction(25, 2)),
        ("12' 6\"", Fraction(25, 2)),
        ("12’ 6”", Fraction(25, 2)),
        ("12′6″", Fraction(25, 2)),
        ("12 feet 6 inches", Fraction(25, 2)),
        ("12.5 ft", Fraction(25, 2)),
        ("12 1/2 ft", Fraction(25, 2)),
        ("12½ ft", Fraction(25, 2)),
        ("½ in", Fraction(1, 24)),
        ("1/2 in", Fraction(1, 24)),
        ("3 1/2 in", Fraction(7, 24)),
        ("4 yd", Fraction(12)),
        ("3.5 m", Fraction("3.5") / Fraction("0.3048")),
        ("30.48 cm", FOOT),
        ("304.8 mm", FOOT),
        ("12FT", Fraction(12)),
        (" 12 ft ", Fraction(12)),
    ],
)
def test_length_as_people_write_it(written: str, feet: Fraction) -> None:
    """Feet and inches in every usual way, fractions, yards, metres: exact feet."""
    assert quantity(written, "length") == feet


REFUSED = [
    ("12", "'12' has no unit"),
    ("1,200 ft", "'1,200 ft' has a comma, which could be read two ways"),
    ("-3 ft", "'-3 ft' has a sign"),
    ("+3 ft", "'+3 ft' has a sign"),
    ("1/0 ft", "'1/0 ft' divides by zero"),
    ("1e5 ft", "'1e5 ft' is not a length"),
    ("nan", "'nan' is not a length"),
    ("inf ft", "'inf ft' is not a length"),
    ("40 ft2", "'40 ft2' is not a length"),
    ("6 in 12 ft", "'6 in 12 ft' is not a length"),
    ("12 ft 14 in", "'12 ft 14 in' is not a length"),
    ("12 ft 6", "'12 ft 6' is not a length"),
    ("½6 in", "'½6 in' is not a length"),  # never a twenty-sixth
    ("", "'' is not a length"),
    ("12 furlongs", "'12 furlongs' is not a length"),
    ("9" * 400 + " ft", f"'{'9' * 39}…' has more than 15 digits"),
    ("٣ ft", "'٣ ft' is not a length"),
]


@pytest.mark.parametrize(("written", "message"), REFUSED)
def test_length_that_is_refused(written: str, message: str) -> None:
    """Nothing is guessed: the message names what was written, and the advice shows how to write it."""
    with pytest.raises(NotAQuantity) as refused:
        quantity(written, "length")
    assert str(refused.value) == message
    assert "like" in refused.value.fix


PINT = pint.UnitRegistry(non_int_type=Fraction)
NAMES = {
    "ft": "foot", "in": "inch", "yd": "yard", "m": "meter", "cm": "centimeter", "mm": "millimeter",
    "ft2": "foot**2", "yd2": "yard**2", "m2": "meter**2",
    "yd3": "yard**3", "ft3": "foot**3", "m3": "meter**3", "l": "liter",
    "lb": "pound", "ton": "short_ton", "kg": "kilogram", "t": "metric_ton", "h": "hour", "min": "minute",
}  # fmt: skip
BASES = [("ft", LENGTH), ("ft2", AREA), ("yd3", VOLUME), ("lb", WEIGHT), ("h", TIME)]


@pytest.mark.parametrize(
    ("base", "unit"), [(base, unit) for base, units in BASES for unit in units if unit in NAMES]
)
def test_factor_agrees_with_pint(base: str, unit: str) -> None:
    """Every unit's factor against a general-purpose units library."""
    units = dict(BASES)[base]
    theirs = PINT.Quantity(1, NAMES[unit]).to(NAMES[base]).magnitude
    assert float(units[unit]) == pytest.approx(float(theirs), rel=1e-12)


def test_factors_by_definition() -> None:
    """NIST Handbook 44, Appendix C, and SP 811, Appendix B: exact by definition."""
    assert 1 / LENGTH["m"] == Fraction("0.3048")
    assert 1 / AREA["m2"] == Fraction("0.09290304")
    assert 1 / VOLUME["m3"] == Fraction("0.764554857984")
    assert VOLUME["ft3"] / VOLUME["m3"] == Fraction("0.028316846592")
    assert 1 / WEIGHT["kg"] == Fraction("0.45359237")
    assert WEIGHT["ton"] / WEIGHT["kg"] == Fraction("907.18474")


def test_rates() -> None:
    """A quantity for one unit of another: 2,600 lb/yd3 is 1,542.5187 kg/m3 (from the definitions)."""
    assert rate("650 lb/yd3", "weight", "volume") == 650
    assert rate("0.8 yd3/h", "volume", "time") == Fraction("0.8")
    assert float(rate("1542.5187 kg/m3", "weight", "volume")) == pytest.approx(2600, abs=0.001)
    with pytest.raises(NotAQuantity):
        rate("650", "weight", "volume")


@given(feet=st.integers(0, 9999), inches=st.integers(0, 11), sixteenths=st.integers(0, 15))
def test_feet_and_inches_come_back(feet: int, inches: int, sixteenths: int) -> None:
    """Any tape reading to a sixteenth of an inch is read exactly, however it is written."""
    exact = feet + Fraction(inches, 12) + Fraction(sixteenths, 16 * 12)
    assert quantity(f"{feet} ft {inches} {sixteenths}/16 in", "length") == exact
    assert quantity(f"{feet}'{inches} {sixteenths}/16\"", "length") == exact


@given(st.text(max_size=20))
def test_any_text_is_a_quantity_or_refused(text: str) -> None:
    """Whatever is typed, it is a quantity or a refusal with advice."""
    for dimension in ("length", "area", "volume", "weight", "time", "days"):
        try:
            assert quantity(text, dimension) >= 0
        except NotAQuantity as refused:
            assert str(refused) and refused.fix
    try:
        assert number(text) >= 0
    except NotAQuantity as refused:
        assert refused.fix
