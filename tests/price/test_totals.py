"""From lines to what is paid: minimum, discount, tax, payments, each to the cent."""

from __future__ import annotations

from decimal import Decimal as D
from fractions import Fraction as F
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from scopegen.chart import Chart, Tax
from scopegen.job import Job, Payment
from scopegen.load import load, parse
from scopegen.price import Line, PaymentLine, Step
from scopegen.price.totals import job_minimum, payments, taxed
from scopegen.understand import understand_chart, understand_job

PENCIL = Path(__file__).parents[1] / "pencil"
CHART = understand_chart(load(PENCIL / "prices-2027.yaml")).value  # goods 6 %, services 2 %, least 200.00
JOB = understand_job(load(PENCIL / "feet.yaml")).value


def line(amount: str, *tax: str) -> Line:
    """A priced line with nothing but its amount and the taxes that reach it."""
    money = D(amount)
    return Line(
        id="work:x",
        decision="bed_prep",
        beds=(),
        description="",
        quantity=F(1),
        unit="job",
        steps=(Step(F(1), money),),
        amount=money,
        tax=tax,
    )


def paying(*shares: str) -> Job:
    """The job with these payments, each at its own time."""
    entries = "".join(f"  - {{when: time {i}, amount: {share}}}\n" for i, share in enumerate(shares))
    text = (PENCIL / "feet.yaml").read_text(encoding="utf-8")
    text = text[: text.index("payments:")] + "payments:\n" + entries
    understood = understand_job(parse(text, "job.yaml"))
    assert understood.findings == ()
    return understood.value


@pytest.mark.parametrize(
    ("amounts", "missing"),
    [
        (["199.99"], ["0.01"]),
        (["200.00"], []),
        (["200.01"], []),
        (["100.00", "60.00"], ["40.00"]),
        (["0.00"], ["200.00"]),
        ([], []),  # no work, no charge
    ],
)
def test_least_that_a_job_costs(amounts: list[str], missing: list[str]) -> None:
    """A line of its own brings a small job up to it, to the cent."""
    found = job_minimum(CHART, [line(amount) for amount in amounts])
    assert [(each.id, each.amount) for each in found] == [("job-minimum", D(amount)) for amount in missing]


def taxes(discount: str, *lines: Line, chart: Chart = CHART) -> list[tuple[str, D, D]]:
    return [(tax.kind, tax.on, tax.amount) for tax in taxed(chart, lines, D(discount))]


def test_each_tax_is_taken_once_on_all_that_it_reaches() -> None:
    """Three lines of 0.25: 6 % of each is 0.015, which would be 0.02 three times; of 0.75 it is 0.045."""
    assert taxes("0.00", *[line("0.25", "goods")] * 3) == [("goods", D("0.75"), D("0.05"))]


def test_taxes_stand_in_the_order_of_the_chart() -> None:
    """Whatever the order of the lines."""
    found = taxes("0.00", line("10.00", "services"), line("20.00"), line("30.00", "goods"))
    assert found == [("goods", D("30.00"), D("1.80")), ("services", D("10.00"), D("0.20"))]


def test_discount_is_shared_over_the_kinds_before_tax() -> None:
    """10.00 off 100.00, of which 30 are goods, 10 services and 60 untaxed: 3.00, 1.00 and 6.00."""
    found = taxes("10.00", line("30.00", "goods"), line("10.00", "services"), line("60.00"))
    assert found == [("goods", D("27.00"), D("1.62")), ("services", D("9.00"), D("0.18"))]


def test_half_a_cent_of_tax_goes_up() -> None:
    """2 % of 0.25 is half a cent."""
    assert taxes("0.00", line("0.25", "services")) == [("services", D("0.25"), D("0.01"))]
    assert taxes("0.00", line("0.24", "services")) == [("services", D("0.24"), D("0.00"))]


def test_tax_on_nothing_is_no_tax() -> None:
    """A kind of which the discount leaves nothing is not listed."""
    assert taxes("30.00", line("30.00", "goods")) == []


money = st.integers(0, 10_000_00).map(lambda cents: f"{D(cents).scaleb(-2):.2f}")
one_kind = st.sampled_from([(), ("goods",), ("services",)])
kinds = st.one_of(one_kind, st.just(("goods", "services")))
Lines = list[tuple[str, tuple[str, ...]]]


