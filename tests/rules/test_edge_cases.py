"""Jobs on which a rule is silent, and their neighbors on which it speaks: those findings and no others."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.rules.laid_over import checked

# The sound job: dated Friday 2027-03-19, offer of 10 days, start on 2027-04-12, one bed of 120 ft2.
FOUND = "edge: {edge}, weeds: light, ground: old mulch, ground_depth: 1 in"
NORTH_AND_SOUTH = "parts: {north: 40 ft2, south: rest}"
FABRIC_NORTH = (
    "found: [{on: north, edge: soft, weeds: light, ground: fabric},"
    " {on: south, edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}]"
)
FABRIC_BOTH = FABRIC_NORTH.replace("ground: old mulch, ground_depth: 1 in", "ground: fabric")
GRUBBING = (
    "work: {cut-roots:"
    " {price: {per: ft2, amount: 1.00}, does: 90 ft2/h, spoil: {depth: 3 in, stream: green}}}"
)
ROOTS = "extras: [{work: cut-roots, area: 10 ft2, decided: included}]"
QUIET = "bed_prep: {decided: excluded}, edging: {decided: excluded}"  # a bed where nothing comes out


def of_bed(said: str) -> str:
    return f"job: {{beds: [{{{said}}}]}}"


def with_roots(*beds: str) -> str:
    """Work beside the beds that takes out green waste, and these beds."""
    return f"{{chart: {{{GRUBBING}}}, job: {{{ROOTS}, beds: [{', '.join(f'{{{bed}}}' for bed in beds)}]}}}}"


def start(first: str, rest: str = "") -> str:
    return f"job: {{start: {{from: {first}, to: 2027-04-16}}{rest}}}"


def paid(*amounts: str) -> str:
    payments = (f"{{when: payment {number}, amount: {amount}}}" for number, amount in enumerate(amounts, 1))
    return f"job: {{payments: [{', '.join(payments)}]}}"


SILENT = {
    "walk 90 days before": "job: {walked: 2026-12-19}",
    "walk on the paper's date": "job: {walked: 2027-03-19}",
    "start on the offer's only other day": start("2027-03-20", ", offer_stands: 1 day"),
    "paper written at the end of the year before": "job: {dated: 2026-12-31, walked: 2026-12-30}",
    "edge missing on a part that cannot be told": of_bed(
        f"found: [{{{FOUND.format(edge='missing')}, area: 40 ft2}},"
        f" {{{FOUND.format(edge='crisp')}, area: rest}}],"
        " edging: [{decided: included, work: new-edge, along: 10 ft},"
        " {decided: not-needed, along: rest, because: it is crisp}]"
    ),
    "fabric pulled on its part": of_bed(
        f"{NORTH_AND_SOUTH}, {FABRIC_NORTH}, substrate: [{{decided: included, work: pull-fabric, on: north}},"
        " {decided: included, work: rake-and-top-up, on: south}]"
    ),
    "add-on declined": of_bed("edging: {decided: add-on, work: recut-edge, declined: yes}"),
    "excluded work declined": of_bed("edging: {decided: excluded, declined: yes}"),
    "not declined, in so many words": of_bed("edging: {decided: included, work: recut-edge, declined: no}"),
    "debris taken by the customer": of_bed("debris: {decided: customer, by: start, if_not_done: come back}"),
    "debris taken by somebody else": of_bed("debris: {decided: elsewhere, who: the lawn service}"),
    "debris taken for nothing": of_bed("debris: {decided: no-charge, work: haul-away}"),
    "no debris where nothing comes out": of_bed(f"{QUIET}, debris: {{decided: not-needed, because: none}}"),
    "spoil beside the beds on the only bed's truck": with_roots(""),
    "spoil beside the beds on the second bed's truck": with_roots(
        f"name: North bed, {QUIET}, debris: {{decided: excluded}}", "name: South bed"
    ),
    "stone of six inches": of_bed(
        "material: {use: river-stone, depth: 6 in}, found: {edge: soft, weeds: light, ground: bare soil},"
        " substrate: {decided: not-needed, because: no fabric is wanted}"
    ),
    "top-up by an eighth of an inch": of_bed("material: {use: hardwood, top_up_to: 1 1/8 in}"),
    "all paid on completion": "job: {payments: {rest: on completion}}",
    "nearly all paid before": paid("50 %", "49 %", "rest"),
    "licensed work left to somebody else": of_bed(
        "bed_prep: {decided: elsewhere, who: the lawn service, work: weed-preventer}"
    ),
    "unsuited work that is excluded": of_bed(
        f"found: {{{FOUND.format(edge='missing')}}}, edging: {{decided: excluded, work: recut-edge}}"
    ),
}
IN_BED, SPOIL = "Front bed", "spoil-untaken"
SPEAKS = {
    "customer due before the paper, whenever the span has the work start": (
        "job: {start: {within: 3 weeks of signing}, beds: [{bed_prep:"
        " {decided: customer, by: 60 days before start, if_not_done: come back}}]}",
        {("customer-too-late", IN_BED, "bed_prep"), ("notice-too-short", IN_BED, "bed_prep")},
    ),
    "walk 91 days before": ("job: {walked: 2026-12-18}", {("old-walk", None, None)}),
    "walk on the day after": ("job: {walked: 2027-03-20}", {("walk-after-paper", None, None)}),
    "offer of a day and a half": ("job: {offer_stands: 1.5 days}", {("offer-stands", None, None)}),
    "paper written at the start of the year after": (
        "job: {dated: 2028-01-01, walked: 2027-12-31, start: {within: 3 weeks of signing}}",
        {("season-and-date", None, None)},
    ),
    "fabric pulled on one part and left on another": (
        of_bed(
            f"{NORTH_AND_SOUTH}, {FABRIC_BOTH},"
            " substrate: [{decided: included, work: pull-fabric, on: north}, {decided: excluded, on: south}]"
        ),
        {("barrier-unsaid", IN_BED, "substrate")},
    ),
    "customer's work declined": (
        of_bed("edging: {decided: customer, by: start, if_not_done: come back, declined: yes}"),
        {("declined-way", IN_BED, "edging")},
    ),
    "debris as an add-on": (
        of_bed("debris: {decided: add-on, work: haul-away}"),
        {(SPOIL, IN_BED, "bed_prep"), (SPOIL, IN_BED, "edging")},
    ),
    "debris not needed where something comes out": (
        of_bed("debris: {decided: not-needed, because: a test}"),
        {(SPOIL, IN_BED, "bed_prep"), (SPOIL, IN_BED, "edging")},
    ),
    "a truck that takes no sod": (
        "chart: {work: {haul-away: {takes: [green, mulch, fabric]}}}",
        {(SPOIL, IN_BED, "edging")},
    ),
    "spoil beside the beds that no truck takes": (
        with_roots(f"{QUIET}, debris: {{decided: excluded}}"),
        {(SPOIL, None, "extra")},
    ),
    "spoil beside the beds where the only bed's debris is open": (
        with_roots("debris: open"),
        {("open-debris", IN_BED, "debris")},
    ),
    "old mulch stripped only if the add-on is taken": (
        of_bed(
            "material: {use: hardwood, depth: 3 1/8 in}, substrate: {decided: add-on, work: strip-old-mulch}"
        ),
        {("total-depth", IN_BED, "material")},
    ),
    "top-up to what lies there": (
        of_bed("material: {use: hardwood, top_up_to: 1 in}"),
        {("adds-nothing", IN_BED, "material")},
    ),
    "payments of more than the total": (
        paid("50 %", "50.01 %", "rest"),
        {("payments-exceed-total", None, None)},
    ),
    "all paid before completion, in halves": (paid("50 %", "50 %", "rest"), {("all-at-once", None, None)}),
    "licensed work if the customer has not done it": (
        of_bed("bed_prep: {decided: customer, by: start, if_not_done: we do it, work: weed-preventer}"),
        {("no-applicator-license", IN_BED, "bed_prep")},
    ),
}


@pytest.mark.parametrize("fragment", SILENT.values(), ids=SILENT)
def test_silent(fragment: str, tmp_path: Path) -> None:
    """On this side nothing at all is found."""
    assert [(f.rule, f.message) for f in checked(tmp_path, fragment).findings] == []


@pytest.mark.parametrize(("fragment", "finds"), SPEAKS.values(), ids=SPEAKS)
def test_speaks(fragment: str, finds: set[tuple[str, str | None, str | None]], tmp_path: Path) -> None:
    """One step away there is the finding, with its bed and decision, and no other."""
    found = [(f.rule, f.bed, f.decision) for f in checked(tmp_path, fragment).findings]
    assert sorted(found, key=str) == sorted(finds, key=str)
