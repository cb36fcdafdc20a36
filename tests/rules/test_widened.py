"""Rules on what a job may say beyond its beds: shapes to an edge, whose the material is, choices,
visits, properties, customers, gaps. The last value that passes, the first that does not, and where they keep
still."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.findings import Level
from tests.rules.laid_over import checked

STRIP = "chart: {work: {new-edge: {spoil: {plus_strip: {width: 10 in, depth: 2 in}}}}}"
SPREAD = "chart: {materials: {hardwood: {spread_only: 48.00}}}"
OWN = "use: hardwood, depth: 2 in, supplied_by: customer, spot: the driveway"
SPRING = "{name: spring, start: {from: 2027-04-12, to: 2027-04-16}}"
FALL = "{name: fall, start: {from: 2027-10-11, to: 2027-10-15}}"
HULLS = "chart: {materials: {hardwood: {cautions: [cocoa-hulls]}}}"
FINE = "chart: {materials: {hardwood: {texture: fine}}}"
BARE = "edge: soft, weeds: light, ground: bare soil"
OPEN_SOIL = "against: (left out), substrate: {decided: not-needed, because: the soil is open}"
LEAVE = (
    "chart: {work: {leave: {decides: debris, name: Leave it, price: {per: yd3, amount: 14.00},"
    " does: 1.5 yd3/h, takes: [sod, green, mulch], clause: debris.leave-on-site}}}"
)
LAY = (
    "chart: {work: {lay-fabric: {decides: substrate, name: Lay fabric, price: {per: ft2, amount: 0.60}, does:"
    " 150 ft2/h, clause: substrate.lay-fabric}}}"
)
FREE_WALL = (
    "chart: {work: {pull-back: {decides: substrate, name: Pull back, price: {per: job, amount: 60.00},"
    " clause: substrate.pull-back-from-walls}}}"
)


def found(folder: Path, fragment: str) -> set[str]:
    return {finding.rule for finding in checked(folder, fragment).findings}


def of_bed(said: str, chart: str = "") -> str:
    return f"{{job: {{beds: [{{{said}}}]}}, {chart}}}" if chart else f"job: {{beds: [{{{said}}}]}}"


def ring(inner: str, roots: str) -> str:
    shape = f"shape: {{ring: {{outer: 10 ft, inner: {inner}}}}}"
    return of_bed(f"{shape}, found: {{{BARE}, roots: {roots}}}, {OPEN_SOIL}")


def fine(there: str, added: str) -> str:
    lies = f"found: {{edge: soft, weeds: light, ground: old mulch, ground_depth: {there}}}"
    return of_bed(f"{lies}, material: {{use: hardwood, depth: {added}}}", FINE)


def debris(*parts: str) -> str:
    return of_bed(f"parts: {{north: 40 ft2, south: rest}}, debris: [{', '.join(parts)}]", LEAVE)


def sites(shares: tuple[str, str], beds: tuple[str, str] = ("Front bed", "Back bed")) -> str:
    said = ", ".join(
        f"{{name: No. {number}, property: {number} Ruler Road, bill_to: Pat, beds: {bed}, hauling: {share}}}"
        for number, (bed, share) in enumerate(zip(beds, shares, strict=True), 1)
    )
    return f"job: {{beds: [{{name: Front bed}}, {{name: Back bed}}], sites: [{said}]}}"


def on_hand(amount: str) -> str:
    """The base bed takes 20 × 6 ft at 2 in: 20 ft³."""
    return f"{{job: {{on_hand: [{{use: hardwood, amount: {amount}, spot: behind the shed}}]}}, {SPREAD}}}"


HAULED = "{decided: included, work: haul-away}"
# Each rule beside what brings it and what does not: rule, fragment, whether it is found.
CASES: dict[str, tuple[str, str, bool]] = {
    # International Society of Arboriculture, Proper Mulching Techniques, from memory: 1 to 2 inches of fine
    "two inches of fine mulch": ("fine-too-deep", fine("1 in", "1 in"), False),
    "an eighth more": ("fine-too-deep", fine("1 in", "1 1/8 in"), True),
    "so much that any mulch is too deep": ("fine-too-deep", fine("2 in", "3 in"), False),
    # New Jersey DEP as quoted by the Borough of Mountain Lakes: no closer than 6 inches from the trunk
    "six inches on each side": ("trunk-gap", ring("12 in", "many"), False),
    "less than six": ("trunk-gap", ring("11 7/8 in", "some"), True),
    "no tree there": ("trunk-gap", ring("6 in", "none"), False),
    "roots from somewhere": ("trunk-gap", of_bed(f"found: {{{BARE}, roots: some}}, {OPEN_SOIL}"), False),
    "roots all over": ("trunk-gap", of_bed(f"found: {{{BARE}, roots: many}}, {OPEN_SOIL}"), True),
    "trunks spoken of": (
        "trunk-gap",
        of_bed(f"found: {{{BARE}, roots: many, note: The trunk stands outside.}}, {OPEN_SOIL}"),
        False,
    ),
    "a retaining wall": ("siding-gap", of_bed("against: {retaining wall: back}"), False),
    "a warehouse is another word": ("siding-gap", of_bed("against: {warehouse: back}"), False),
    "siding": ("siding-gap", of_bed("against: {Vinyl siding: back}"), True),
    "siding, and no material": (
        "siding-gap",
        of_bed("against: {siding: back}, material: {decided: excluded}"),
        False,
    ),
    "a wall that is freed": (
        "siding-gap",
        of_bed("against: {garage: back}, substrate: {decided: included, work: pull-back}", FREE_WALL),
        False,
    ),
    "plastic that the customer pulls": (
        "mulch-over-plastic",
        of_bed(
            "found: {edge: soft, weeds: light, ground: plastic},"
            " substrate: {decided: customer, by: start, if_not_done: come back}"
        ),
        False,
    ),
    "a strip that is left out": (
        "shape-to-unsaid", of_bed("edging: {decided: excluded, work: new-edge}", STRIP), False,
    ),
    "a strip that is an add-on": (
        "shape-to-unsaid", of_bed("edging: {decided: add-on, work: new-edge}", STRIP), True,
    ),
    "said for every bed": (
        "shape-to-unsaid",
        "{job: {every_bed: {shape_to: old edge}, beds: [{edging: {decided: included, work: new-edge}}]},"
        f" {STRIP}}}",
        False,
    ),
    "said for every bed, and none has a strip": (
        "shape-to-idle", "job: {every_bed: {shape_to: old edge}}", True,
    ),
    "said, and the edging still open": ("shape-to-idle", of_bed("shape_to: old edge, edging: open"), False),
    "as much as lies there": ("on-hand-left-over", on_hand("20 ft3"), False),
    "more than is taken": ("on-hand-left-over", on_hand("20.01 ft3"), True),
    "a pile nobody knows": (
        "unknown-material",
        "job: {on_hand: [{use: hardwod, amount: 1 yd3, spot: behind the shed}]}",
        True,
    ),
    "a pile that has no price": (
        "no-spread-price",
        "job: {on_hand: [{use: hardwood, amount: 0.5 yd3, spot: behind the shed}]}",
        True,
    ),
    "enough lies there of what is not sold": (
        "unpriced-material",
        "{job: {on_hand: [{use: hardwood, amount: 1 yd3, spot: behind the shed}]},"
        " chart: {materials: {hardwood: {price: (left out), spread_only: 48.00}}}}",
        False,
    ),
    "a day beside the customer's material": (
        "key-not-used", of_bed(f"material: {{{OWN}, by: start}}", SPREAD), False,
    ),
    "the customer's material too late": (
        "customer-too-late", of_bed(f"material: {{{OWN}, by: 2027-04-13}}", SPREAD), True,
    ),
    "the customer's material in time": (
        "customer-too-late", of_bed(f"material: {{{OWN}, by: 2027-04-12}}", SPREAD), False,
    ),
    "in time for its own visit": (
        "customer-too-late",
        f"job: {{visits: [{SPRING}, {FALL}], beds: [{{visit: fall, bed_prep: {{decided: customer, by:"
        " 2027-10-11, if_not_done: come back}}]}",
        False,
    ),
    "a choice said once for two beds": (
        "choose-one-alone",
        "job: {every_bed: {bed_prep: {decided: add-on, work: hand-weed, choose_one: weeds}},"
        " beds: [{bed_prep: (left out)}, {name: Back bed, bed_prep: (left out)}]}",
        True,
    ),
    "a second choice that is still open": (
        "choose-one-alone",
        "job: {extras: [{work: shrub-trim, worker_hours: 1 h, decided: add-on, choose_one: trim},"
        " {work: cut-roots, worker_hours: 1 h, choose_one: trim}]}",
        False,
    ),
    "a limit of what it costs": (
        "limit-below-estimate",
        "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: included, not_over: 120.00}]}",
        False,
    ),
    "a cent below": (
        "limit-below-estimate",
        "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: included, not_over: 119.99}]}",
        True,
    ),
    "hours for a business": (
        "by-hour-unlimited",
        "job: {purpose: business, if_found: [{what: roots, work: cut-roots, call_first: yes}]}",
        False,
    ),
    "a visit that is empty while something is open": (
        "visit-empty", f"job: {{visits: [{SPRING}, {FALL}], beds: [{{visit: spring, edging: open}}]}}", False,
    ),
    "a visit that starts before the paper": (
        "start-before-paper",
        f"job: {{visits: [{{name: spring, start: {{from: 2027-03-01, to: 2027-04-16}}}}, {FALL}],"
        " beds: [{visit: spring}]}",
        True,
    ),
    "a hundredth of a percent too little": ("hauling-shares", sites(("60 %", "39.99 %")), True),
    "the whole": ("hauling-shares", sites(("60 %", "40 %")), False),
    "a bed of nobody, under a slip of its name": (
        "bed-without-site", sites(("60 %", "40 %"), ("Front bed", "Bak bed")), False,
    ),
    "one part left, the other hauled": (
        "debris-taken-twice",
        debris(
            "{decided: included, work: leave, on: north}", "{decided: included, work: haul-away, on: south}"
        ),
        False,
    ),
    "hauling as an add-on": (
        "debris-taken-twice",
        debris("{decided: included, work: leave}", "{decided: add-on, work: haul-away}"),
        False,
    ),
    "the customer's bin and our truck": (
        "debris-taken-twice",
        debris(HAULED, "{decided: customer, by: start, if_not_done: come back}"),
        True,
    ),
    "old fabric out, new fabric in": (
        "fabric-over-fabric",
        of_bed(
            "found: [{edge: soft, weeds: light, ground: fabric, area: 40 ft2}, {ground: bare soil, area:"
            " rest}], material: {use: river-stone, depth: 2 in}, substrate: [{decided: included, work:"
            " pull-fabric, area: 40 ft2}, {decided: included, work: lay-fabric}]",
            LAY,
        ),
        False,
    ),
    "cocoa hulls and no word": (
        "cocoa-and-pets", f"{{job: {{site: {{movables-and-pets: {{decided: excluded}}}}}}, {HULLS}}}", True,
    ),
    "cocoa hulls and a dog indoors": (
        "cocoa-and-pets",
        "{job: {site: {movables-and-pets: {decided: customer, by: start, if_not_done: come back, note: The"
        f" dog stays in.}}}}}}, {HULLS}}}",
        False,
    ),
    "exempt from what is taxed": (
        "exempt-idle", "job: {customer: {tax_exempt: {certificate: no. 00-1234, kinds: [goods]}}}", False,
    ),
    "an older buyer for a business": (
        "older-buyer", "job: {purpose: business, customer: {is_65_or_older: yes}}", False,
    ),
    "North and north": (
        "same-name", "job: {beds: [{name: North bed}, {name: NORTH bed}]}", True,
    ),
}  # fmt: skip


@pytest.mark.parametrize("name", CASES)
def test_found_or_not(name: str, tmp_path: Path) -> None:
    """On either side of the line."""
    rule, fragment, here = CASES[name]
    rules = found(tmp_path, fragment)
    assert not rules & {"value", "unknown-key", "unknown-word", "missing-key"}
    assert (rule in rules) is here


@pytest.mark.parametrize(
    "said",
    [
        "visits: spring", "sites: two", "on_hand: a heap", "tolerance: some", "price_basis: by heart",
        "beds: [{shape_to: the edge}]", "beds: [{visit: [spring]}]", "every_bed: {shape_to: inside}",
        "customer: {name: Pat Sample, property: 1 Ruler Road, state: Maryland}",
    ],
)  # fmt: skip
def test_broken_value_is_found_once(said: str, tmp_path: Path) -> None:
    """Reading says what is not sound; no rule follows on, at any level."""
    (finding,) = checked(tmp_path, f"job: {{{said}}}").findings
    assert finding.level is Level.STOPS


def test_work_without_a_visit_is_one_finding_a_bed(tmp_path: Path) -> None:
    """A bed with five decisions that name no visit is told once, with what they are."""
    result = checked(tmp_path, f"job: {{visits: [{SPRING}]}}")
    (finding,) = [each for each in result.findings if each.rule == "visit-unsaid"]
    assert finding.bed == "Front bed"
    assert "material, bed prep, edging, debris, the ground underneath" in finding.message


@pytest.mark.parametrize(
    ("name", "there"),
    [
        ("edge.jpg", True), ("photos/edge.jpg", True), ("./photos/../edge.jpg", True),
        ("Edge.jpg", False), ("photos", False), ("../outside.jpg", False), ("link.jpg", False),
        ("x" * 300, False),
    ],
)  # fmt: skip
def test_photo_is_a_file_inside_the_folder(name: str, there: bool, tmp_path: Path) -> None:
    """A folder is no photo, and what lies outside of it is not taken, through a link neither."""
    folder = tmp_path / "jobs"
    (folder / "photos").mkdir(parents=True)
    for path in (folder / "edge.jpg", folder / "photos" / "edge.jpg", tmp_path / "outside.jpg"):
        path.write_bytes(b"a photo")
    (folder / "link.jpg").symlink_to(tmp_path / "outside.jpg")
    assert ("photo-missing" in found(folder, of_bed(f"photos: [{name}]"))) is not there


def test_absolute_photo_is_outside(tmp_path: Path) -> None:
    """The name of a file anywhere on the machine is no photo of the job."""
    (tmp_path / "outside.jpg").write_bytes(b"a photo")
    (tmp_path / "jobs").mkdir()
    assert "photo-missing" in found(tmp_path / "jobs", of_bed(f"photos: ['{tmp_path / 'outside.jpg'}']"))


def test_state_whose_law_is_there_is_not_asked_for(tmp_path: Path) -> None:
    """A state without a page is noted; one that has a page is not, and without a state nothing is."""
    (tmp_path / "named").mkdir()
    (tmp_path / "paged").mkdir()
    (tmp_path / "unnamed").mkdir()
    assert "state-law" in found(tmp_path / "named", "job: {customer: {state: VA}}")
    assert "state-law" not in found(tmp_path / "paged", "job: {customer: {state: MD}}")
    assert "state-law" not in found(tmp_path / "unnamed", "job: {customer: {name: Pat Sample}}")
