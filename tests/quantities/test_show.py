"""Quantities as they are printed: the same figure wherever it stands, and never one that misleads."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction as F

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.quantities import show
from scopegen.quantities.units import quantity

INCH = F(1, 12)


@pytest.mark.parametrize(
    ("printed", "expected"),
    [
        (show.decimal(F(1, 3)), "0.3333"),
        (show.decimal(F(2, 3)), "0.6667"),
        (show.decimal(F(1, 20000)), "0.0001"),
        (show.decimal(F(-1, 20000)), "-0.0001"),
        (show.decimal(F(-1, 30000)), "0"),
        (show.decimal(F(1200)), "1200"),
        (show.decimal(F(1200), 0), "1200"),
        (show.grouped(F("1234567.891"), 2), "1,234,567.89"),
        (show.measure(F("6.25"), "yd3"), "6.25 yd³"),
        (show.measure(F("0.5"), "ton"), "0.5 ton"),
        (show.length(F(32)), "32 ft"),
        (show.length(F(9, 2)), "4 ft 6 in"),
        (show.length(F(1, 2)), "6 in"),
        (show.length(F("11.99") * INCH), "1 ft"),
        (show.length(F(0)), "0 in"),
        (show.length(F(5280)), "5,280 ft"),
        (show.length(F(32), "metric"), "9.75 m"),
        (show.run(F("52.55")), "52.6 ft"),
        (show.run(F(100), "metric"), "30.5 m"),
        (show.depth(2 * INCH), "2 in"),
        (show.depth(F(5, 2) * INCH), "2½ in"),
        (show.depth(INCH / 8), "⅛ in"),
        (show.depth(INCH / 16), "⅛ in"),
        (show.depth(INCH * F(15, 16)), "1 in"),
        (show.depth(F(0)), "0 in"),
        (show.depth(2 * INCH, "metric"), "51 mm"),  # 50.8 mm: 1 in is 25.4 mm exactly (NIST SP 811, B.8)
        (show.area(F("143.95")), "144 ft²"),
        (show.area(F(1000), "metric"), "92.9 m²"),  # 1 ft² is 0.09290304 m² (NIST SP 811, B.8)
        (show.volume(F(25, 27)), "0.93 yd³"),
        (show.volume(F(1), "metric"), "0.76 m³"),  # 1 yd³ is 0.764554857984 m³ (NIST SP 811, B.8)
        (show.weight(F(1999)), "1,999 lb"),
        (show.weight(F(2000)), "1 ton"),
        (show.weight(F(5200)), "2.6 ton"),
        (show.weight(F(2000), "metric"), "907 kg"),  # a short ton is 907.18474 kg (NIST Handbook 44, App. C)
        (show.percent(F(1, 16)), "6.25 %"),
        (show.percent(F(1, 3)), "33.333 %"),
    ],
)
def test_figure_as_printed(printed: str, expected: str) -> None:
    """Worked by hand, with the sources of what is a definition."""
    assert printed == expected


@given(st.fractions(-(10**9), 10**9), st.integers(0, 6))
def test_decimal_is_the_nearest_with_so_many_places(value: F, places: int) -> None:
    """Never further off than half of the last place, never in exponents, never a bare minus zero."""
    text = show.decimal(value, places)
    assert abs(F(Decimal(text)) - value) <= F(1, 2 * 10**places)
    assert "e" not in text.lower() and text != "-0"


@given(st.integers(0, 12 * 5000))
def test_length_that_is_printed_is_read_back(inches: int) -> None:
    """What stands on the paper can be typed into the job description."""
    assert quantity(show.length(inches * INCH).replace(",", ""), "length") == inches * INCH


@given(st.integers(1, 8 * 40))
def test_depth_that_is_printed_is_read_back(eighths: int) -> None:
    """To the eighth of an inch, with its fraction sign."""
    assert quantity(show.depth(eighths * INCH / 8), "length") == eighths * INCH / 8