def test_two_taxes_on_one_line_are_each_taken_on_its_price() -> None:
    """5 % and 7 % on 100.00 are 5.00 and 7.00, neither on the other: how British Columbia's PST stands beside
    the federal GST (from memory; both are charged on the price before tax)."""
    chart = CHART.model_copy(update={"taxes": {
        "gst": Tax(name="GST", rate=F(5, 100)), "pst": Tax(name="PST", rate=F(7, 100))
    }})  # fmt: skip
    found = taxes("0.00", line("100.00", "gst", "pst"), line("50.00", "gst"), chart=chart)
    assert found == [("gst", D("150.00"), D("7.50")), ("pst", D("100.00"), D("7.00"))]


@given(st.lists(st.tuples(money, one_kind), min_size=1, max_size=6), st.integers(0, 100))
def test_taxed_and_untaxed_are_all_that_is_paid(lines: Lines, off: int) -> None:
    """With the discount shared out, the amounts taxed and untaxed come to the subtotal less the discount."""
    priced = [line(amount, *kinds) for amount, kinds in lines]
    subtotal = sum((each.amount for each in priced), D(0))
    discount = (subtotal * off / 100).quantize(D("0.01"))
    on = sum((tax.on for tax in taxed(CHART, priced, discount)), D(0))
    untaxed = sum((each.amount for each in priced if not each.tax), D(0))
    left = subtotal - discount - on
    assert -D("0.02") <= left - (untaxed - untaxed * off / 100) <= D("0.02")


@given(st.lists(st.tuples(money, kinds), min_size=1, max_size=6), st.integers(0, 100))
def test_taxes_are_taken_on_what_is_paid_before_them(lines: Lines, off: int) -> None:
    """Each tax is taken on all that it reaches, less its share of the discount."""
    priced = [line(amount, *kinds) for amount, kinds in lines]
    subtotal = sum((each.amount for each in priced), D(0))
    discount = (subtotal * off / 100).quantize(D("0.01"))
    on = {tax.kind: tax.on for tax in taxed(CHART, priced, discount)}
    for kind, amount in on.items():
        whole = sum((each.amount for each in priced if kind in each.tax), D(0))
        assert abs(amount - (whole - whole * off / 100)) <= D("0.02")


def test_payments_to_the_cent() -> None:
    """A third, a third and the rest of 100.00: a third is 33 1/3 %, and the last takes the cent."""
    found = payments(paying("33 1/3 %", "33 1/3 %", "rest"), D("100.00"))
    assert [payment.amount for payment in found] == [D("33.33"), D("33.33"), D("33.34")]
    assert [payment.when for payment in found] == ["time 0", "time 1", "time 2"]


def test_half_a_cent_of_a_payment_goes_up() -> None:
    """Half of 0.01 is a cent, and then nothing is left."""
    found = payments(paying("50 %", "rest"), D("0.01"))
    assert [payment.amount for payment in found] == [D("0.01"), D("0.00")]


def test_amount_in_dollars_is_never_more_than_is_left() -> None:
    """A deposit of 500.00 on a job of 300.00 is 300.00."""
    found = payments(paying("500.00", "rest"), D("300.00"))
    assert found == (PaymentLine("time 0", D("300.00")), PaymentLine("time 1", D("0.00")))


@given(st.integers(0, 100_000_00), st.lists(st.fractions(0, 1, max_denominator=400), max_size=6))
def test_payments_always_come_to_the_total(cents: int, shares: list[F]) -> None:
    """Whatever the shares, even where they exceed the whole: no payment is below zero, and they add up."""
    total = D(cents).scaleb(-2)
    entries = tuple(Payment(when="then", amount=share) for share in shares)
    job = JOB.model_copy(
        update={"payments": (*entries, Payment.model_validate({"when": "at the end", "amount": "rest"}))}
    )
    found = payments(job, total)
    assert sum(payment.amount for payment in found) == total
    assert all(payment.amount >= 0 for payment in found)
    assert all(payment.amount == payment.amount.quantize(D("0.01")) for payment in found)
