"""Add-ons, no-charge work and fall-backs: each priced beside the base, complete in itself."""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

from scopegen.price import Priced
from tests.rules.laid_over import opened

# A sound bed of 120 ft² and 32 ft of open edge; 2 in of mulch on it are 120 × 2 ÷ 324 = 0.74 yd³.
PLAIN = (
    "against: {wall: back}, edging: {decided: excluded}, bed_prep: {decided: excluded},"
    " substrate: {decided: not-needed, because: it is clean}"
)


def priced(folder: Path, bed: str, more: str = "") -> Priced:
    case = opened(folder, f"job: {{beds: [{{{bed}}}]}}\n{more}")
    assert case.reading == () and case.priced is not None
    return case.priced


def amounts(lines: object) -> dict[str, D]:
    return {line.id: line.amount for line in lines}  # type: ignore[attr-defined]


def test_add_on_holds_its_own_delivery_tax_and_minimum_where_the_base_has_none(tmp_path: Path) -> None:
    """Mulch as an add-on on a job that buys none: sold 1 yd³ in steps of 0.5, 100.00; a whole truck, 70.00;
    6 % of 100.00."""
    (offer,) = priced(tmp_path, f"{PLAIN}, material: {{decided: add-on, use: hardwood, depth: 2 in}}").add_ons
    assert amounts(offer.parts) == {"material:hardwood": D("100.00"), "delivery:hardwood": D("70.00")}
    assert (offer.tax, offer.price) == (D("6.00"), D("176.00"))


def test_add_on_pays_its_share_of_a_truck_that_comes_anyway(tmp_path: Path) -> None:
    """A second bed's yard rides with the first bed's: a sixth of 70.00, 11.67."""
    first = f"{{name: First, {PLAIN}}}"
    second = f"{{name: Second, {PLAIN}, material: {{decided: add-on, use: hardwood, depth: 2 in}}}}"
    case = opened(tmp_path, f"job: {{beds: [{first}, {second}]}}")
    assert case.priced is not None
    (offer,) = case.priced.add_ons
    assert amounts(offer.parts)["delivery:hardwood"] == D("11.67")


def test_add_on_drives_its_own_spoil_where_the_base_hauls_nothing(tmp_path: Path) -> None:
    """32 ft × 4.50 = 144.00; its sod, 32 ÷ 12 ÷ 27 yd³ in the ground, is 0.1235 yd³ loose: a trip 40.00, 40
    minutes of driving and 0.1235 ÷ 1.5 h of loading at 60.00, and 24.00 × 0.1235: 87.90 (worked by hand)."""
    bed = (
        "against: {wall: back}, found: {edge: missing}, bed_prep: {decided: excluded},"
        " substrate: {decided: excluded}, debris: {decided: no-charge, work: haul-away},"
        " material: {decided: not-needed, because: deep enough},"
        " edging: {decided: add-on, work: new-edge}"
    )
    (offer,) = priced(tmp_path, bed).add_ons
    assert amounts(offer.parts) == {"work:new-edge": D("144.00"), "hauling:haul-away": D("87.90")}


def test_no_charge_work_is_priced_and_left_out_of_the_total(tmp_path: Path) -> None:
    """Its regular price is worked out without tax, and the subtotal does not hold it."""
    bed = f"{PLAIN}, material: {{decided: not-needed, because: deep enough}}"
    free = bed.replace(
        "bed_prep: {decided: excluded}", "bed_prep: {decided: no-charge, work: weed-preventer}"
    )
    without, with_it = priced(tmp_path, bed), priced(tmp_path, free)
    (offer,) = with_it.no_charge
    assert (offer.before_tax, offer.tax) == (D("10.80"), D("0.00"))  # 120 ft² × 0.09
    assert with_it.total == without.total


def test_what_we_do_where_the_customer_did_not(tmp_path: Path) -> None:
    """Heavy weeds on 120 ft² at 0.60; only where the paper says that we do it."""
    said = "bed_prep: {{decided: customer, by: start, if_not_done: {then}, work: heavy-weed}}"
    for then, expected in (("we do it", ["72.00"]), ("leave the bed", [])):
        bed = PLAIN.replace("bed_prep: {decided: excluded}", said.format(then=then))
        found = priced(tmp_path, bed).if_not_done
        assert [str(line.amount) for offer in found for line in offer.parts[:1]] == expected


def test_material_that_is_not_lacking_is_not_sold(tmp_path: Path) -> None:
    """A top-up where enough lies there: no line, no delivery, nothing to round up from."""
    bed = (
        f"{PLAIN}, found: {{edge: soft, ground: old mulch, ground_depth: 3 in}},"
        " material: {use: hardwood, top_up_to: 2 in}"
    )
    ids = [line.id for line in priced(tmp_path, bed).lines]
    assert not [each for each in ids if each.startswith(("material:", "delivery:"))]


def test_clearing_that_may_be_chosen_holds_the_mulch_that_it_makes_lacking(tmp_path: Path) -> None:
    """120 ft² with 3 in of old mulch, wanted 2 in: stripped, it lacks all of 0.74 yd³, sold as 1."""
    bed = (
        "against: {wall: back}, bed_prep: {decided: excluded}, edging: {decided: excluded},"
        " found: {edge: soft, ground: old mulch, ground_depth: 3 in},"
        " material: {use: hardwood, top_up_to: 2 in}, substrate: {decided: add-on, work: strip-old-mulch}"
    )
    (offer,) = priced(tmp_path, bed).add_ons
    found = amounts(offer.parts)
    assert found["material:hardwood"] == D("100.00")
    assert found["work:strip-old-mulch"] == D("60.00")


def test_work_is_pooled_over_the_beds_before_it_is_rounded(tmp_path: Path) -> None:
    """Two beds of 10.4 ft² are 20.8, billed as 21, not twice 10."""
    beds = ", ".join(
        f"{{name: Bed {number}, shape: {{area: 10.4 ft2}}, outline: 9 ft, against: (left out),"
        " edging: {decided: excluded}, substrate: {decided: excluded}}"
        for number in (1, 2)
    )
    case = opened(tmp_path, f"job: {{beds: [{beds}]}}")
    assert case.priced is not None
    (weed,) = (line for line in case.priced.lines if line.id == "work:hand-weed")
    assert (weed.quantity, weed.amount) == (21, D("4.20"))
