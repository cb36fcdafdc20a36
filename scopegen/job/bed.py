"""A bed: its shape, how it was measured, its edge, what was found, what was decided."""

from __future__ import annotations

from fractions import Fraction
from typing import Annotated, Any, Literal

from pydantic import BeforeValidator

from scopegen.job.decisions import AreaOrRest, Decided, Site
from scopegen.job.shape import GapField, ShapeField
from scopegen.quantities.fields import (
    Angle,
    Entry,
    Few,
    Length,
    OneOrMany,
    Percent,
    Width,
    Words,
    complaint,
)

MeasuredBy = Literal["tape", "wheel", "map", "pacing", "eye"]
ShapeTo = Literal["old edge", "new edge"]


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


class Photo(Entry):
    """A picture file beside the job or below it, and what it shows."""

    file: Words
    shows: Words | None = None


def _photo(value: Any) -> Any:
    return {"file": value} if isinstance(value, str) else value


PhotoField = Annotated[Photo, BeforeValidator(_photo, json_schema_input_type=Words | Photo)]


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
    shape_to: ShapeTo | None = None


class Bed(Decided):
    """One area to be worked. `at` is where its shape's origin lies on the property, in ft to the right and
    away from a corner that all beds share, and `turned` how far it is turned there."""

    name: Words
    shape: ShapeField
    leave_out: Annotated[tuple[GapField, ...], OneOrMany, Few] = ()
    at: tuple[Width, Width] | None = None
    turned: Angle = Fraction(0)
    measured_by: MeasuredBy | None = None
    outline: Length | None = None
    shape_to: ShapeTo | None = None
    against: Against = {}
    parts: dict[str, AreaOrRest] = {}
    found: Annotated[tuple[FoundPart, ...], OneOrMany, Few] = ()
    site: Site = Site()
    photos: Annotated[tuple[PhotoField, ...], OneOrMany, Few] = ()
    visit: Words | None = None
