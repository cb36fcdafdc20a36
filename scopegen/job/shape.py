"""A bed's shape as a person writes it: one shape by its name, or several put together."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from scopegen import shapes
from scopegen.quantities import written
from scopegen.quantities.fields import (
    Angle,
    Area,
    Degrees,
    Entry,
    Few,
    Length,
    Points,
    Volume,
    Width,
    complaint,
    empty,
)
from scopegen.quantities.units import FT3_PER_YD3

PLACE = ("at", "turned")  # where a part of a composed shape lies


class _Rectangle(Entry):
    length: Length
    width: Length


class _Triangle(Entry):
    sides: tuple[Length, Length, Length] | None = None
    base: Length | None = None
    height: Length | None = None


class _Quadrilateral(Entry):
    sides: tuple[Length, Length, Length, Length]
    diagonal: Length


class _Trapezoid(Entry):
    sides: tuple[Length, Length]
    apart: Length


class _Circle(Entry):
    diameter: Length | None = None
    radius: Length | None = None


class _Ring(Entry):
    outer: Length
    inner: Length


class _Widths(Entry):
    every: Length
    across: Annotated[tuple[Width, ...], Points]
    rule: Literal["trapezoid", "simpson", "average"] = "trapezoid"


class NamedShape(Entry):
    """Exactly one shape by its name."""

    rectangle: _Rectangle | None = None
    triangle: _Triangle | None = None
    quadrilateral: _Quadrilateral | None = None
    trapezoid: _Trapezoid | None = None
    circle: _Circle | None = None
    half_circle: _Circle | None = None
    quarter_circle: _Circle | None = None
    ring: _Ring | None = None
    ellipse: _Rectangle | None = None
    strip: _Rectangle | None = None
    polygon: Annotated[tuple[tuple[Width, Width], ...], Points] | None = None
    widths: _Widths | None = None
    spokes: Annotated[tuple[Length, ...], Points] | None = None
    map: Annotated[tuple[tuple[Degrees, Degrees], ...], Points] | None = None
    area: Area | None = None
    volume: Volume | None = None
    parts: Annotated[tuple[PartField, ...], Few] | None = None

    def value(self) -> shapes.Shape:
        """The shape as geometry."""
        (name,) = self.model_fields_set - {*PLACE}
        said: Any = getattr(self, name)
        match name:
            case "rectangle":
                return shapes.Rectangle(said.length, said.width)
            case "triangle" if said.sides:
                return shapes.TriangleBySides(*said.sides)
            case "triangle":
                return shapes.TriangleByHeight(said.base, said.height)
            case "quadrilateral":
                return shapes.Quadrilateral(*said.sides, said.diagonal)
            case "trapezoid":
                return shapes.Trapezoid(*said.sides, said.apart)
            case "circle":
                return shapes.Circle(said.diameter or 2 * said.radius)
            case "half_circle":
                return shapes.HalfCircle(said.diameter or 2 * said.radius)
            case "quarter_circle":
                return shapes.QuarterCircle(said.radius or said.diameter / 2)
            case "ring":
                return shapes.Ring(said.outer, said.inner)
            case "ellipse":
                return shapes.Ellipse(said.length, said.width)
            case "polygon":
                return shapes.Polygon(said)
            case "widths":
                return shapes.Widths(said.every, said.across, said.rule)
            case "strip":
                return shapes.Strip(said.length, said.width)
            case "spokes":
                return shapes.Spokes(said)
            case "map":
                return shapes.MapRing(tuple((float(east), float(north)) for east, north in said))
            case "volume":
                return shapes.StatedVolume(said * FT3_PER_YD3)
            case "parts":
                return shapes.Composed(tuple(part.placed() for part in said))
        return shapes.StatedArea(said)


class PlacedShape(NamedShape):
    """A part of a composed shape, or what is left out of a bed: where its origin lies, and how far it is
    turned counterclockwise."""

    at: tuple[Width, Width] | None = None
    turned: Angle = Fraction(0)

    def placed(self) -> shapes.Placed:
        """The part as geometry, with its place."""
        return shapes.Placed(self.value(), self.at, self.turned)


SHAPES = tuple(NamedShape.model_fields)
ROUND = ("circle", "half_circle", "quarter_circle")


def _pairs(measures: Any) -> list[tuple[str, Any]]:
    return list(measures.items()) if isinstance(measures, dict) else []


def _one_shape(value: Any) -> Any:
    if isinstance(value, NamedShape):
        return value
    if not isinstance(value, dict):
        raise complaint("this is not a shape", "write one like {rectangle: {length: 32 ft, width: 4 ft}}")
    for name, measures in value.items():
        for key in [name] if measures is None else [key for key, said in _pairs(measures) if said is None]:
            raise empty(key)
    return _measured(value)


def _measured(value: dict[str, Any]) -> Any:
    """Checks what a model cannot say well: one shape, and one of two ways to measure it."""
    if len(value) != 1 and set(value) <= set(SHAPES):
        raise complaint(f"{len(value)} shapes stand here where one belongs", "keep one shape")
    for name in ROUND:
        inner = value.get(name)
        if isinstance(inner, dict) and inner.keys() <= {"diameter", "radius"} and len(inner) != 1:
            raise complaint(
                f"a {name.replace('_', ' ')} needs its diameter or its radius, one of the two",
                f"write {{{name}: {{diameter: 6 ft}}}}",
            )
    inner = value.get("triangle")
    if (
        isinstance(inner, dict)
        and inner.keys() <= {"sides", "base", "height"}
        and inner.keys() not in ({"sides"}, {"base", "height"})
    ):
        raise complaint(
            "a triangle needs its three sides, or its base and height",
            "write {triangle: {sides: [9 ft, 10 ft, 6 ft]}} or {triangle: {base: 9 ft, height: 5 ft}}",
        )
    return value


def _one_part(value: Any) -> Any:
    if isinstance(value, dict) and "parts" in value:
        raise complaint("a part cannot be made of parts", "write each part as one shape")
    return _one_gap(value)


def _one_gap(value: Any) -> Any:
    if isinstance(value, PlacedShape):
        return value
    if isinstance(value, dict):
        _one_shape({key: said for key, said in value.items() if key not in PLACE})
    else:
        raise complaint(
            "this is not a part of a shape", "write one like {rectangle: {length: 9 ft, width: 4 ft}}"
        )
    return value


PartField = Annotated[PlacedShape, BeforeValidator(_one_part)]
GapField = Annotated[PlacedShape, BeforeValidator(_one_gap)]
ShapeField = Annotated[NamedShape, BeforeValidator(_one_shape), written.ONE_KEY]
NamedShape.model_rebuild()
PlacedShape.model_rebuild()
