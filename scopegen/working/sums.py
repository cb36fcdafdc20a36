"""Sums that are true as printed: their figures are written with as many digits as that takes."""

from __future__ import annotations

import math
import operator
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from fractions import Fraction
from functools import reduce

from scopegen.quantities.rounding import half_up
from scopegen.quantities.show import grouped

Number = Fraction | float
MOST = 9  # digits that a figure may be given on top of its usual ones


@dataclass(frozen=True, slots=True)
class Term:
    """One side of a sum. `at` gives its text, and what that text comes to, where each figure is written
    with so many digits more than usual."""

    at: Callable[[int], tuple[str, Number]]

    def __str__(self) -> str:
        return self.at(0)[0]

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

        def at(more: int) -> tuple[str, Number]:
            places = self.places + more
            rounded = half_up(self.value, Fraction(1, 10**places))
            if more > MOST and rounded != self.value:
                return str(self).replace(grouped(self.value, self.places), f"({self.value})"), self.value
            return self.write(self.value, places), rounded

        return Term(at)


PI = Term(lambda _: ("π", math.pi))


def count(value: Number, places: int = 4, sign: str = "") -> Figure:
    """A figure with its sign of a unit, or a bare one."""
    tail = f" {sign}" if sign else ""
    return Figure(Fraction(value), places, lambda exact, digits: f"{grouped(exact, digits)}{tail}")


def share(part: Fraction) -> Term:
    """A share as a percentage."""
    figure = count(100 * part, 3, "%").term()
    return Term(lambda more: (figure.at(more)[0], Fraction(figure.at(more)[1]) / 100))


def together(terms: Iterable[Term]) -> Term:
    """Terms added up; one at least."""
    return reduce(operator.add, terms)


def equals(left: Term, right: Figure) -> str:
    """`left = right` with the fewest digits that make it true to the last digit of the right side."""
    wanted = right.shown(right.value)
    for more in range(MOST + 1):
        text, value = left.at(more)
        if right.shown(value) == wanted:
            return f"{text} = {right}"
    return f"{left.at(MOST + 1)[0]} = {right}"


def _joined(left: Term, sign: str, work: Callable[[Number, Number], Number], other: Term | int) -> Term:
    right = count(other).term() if isinstance(other, int) else other

    def at(more: int) -> tuple[str, Number]:
        (one, first), (two, second) = left.at(more), right.at(more)
        return f"{one} {sign} {two}", work(first, second)

    return Term(at)


def _changed(term: Term, form: str, work: Callable[[Number], Number]) -> Term:
    def at(more: int) -> tuple[str, Number]:
        text, value = term.at(more)
        return form.format(text), work(value)

    return Term(at)
