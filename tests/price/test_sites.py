"""Several properties on one job: each pays its part, and the parts are the whole."""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

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
