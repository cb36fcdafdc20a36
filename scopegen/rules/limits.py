"""How small and how large a figure may be that a person wrote, and why: each far beyond any small crew's bed
work, so that only slips of the hand are stopped. Common practice, no source, but where one is named."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Limit:
    """For the figures at a path of a file (`*` for every entry there) the least and the most, as a person
    would write them, and why nobody means less or more. Zero is left to the figure's own type."""

    file: str  # `job` or `chart`
    path: str
    what: str  # as a sentence goes on after "is less than"
    least: str = ""
    most: str = ""
    why: str = ""


# 23 CFR 658.17(b): 80,000 lb is the most that a vehicle on the Interstate weighs with its load.
_ROAD = "a truck on the road weighs 80,000 lb with its load"
_PAYLOAD = ("10 lb", "200000 lb", _ROAD)
_LOAD = ("0.01 yd3", "500 yd3", "a large trailer holds 100 yd3")
# Iron has 7.87 g/cm3 (from memory, as handbooks of physics have it): 13,270 lb/yd3.
_WEIGHT = ("5 lb/yd3", "14000 lb/yd3", "solid iron weighs 13,300 lb/yd3, and loose mulch some 500")
_BY_HAND = ("0.01 yd3/h", "1000 yd3/h", "one worker moves about a cubic yard an hour by hand")
_DUG = "10 ft"
_TURF = ("any turf is lifted", "", "10 ft", "turf is lifted by the inch")
# Coarse sand has grains of up to 2 mm (ISO 14688-1, from memory): a sixteenth of an inch is less than one.
_LAYER = ("any layer has", "1/16 in", "", "grains of coarse sand are as thick")
_VOLUME_SOLD = ("0.0001 yd3", "1000 yd3", "a large trailer holds 100 yd3")
_WEIGHT_SOLD = ("0.1 lb", "1000 ton", "a loaded truck weighs 40 tons")

LIMITS: tuple[Limit, ...] = (
    Limit("chart", "crew", "any small crew has", "", "200", "a small crew has two to six people"),
    Limit("chart", "productive_hours", "any working day has", "0.25", "24", "a day has 24 hours"),
    Limit("chart", "job.set_up", "any setting up takes", "", "100 h", "it is done within a day"),
    Limit("chart", "job.clean_up", "any cleaning up takes", "", "100 h", "it is done within a day"),
    Limit("chart", "delivery.load", "any truck holds", *_LOAD),
    Limit("chart", "delivery.payload", "any truck carries", *_PAYLOAD),
    Limit(
        "chart", "barrow.volume", "any wheelbarrow holds", "0.05 ft3", "20 yd3", "a large one holds 10 ft3"
    ),
    Limit("chart", "barrow.payload", "anybody pushes", "1 lb", "10000 lb", "one person pushes it"),
    Limit("chart", "streams.*.in_ground_weight", "any spoil weighs", *_WEIGHT),
    Limit("chart", "streams.*.loose_weight", "any spoil weighs", *_WEIGHT),
    Limit("chart", "access.*.factor", "any way in makes of an hour", "0.1", "20", "few triple it"),
    Limit("chart", "taxes.*.rate", "any tax takes", "0.001 %", "", "it would come to nothing on any job"),
    Limit("chart", "materials.*.weight", "any material weighs", *_WEIGHT),
    Limit("chart", "materials.*.lays", "anybody spreads by hand", *_BY_HAND),
    Limit("chart", "materials.*.sold_in", "any material is sold in", *_VOLUME_SOLD),
    Limit("chart", "materials.*.sold_in", "any material is sold in", *_WEIGHT_SOLD),
    Limit("chart", "materials.*.bought_in", "any material is bought in", *_VOLUME_SOLD),
    Limit("chart", "materials.*.bought_in", "any material is bought in", *_WEIGHT_SOLD),
    Limit("chart", "work.*.billed_in", "any work is billed in", "0.0001", "10000", "feet are usual"),
    Limit("chart", "work.*.does", "anybody does", "0.1 ft/h", "100000 ft/h", "one worker walks 15,000 ft/h"),
    Limit(
        "chart", "work.*.does", "anybody does", "0.1 ft2/h", "1000000 ft2/h", "an acre has 43,560 ft2"
    ),
    Limit("chart", "work.*.does", "anybody does", *_BY_HAND),
    Limit("chart", "work.*.price.riders", "ride in any truck", "0.1", "20", "a cab seats two to six"),
    Limit("chart", "work.*.price.drive", "any drive to a dump takes", "", "100 h", "most take an hour"),
    Limit("chart", "work.*.price.loading", "anybody loads by hand", *_BY_HAND),
    Limit("chart", "work.*.truck.volume", "any truck holds", *_LOAD),
    Limit("chart", "work.*.truck.payload", "any truck carries", *_PAYLOAD),
    Limit("chart", "work.*.spoil.depth", "any bed is dug", "", _DUG, "beds are dug by the inch"),
    Limit("chart", "work.*.spoil.width", "any edge is cut", "", "100 ft", "edges are cut by the inch"),
    Limit("chart", "work.*.spoil.plus_strip.depth", *_TURF),
    Limit("chart", "work.*.spoil.plus_strip.width", *_TURF),
    Limit("job", "beds.*.found.*.ground_depth", "lies on any bed", "", _DUG, "mulch lies inches deep"),
    Limit("job", "every_bed.material.*.depth", *_LAYER),
    Limit("job", "beds.*.material.*.depth", *_LAYER),
    Limit("job", "every_bed.material.*.top_up_to", *_LAYER),
    Limit("job", "beds.*.material.*.top_up_to", *_LAYER),
)  # fmt: skip
