"""Several properties on one job: each pays its part, and the parts are the whole."""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

from scopegen.price import Priced
from tests.price.test_lots import priced

TWO = (
    "job: {sites: [{name: No. 1, property: 1 Ruler Road, bill_to: Pat Sample, beds: [A], hauling: 60 %},"
    " {name: No. 3, property: 3 Ruler Road, bill_to: Lee Sample, beds: [B], hauling: 40 %}],"
    " beds: [{name: A}, {name: B, shape: {rectangle: {length: 10 ft, width: 6 ft}}}]MORE}"
)


def test_each_site_pays_what_is_on_it(tmp_path: Path) -> None:
    """Bed A is twice bed B, but not its edge. Weeds 24.00 and 12.00; edge 32 ft and 22 ft at 1.50; rake
    12.00 and 6.00; one and a half yards of mulch 150.00 as 2 to 1; delivery 70.00 as 46.67 and 23.33; the
    haul as 60 to 40; the tax on 150.00 as the mulch."""
    of = priced(tmp_path, TWO.replace("MORE", ""))
    haul = next(line.amount for line in of.lines if line.id == "hauling:haul-away")
    first, second = of.sites
    sixty = (haul * D("0.6")).quantize(D("0.01"))
    assert first.before_tax == D("24") + D("48") + D("12") + D("100") + D("46.67") + sixty
    assert second.before_tax == D("12") + D("33") + D("6") + D("50") + D("23.33") + haul - sixty
    assert (first.tax, second.tax) == (D("6.00"), D("3.00"))
    assert first.total + second.total == of.total


def test_discount_and_what_belongs_to_no_bed_are_shared(tmp_path: Path) -> None:
    """Trimming beside the beds goes by what the rest comes to, and every cent is somebody's."""
    more = (
        ", discount: {amount: 33.33, because: a test},"
        " extras: [{work: shrub-trim, worker_hours: 1 h, decided: included}]"
    )
    of = priced(tmp_path, TWO.replace("MORE", more))
    assert sum(site.total for site in of.sites) == of.total
    assert sum(site.discount for site in of.sites) == D("33.33")
    assert all(site.discount > 0 for site in of.sites)


OWN_AND_OURS = (
    "job: {sites: [{name: No. 1, property: 1 Ruler Road, bill_to: Pat Sample, beds: [A], hauling: 60 %},"
    " {name: No. 3, property: 3 Ruler Road, bill_to: Lee Sample, beds: [B], hauling: 40 %}],"
    " beds: [{name: A, material: {use: hardwood, depth: 2 in, supplied_by: customer, by: start, spot: here}},"
    " {name: B}]PILE}\n"
    "chart: {materials: {hardwood: {spread_only: 48.00}}}"
)


def alone(of: Priced, *kinds: str) -> D:
    """What the lines of these kinds come to."""
    return sum((line.amount for line in of.lines if line.id.split(":")[0] in kinds), D(0))


def test_neighbor_pays_nothing_for_spreading_the_others_mulch(tmp_path: Path) -> None:
    """A's own mulch is spread for A alone (half a yard, 24.00); B's is bought and brought for B alone. Work
    and what is equal on both is halved, hauling goes 60 to 40."""
    of = priced(tmp_path, OWN_AND_OURS.replace("PILE", ""))
    first, second = of.sites
    haul = alone(of, "hauling")
    assert alone(of, "spreading") == D("24.00")
    assert first.before_tax == alone(of, "work") / 2 + D("24.00") + (haul * D("0.6")).quantize(D("0.01"))
    assert second.before_tax == of.subtotal - first.before_tax


def test_pile_is_spread_for_whom_it_saves_buying(tmp_path: Path) -> None:
    """A quarter yard that lies there is spread on B, beside A's own 20/27: of 0.9907 yd³ A's are 0.7407.
    Billed as 1 yd³ at 48.00, A pays 35.89 of it."""
    pile = ", on_hand: {use: hardwood, amount: 0.25 yd3, spot: behind the shed}"
    of = priced(tmp_path, OWN_AND_OURS.replace("PILE", pile))
    first, _ = of.sites
    spread = alone(of, "spreading")
    assert spread == D("48.00")
    haul = (alone(of, "hauling") * D("0.6")).quantize(D("0.01"))
    assert first.before_tax - alone(of, "work") / 2 - haul == D("35.89")
