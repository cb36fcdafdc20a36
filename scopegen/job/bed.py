"""A bed: its shape, how it was measured, its edge, what was found, what was decided."""

from __future__ import annotations

from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from scopegen import shapes
from scopegen.job.decisions import AreaOrRest, Decided, Site
from scopegen.quantities import written
from scopegen.quantities.fields import (
    Area,
    Entry,
    Length,
    NotYet,
    OneOrMany,
    Percent,
    Width,
    Words,
    complaint,
    empty,
)

MeasuredBy = Literal["tape", "wheel", "map", "pacing", "eye"]


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
    across: tuple[Width, ...]
    rule: NotYet = None


class NamedShape(Entry):
    """Exactly one shape by its name."""

    rectangle: _Rectangle | None = None
    triangle: _Triangle | None = None
    quadrilateral: _Quadrilateral | None = None
    trapezoid: _Trapezoid | None = None
    circle: _Circle | None = None
    half_circle: NotYet = None
    quarter_circle: NotYet = None
    ring: _Ring | None = None
    ellipse: _Rectangle | None = None
    strip: NotYet = None
    polygon: tuple[tuple[Width, Width], ...] | None = None
    widths: _Widths | None = None
    spokes: NotYet = None
    map: NotYet = None
    area: Area | None = None
    volume: NotYet = None
    parts: NotYet = None

    def value(self) -> shapes.Shape:
        """The shape as geometry."""
        (name,) = self.model_fields_set
        said: Any = getattr(self, name)
        match name:
            case "rectangle":
                return shapes.Rectangle(said.length, said.width)
            case "triangle":
                return (
                    shapes.TriangleBySides(*said.sides)
                    if said.sides
                    else shapes.TriangleByHeight(said.base, said.height)
                )
            case "quadrilateral":
                return shapes.Quadrilateral(*said.sides, said.diagonal)
            case "trapezoid":
                return shapes.Trapezoid(*said.sides, said.apart)
            case "circle":
                return shapes.Circle(said.diameter or 2 * said.radius)
            case "ring":
                return shapes.Ring(said.outer, said.inner)
            case "ellipse":
                return shapes.Ellipse(said.length, said.width)
            case "polygon":
                return shapes.Polygon(said)
            case "widths":
                return shapes.Widths(said.every, said.across)
        return shapes.StatedArea(said)


SHAPES = tuple(NamedShape.model_fields)


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
    if len(value) != 1 and set(value) <= set(SHAPES):
        raise complaint(f"{len(value)} shapes stand here where one belongs", "keep one shape")
    inner = value.get("circle")
    known = {"diameter", "radius"}
    if isinstance(inner, dict) and inner.keys() <= known and len(inner) != 1:
        raise complaint(
            "a circle needs its diameter or its radius, one of the two", "write {circle: {diameter: 6 ft}}"
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
    if "parts" in value:
        return {"parts": value["parts"]}
    return value


ShapeField = Annotated[NamedShape, BeforeValidator(_one_shape), written.ONE_KEY]


class FoundPart(Entry):
    """What the walk saw on a bed, or on a part of it."""

    on: Words | None = None
    area: AreaOrRest = None
    edge: Literal["crisp", "soft", "grown in", "broken", "missing", "none"] | None = None
    weeds: Literal["none", "light", "some", "heavy"] | None = None
    leaves: Literal["none", "some", "heavy"] | None = None
    trash: Literal["none", "some", "heavy"] | None = None
    ground: Literal["old mulch", "bare soil", "fabric", "plastic", "stone", "turf", "groundcover"] | None = (
        None
    )
    ground_depth: Width | None = None
    planted: Percent | None = None
    roots: Literal["none", "some", "many"] | None = None
    slope: Literal["flat", "gentle", "steep"] | None = None
    note: Words | None = None

    def said(self, key: str) -> bool:
        """Whether the job description has this key in this part."""
        return key in self.model_fields_set

    @property
    def whole(self) -> bool:
        """It holds for the whole bed."""
        return not (self.said("on") or self.said("area"))


def _against(value: Any) -> Any:
    if not isinstance(value, dict):
        raise complaint(
            "this does not say what the edge lies against", "write it like {walk: front} or {wall: 12 ft}"
        )
    return {what: many if isinstance(many, (list, tuple)) else [many] for what, many in value.items()}


Against = Annotated[
    dict[str, tuple[Words, ...]],
    BeforeValidator(_against, json_schema_input_type=dict[str, Words | tuple[Words, ...]]),
]


class EveryBed(Decided):
    """What is said once for every bed: never a length or an area."""

    measured_by: MeasuredBy | None = None


class Bed(Decided):
    """One area to be worked."""

    name: Words
    shape: ShapeField
    leave_out: Annotated[tuple[ShapeField, ...], OneOrMany] = ()
    measured_by: MeasuredBy | None = None
    outline: Length | None = None
    shape_to: NotYet = None
    against: Against = {}
    parts: dict[str, AreaOrRest] = {}
    found: Annotated[tuple[FoundPart, ...], OneOrMany] = ()
    site: Site = Site()
    photos: NotYet = None
    visit: NotYet = None
