"""Sums that are true as printed: their figures are written with as many digits as that takes."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction

from scopegen.quantities.rounding import half_up
from scopegen.quantities.show import grouped

Number = Fraction | float
MOST = 9  # digits that a figure may be given on top of its usual ones


@dataclass(frozen=True, slots=True)
class Term:
    """One side of a sum: its text, and what that text comes to, where each figure is written with so many
    digits more than usual."""

    text: Callable[[int], str]
    worth: Callable[[int], Number]

    def __str__(self) -> str:
        return self.text(0)

    def __add__(self, other: Term) -> Term:
        return _joined(self, "+", operator.add, other)

    def __sub__(self, other: Term) -> Term:
        return _joined(self, "−", operator.sub, other)

    def __mul__(self, other: Term | int) -> Term:
        return _joined(self, "×", operator.mul, other)

    def __truediv__(self, other: Term | int) -> Term:
        return _joined(self, "÷", operator.truediv, other)

    def inside(self) -> Term:
        """In parentheses."""
        return _changed(self, "({})", lambda value: value)

    def squared(self) -> Term:
        """Its square."""
        return _changed(self, "({})²", lambda value: value * value)

    def root(self) -> Term:
        """Its square root."""
        return _changed(self, "√({})", lambda value: math.sqrt(value))


@dataclass(frozen=True, slots=True)
class Figure:
    """One figure: its exact value, its usual decimals, and how its text is written for so many."""

    value: Fraction
    places: int
    write: Callable[[Fraction, int], str]

    def __str__(self) -> str:
        return self.write(self.value, self.places)

    def shown(self, value: Number) -> Fraction:
        """A value as it is printed in this figure's place."""
        return half_up(Fraction(value), Fraction(1, 10**self.places))

    def term(self) -> Term:
        """The figure in a sum; past its most digits as a fraction, where it has no last one."""

        def worth(more: int) -> Number:
            return self.value if more > MOST else half_up(self.value, Fraction(1, 10 ** (self.places + more)))

        def text(more: int) -> str:
            if more > MOST and half_up(self.value, Fraction(1, 10 ** (self.places + more))) != self.value:
                return str(self).replace(grouped(self.value, self.places), f"({self.value})")
            return self.write(self.value, self.places + more)

        return Term(text, worth)


PI = Term(lambda _: "π", lambda _: math.pi)


def count(value: Number, places: int = 4, sign: str = "") -> Figure:
    """A figure with its sign of a unit, or a bare one."""
    tail = f" {sign}" if sign else ""
    return Figure(Fraction(value), places, lambda exact, digits: f"{grouped(exact, digits)}{tail}")


def share(part: Fraction) -> Term:
    """A share as a percentage."""
    figure = count(100 * part, 3, "%").term()
    return Term(figure.text, lambda more: Fraction(figure.worth(more)) / 100)


def together(terms: Iterable[Term]) -> Term:
    """Terms added up; one at least."""
    known = tuple(terms)
    return Term(
        lambda more: " + ".join(term.text(more) for term in known),
        lambda more: sum((term.worth(more) for term in known), Fraction(0)),
    )


def equals(left: Term, right: Figure) -> str:
    """`left = right` with the fewest digits that make it true to the last digit of the right side."""
    wanted = right.shown(right.value)
    for more in range(MOST + 1):
        if right.shown(left.worth(more)) == wanted:
            return f"{left.text(more)} = {right}"
    return f"{left.text(MOST + 1)} = {right}"


def _joined(left: Term, sign: str, work: Callable[[Number, Number], Number], other: Term | int) -> Term:
    right = count(other).term() if isinstance(other, int) else other
    return Term(
        lambda more: f"{left.text(more)} {sign} {right.text(more)}",
        lambda more: work(left.worth(more), right.worth(more)),
    )


def _changed(term: Term, form: str, work: Callable[[Number], Number]) -> Term:
    return Term(lambda more: form.format(term.text(more)), lambda more: work(term.worth(more)))
