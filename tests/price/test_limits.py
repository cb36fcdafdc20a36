"""What is charged as worked or delivered: the estimate, its limit, the most in all; and who pays no tax."""

from __future__ import annotations

from decimal import Decimal as D
from pathlib import Path

import pytest

from tests.price.test_lots import priced

TRIM = "job: {extras: [{work: shrub-trim, worker_hours: 3 h, decided: included%s}]}"


def test_hours_without_a_limit_are_a_fixed_price(tmp_path: Path) -> None:
    """3 h at 60.00 is 180.00, and no more can come of it."""
    of = priced(tmp_path, TRIM % "")
    (line,) = [line for line in of.lines if line.key == "shrub-trim"]
    assert (line.amount, line.limit, of.at_most) == (D("180.00"), None, None)


def test_limit_of_the_job(tmp_path: Path) -> None:
    """The job says 250.00: the most in all is 70.00 above the estimate, since trimming is not taxed."""
    of = priced(tmp_path, TRIM % ", not_over: 250.00")
    (line,) = [line for line in of.lines if line.key == "shrub-trim"]
    assert (line.amount, line.limit) == (D("180.00"), D("250.00"))
    assert of.at_most == of.total + 70


def test_limit_of_the_chart(tmp_path: Path) -> None:
    """A quarter above the estimate: 225.00; what the job says goes before it."""
    chart = "\nchart: {work: {shrub-trim: {not_over: 25 %}}}"
    assert priced(tmp_path, TRIM % "" + chart).at_most == priced(tmp_path, TRIM % "").total + 45
    own = priced(tmp_path, TRIM % ", not_over: 200.00" + chart)
    assert own.at_most == own.total + 20


def test_by_measure_material_may_pass_its_estimate(tmp_path: Path) -> None:
    """One yard at 100.00 may become 110.00; with the tax of 6 % on goods that is 10.60 more."""
    of = priced(tmp_path, "job: {price_basis: by measure, tolerance: 10 %}")
    assert of.at_most == of.total + D("10.60")


def test_least_that_a_job_costs_is_not_raised_by_the_tolerance(tmp_path: Path) -> None:
    """A job brought up to 600.00 stays there while its material grows by 10.00; only the tax on it does, by
    6 % of 10.00."""
    over = "job: {price_basis: by measure, tolerance: 10 %}\nchart: {job: {minimum: 600.00}}"
    of = priced(tmp_path, over)
    assert of.subtotal == D("600.00")
    assert of.at_most == of.total + D("0.60")


def test_discount_in_percent_grows_with_the_most(tmp_path: Path) -> None:
    """10 % off 70.00 more leaves 63.00 more."""
    of = priced(
        tmp_path,
        "job: {discount: {amount: 10 %, because: a test},"
        " extras: [{work: shrub-trim, worker_hours: 3 h, decided: included, not_over: 250.00}]}",
    )
    assert of.at_most == of.total + 63


SERVICES = "\nchart: {work: {haul-away: {tax: services}}}"


@pytest.mark.parametrize(
    ("exempt", "taxed"),
    [
        ("", ["goods", "services"]),
        ("certificate: EX-55501", []),
        ("certificate: EX-55501, kinds: [goods]", ["services"]),
    ],
)
def test_exempt_from_all_taxes_or_from_some(tmp_path: Path, exempt: str, taxed: list[str]) -> None:
    """An exemption that names no kind holds for every kind."""
    over = f"job: {{customer: {{tax_exempt: {{{exempt}}}}}}}" if exempt else "job: {paper: letter}"
    of = priced(tmp_path, over + SERVICES)
    assert [tax.kind for tax in of.taxes] == taxed
    assert of.total == of.subtotal + sum(tax.amount for tax in of.taxes)


def test_exemption_holds_for_add_ons_too(tmp_path: Path) -> None:
    """The add-on's printed price holds no tax then."""
    add_on = "material: {decided: add-on, use: hardwood, depth: 2 in}"
    taxed = priced(tmp_path, f"job: {{beds: [{{{add_on}}}]}}")
    free = priced(tmp_path, f"job: {{customer: {{tax_exempt: {{certificate: EX-1}}}}, beds: [{{{add_on}}}]}}")
    assert [offer.tax for offer in taxed.add_ons] == [D("6.00")]
    assert [offer.tax for offer in free.add_ons] == [D("0.00")]
