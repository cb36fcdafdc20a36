"""The last value that passes and the first that does not, rule by rule."""

from __future__ import annotations

from pathlib import Path

import pytest

from tests.rules.laid_over import checked

FOUND = "edge: soft, weeds: light, ground: old mulch, ground_depth: {depth}"
CUSTOMER = "{{decided: customer, by: {by}, if_not_done: come back}}"


def found(folder: Path, fragment: str) -> set[str]:
    return {finding.rule for finding in checked(folder, fragment).findings}


@pytest.mark.parametrize(("added", "deep"), [("2 in", False), ("2 1/8 in", True)])
def test_four_inches_in_all(added: str, deep: bool, tmp_path: Path) -> None:
    """Two inches on two are four, the upper end of what the International Society of Arboriculture advises
    (treesaregood.org: two to four inches); an eighth more is too deep."""
    there = FOUND.format(depth="2 in")
    over = f"job: {{beds: [{{found: {{{there}}}, material: {{use: hardwood, depth: {added}}}}}]}}"
    assert ("total-depth" in found(tmp_path, over)) is deep


@pytest.mark.parametrize(("way", "deep"), [("included", False), ("no-charge", False), ("excluded", True)])
def test_only_mulch_that_is_stripped_for_certain_is_gone(way: str, deep: bool, tmp_path: Path) -> None:
    """Work that is named but excluded strips nothing."""
    over = (
        f"job: {{beds: [{{found: {{{FOUND.format(depth='3 in')}}},"
        f" substrate: {{decided: {way}, work: strip-old-mulch}}}}]}}"
    )
    assert ("total-depth" in found(tmp_path, over)) is deep


@pytest.mark.parametrize(("days", "outlives"), [("24 days", False), ("25 days", True)])
def test_offer_may_end_on_the_day_of_the_start(days: str, outlives: bool, tmp_path: Path) -> None:
    """March 19 and 24 days is April 12, the last day counted in."""
    over = f"job: {{offer_stands: {days}, start: {{from: 2027-04-12, to: 2027-04-16}}}}"
    assert ("offer-outlives-start" in found(tmp_path, over)) is outlives


@pytest.mark.parametrize(
    ("start", "by", "late"),
    [
        ("from: 2027-04-12, to: 2027-04-16", "2027-04-12", False),
        ("from: 2027-04-12, to: 2027-04-16", "2027-04-13", True),
        ("from: 2027-04-12, to: 2027-04-16", "2027-03-19", False),
        ("from: 2027-04-12, to: 2027-04-16", "2027-03-18", True),
        ("from: 2027-04-12, to: 2027-04-16", "24 days before start", False),
        ("from: 2027-04-12, to: 2027-04-16", "25 days before start", True),
        # signed on the offer's last day, March 29, the work starts by April 12 at the latest
        ("within: 2 weeks of signing", "2027-04-12", False),
        ("within: 2 weeks of signing", "2027-04-13", True),
    ],
)
def test_customers_day_lies_between_paper_and_start(start: str, by: str, late: bool, tmp_path: Path) -> None:
    """From the paper's date to the start, both days counted in."""
    over = f"job: {{start: {{{start}}}, beds: [{{bed_prep: {CUSTOMER.format(by=by)}}}]}}"
    assert ("customer-too-late" in found(tmp_path, over)) is late


@pytest.mark.parametrize(("first", "inside"), [("2027-03-23", True), ("2027-03-24", False)])
def test_start_is_after_the_third_business_day(first: str, inside: bool, tmp_path: Path) -> None:
    """Signed on Friday, March 19, 2027: Saturday counts, Sunday does not, so the third business day is
    Tuesday, March 23 (16 CFR 429.0(f): any day except Sunday or a federal holiday)."""
    over = (
        f"job: {{signed_at: customer's home, offer_stands: 1 day, start: {{from: {first}, to: 2027-03-31}}}}"
    )
    assert ("start-inside-cancellation" in found(tmp_path, over)) is inside


@pytest.mark.parametrize(
    ("payments", "over_total"),
    [
        ("[{when: first, amount: 50 %}, {when: second, amount: 50 %}, {when: last, amount: rest}]", False),
        ("[{when: first, amount: 50 %}, {when: second, amount: 51 %}, {when: last, amount: rest}]", True),
    ],
)
def test_shares_may_come_to_the_whole(payments: str, over_total: bool, tmp_path: Path) -> None:
    """A hundred in the hundred leave a rest of nothing; more is more than the price."""
    assert ("payments-exceed-total" in found(tmp_path, f"job: {{payments: {payments}}}")) is over_total


@pytest.mark.parametrize(
    ("along", "rule"), [("32 ft", None), ("31 ft", "parts-miss-bed"), ("33 ft", "parts-exceed-bed")]
)
def test_parts_are_exactly_the_open_edge(along: str, rule: str | None, tmp_path: Path) -> None:
    """A bed of 20 by 6 feet with one long side at a wall has 6 + 20 + 6 = 32 feet of open edge."""
    over = f"job: {{beds: [{{edging: [{{decided: included, work: recut-edge, along: {along}}}]}}]}}"
    wrong = found(tmp_path, over) & {"parts-miss-bed", "parts-exceed-bed"}
    assert wrong == ({rule} if rule else set())


@pytest.mark.parametrize(("side", "lost"), [("back", True), ("[left, right, front, back]", False)])
def test_bed_walled_in_has_no_edge_to_lose(side: str, lost: bool, tmp_path: Path) -> None:
    """Between walls there is no edge, and 'not-needed' is the truth."""
    over = (
        f"job: {{beds: [{{against: {{wall: {side}}},"
        " found: {edge: none, weeds: light, ground: old mulch, ground_depth: 1 in},"
        " edging: {decided: not-needed, because: walls all round}}]}"
    )
    assert ("edge-not-needed" in found(tmp_path, over)) is lost
