"""Every parser of values, with texts that make a careless pattern try everything: linear, and refused."""

from __future__ import annotations

import time
from collections.abc import Callable
from typing import Any

import pytest

from scopegen.quantities import texts
from scopegen.quantities.units import NotAQuantity, number, quantity, rate

LONG = 10_000  # the longest text that a file may hold
PARSERS: dict[str, Callable[[str], Any]] = {
    "length": texts.within("length", above_zero=True),
    "area": texts.within("area", above_zero=False),
    "volume": texts.within("volume", above_zero=True),
    "weight": texts.within("weight", above_zero=True),
    "time": texts.within("time", above_zero=True),
    "days": texts.within("days", above_zero=True),
    "rate": texts.rate_of("volume", "time"),
    "weight for a volume": lambda text: rate(text, "weight", "volume"),
    "day": texts.day,
    "money": texts.money,
    "percent": texts.percent,
    "whole": texts.whole,
    "yes or no": texts.yes_no,
    "number": number,
    "above zero": texts.above_zero,
    "degrees": texts.degrees,
    "angle": texts.angle,
    "currency": texts.currency,
    "share": texts.share,
    "amount": texts.amount,
    "plain length": lambda text: quantity(text, "length"),
}
PIECES = ("1", " ", "1 ", "1/", "½", " ½", "a", "a ", "1 ft ", "1'", "''", "1 a a", ".", "1.", ",", "-", "%",
          "$", "1 1/2 ", "9" * 20 + " ft ", "1e", "²", "1 sq ", "/", "\u00a0", "٣")  # fmt: skip
ENDS = ("", "!", " ft", "%", "/h", "x" * 20)


@pytest.mark.parametrize("name", PARSERS)
def test_long_text_is_refused_in_linear_time(name: str) -> None:
    """156 texts of 10,000 signs, each meant to take some milliseconds. Trying everything at a text of this
    length takes minutes; the bound is on the time of this process, whatever else the machine does."""
    start = time.process_time()
    for piece in PIECES:
        for end in ENDS:
            text = (piece * LONG)[: LONG - len(end)] + end
            with pytest.raises(NotAQuantity) as refused:
                PARSERS[name](text)
            assert refused.value.fix
            assert len(str(refused.value)) < 300, str(refused.value)[:80]
    assert time.process_time() - start < 20


@pytest.mark.parametrize("name", PARSERS)
@pytest.mark.parametrize(
    "text", ["1e999999 ft", "1e999999", "inf", "nan", "0x10", "1_000", "1/0", "٣ ft", "−1 ft"]
)
def test_number_that_only_a_machine_would_write_is_refused(name: str, text: str) -> None:
    """An exponent would make a number of a million digits; digits of other scripts are read by nobody."""
    if name == "degrees" and text == "−1 ft":
        text = "−−1"
    with pytest.raises(NotAQuantity):
        PARSERS[name](text)
