"""Laws that hold for every job, tried on many: each says in a sentence what an owner could check."""

from __future__ import annotations

import json
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction
from functools import cache
from pathlib import Path
from typing import Any

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from scopegen import build
from scopegen.case import Case
from scopegen.check import check
from scopegen.papers.agreement import compose
from scopegen.papers.document import Table
from scopegen.papers.frame import frame_of
from scopegen.report.as_json import price_json
from scopegen.words import lexicon
from tests.jobs import EXAMPLES
from tests.rules.laid_over import BASE

# The same jobs in every run, and no shrinking: a run of the whole way costs a tenth of a second.
FEW = settings(
    max_examples=25,
    deadline=None,
    derandomize=True,
    suppress_health_check=list(HealthCheck),
    phases=(Phase.explicit, Phase.generate),
)

# Each way of answering each decision, as it is written, and the word that the paper has for it.
ANSWERS = {
    "material": {
        "included": "{use: twice-ground-hardwood, depth: 2 in}",
        "add-on": "{decided: add-on, use: pine-bark-nuggets, depth: 1 in}",
        "no-charge": "{decided: no-charge, use: pine-bark-nuggets, depth: 1 in}",
        "excluded": "{decided: excluded}",
        "customer": "{decided: customer, by: start, if_not_done: come back}",
        "elsewhere": "{decided: elsewhere, who: the lawn service}",
        "not-needed": "{decided: not-needed, because: a test}",
    },
    "bed_prep": {
        "included": "{decided: included, work: hand-weed}",
        "add-on": "{decided: add-on, work: cut-back-perennials}",
        "no-charge": "{decided: no-charge, work: hand-weed}",
        "excluded": "{decided: excluded}",
        "customer": "{decided: customer, by: 2 days before start, if_not_done: we do it, work: hand-weed}",
        "elsewhere": "{decided: elsewhere, who: the lawn service}",
        "not-needed": "{decided: not-needed, because: a test}",
    },
    "edging": {
        "included": "{decided: included, work: recut-edge}",
        "add-on": "{decided: add-on, work: recut-edge}",
        "no-charge": "{decided: no-charge, work: recut-edge}",
        "excluded": "{decided: excluded, work: new-edge}",
        "customer": "{decided: customer, by: start, if_not_done: leave the bed}",
        "elsewhere": "{decided: elsewhere, who: the lawn service}",
        "not-needed": "{decided: not-needed, because: a test}",
    },
    "debris": {
        "included": "{decided: included, work: haul-away}",
        "customer": "{decided: customer, by: start, if_not_done: leave the bed}",
        "elsewhere": "{decided: elsewhere, who: the lawn service}",
    },
    "substrate": {
        "included": "{decided: included, work: rake-and-top-up}",
        "add-on": "{decided: add-on, work: strip-old-mulch}",
        "no-charge": "{decided: no-charge, work: rake-and-top-up}",
        "excluded": "{decided: excluded}",
        "customer": "{decided: customer, by: start, if_not_done: come back}",
        "elsewhere": "{decided: elsewhere, who: the lawn service}",
        "not-needed": "{decided: not-needed, because: a test}",
    },
}  # fmt: skip
WORDS = {
    "included": "included", "add-on": "add-on", "no-charge": "no charge this time",
    "excluded": "not in this price",
    "customer": "you do it", "elsewhere": "done by the lawn service", "not-needed": "fine as it is",
}  # fmt: skip


@dataclass(frozen=True)
class Bed:
    """A rectangle in inches, and how each decision is made."""

    name: str
    length: int
    width: int
    ways: tuple[tuple[str, str], ...]

    def text(self, *, metric: bool = False) -> str:
        def measure(inches: int) -> str:
            return f"{Decimal(inches) * Decimal('2.54')} cm" if metric else f"{inches} in"

        shape = f"{{rectangle: {{length: {measure(self.length)}, width: {measure(self.width)}}}}}"
        lines = [f"  - name: {self.name}", f"    shape: {shape}"]
        lines.append("    found: {edge: soft, weeds: light, ground: old mulch, ground_depth: 1 in}")
        lines += [f"    {decision}: {ANSWERS[decision][way]}" for decision, way in self.ways]
        return "\n".join(lines)


ways = st.fixed_dictionaries({key: st.sampled_from(sorted(answers)) for key, answers in ANSWERS.items()})
beds = st.builds(
    lambda length, width, chosen: Bed("A bed", length, width, tuple(sorted(chosen.items()))),
    st.integers(36, 1200),
    st.integers(24, 400),
    ways,
)
jobs = st.lists(beds, min_size=1, max_size=4).map(
    lambda found: tuple(replace(bed, name=f"Bed {number}") for number, bed in enumerate(found, 1))
)
deposits = st.sampled_from(["10 %", "25 %", "33.333 %", "50 %", "99.999 %"])


def text_of(found: tuple[Bed, ...], *, deposit: str = "25 %", metric: bool = False) -> str:
    head = (BASE / "job.yaml").read_text(encoding="utf-8")
    start, site = head[: head.index("beds:")], head[head.index("site:") : head.index("payments:")]
    body = "\n".join(bed.text(metric=metric) for bed in found)
    return f"{start}beds:\n{body}\n{site}payments: {{deposit: {deposit}, rest: on completion}}\n"


_library = cache(build.read_library)


@contextmanager
def opened(text: str) -> Iterator[Case]:
    """The case of a job beside the example's company and chart."""
    with tempfile.TemporaryDirectory() as folder:
        for name in ("company.yaml", "prices-2027.yaml"):
            (Path(folder) / name).write_text((EXAMPLES / name).read_text(encoding="utf-8"), encoding="utf-8")
        path = Path(folder) / "job.yaml"
        path.write_text(text, encoding="utf-8")
        yield build.open_case(path)


def priced(text: str) -> dict[str, Any]:
    with opened(text) as case:
        data: dict[str, Any] = json.loads(json.dumps(price_json(frame_of(case, lexicon("en")))))
        return data


@FEW
@given(jobs, deposits)
def test_printed_lines_add_up(found: tuple[Bed, ...], deposit: str) -> None:
    """The printed lines come to the subtotal, with discount and taxes to the total, and the payments to it;
    and wherever a price for one unit is printed, quantity times price is the printed amount."""
    data = priced(text_of(found, deposit=deposit))
    assert sum(Decimal(line["amount"]) for line in data["lines"]) == Decimal(data["subtotal"])
    tax = sum(Decimal(tax["amount"]) for tax in data["taxes"])
    assert Decimal(data["subtotal"]) - Decimal(data["discount"]) + tax == Decimal(data["total"])
    assert sum(Decimal(payment["amount"]) for payment in data["payments"]) == Decimal(data["total"])
    for line in [*data["lines"], *(part for add_on in data["add_ons"] for part in add_on["parts"])]:
        if line["unit_price"] is not None:
            exact = Fraction(line["quantity"]) * Fraction(line["unit_price"])
            assert abs(exact - Fraction(line["regular_amount"])) <= Fraction(1, 200)
    for add_on in data["add_ons"]:
        parts = sum(Decimal(part["amount"]) for part in add_on["parts"])
        assert parts + Decimal(add_on["tax"]) == Decimal(add_on["amount"])


@FEW
@given(jobs)
def test_order_of_beds_changes_nothing_but_order(found: tuple[Bed, ...]) -> None:
    """Walking the beds the other way round gives the same price, hours and spoil."""
    there, back = priced(text_of(found)), priced(text_of(found[::-1]))
    for key in ("total", "subtotal", "taxes", "payments", "worker_hours", "days", "materials"):
        assert there[key] == back[key]
    prices = [sorted(add_on["amount"] for add_on in data["add_ons"]) for data in (there, back)]
    assert prices[0] == prices[1]
    assert {key: value for key, value in there["spoil"].items() if key != "by_stream"} == {
        key: value for key, value in back["spoil"].items() if key != "by_stream"
    }


@FEW
@given(jobs)
def test_metres_cost_what_feet_cost(found: tuple[Bed, ...]) -> None:
    """The same beds in centimetres, exactly, have the same figures."""
    assert priced(text_of(found, metric=True)) == priced(text_of(found))


@FEW
@given(beds, st.integers(12, 1188))
def test_splitting_a_bed_changes_neither_area_nor_material(bed: Bed, cut: int) -> None:
    """A bed measured as two takes the same ground and the same material."""
    first = replace(bed, name="First", length=max(1, bed.length * cut // 1200))
    second = replace(bed, name="Second", length=bed.length - first.length)
    if not second.length:
        return
    whole, halves = priced(text_of((bed,))), priced(text_of((first, second)))

    def total(data: dict[str, Any], key: str) -> Fraction:
        return sum((Fraction(each[key]) for each in data["beds"]), Fraction(0))

    assert abs(total(whole, "area_ft2") - total(halves, "area_ft2")) <= Fraction(1, 1000)
    assert whole["materials"] == halves["materials"]


@FEW
@given(beds, st.integers(1, 40), st.integers(1, 40))
def test_more_depth_never_means_less_material(bed: Bed, one: int, other: int) -> None:
    """A deeper layer is never less material, and never costs less."""
    bought = []
    for eighths in sorted((one, other)):
        depth = f"{eighths}/8 in"
        text = text_of((replace(bed, ways=tuple(w for w in bed.ways if w[0] != "material")),))
        material = f"    material: {{use: twice-ground-hardwood, depth: {depth}}}\n"
        text = text.replace("    bed_prep:", f"{material}    bed_prep:")
        (line,) = priced(text)["materials"]
        bought.append((Fraction(line["measured"]), Fraction(line["sold"]), Decimal(line["amount"])))
    assert bought == sorted(bought)


@FEW
@given(jobs, st.data())
def test_deciding_never_opens_another_decision(found: tuple[Bed, ...], data: st.DataObject) -> None:
    """Whatever is decided in whatever way, no other decision becomes open by it."""
    bed = data.draw(st.sampled_from(found))
    decision = data.draw(st.sampled_from(sorted(ANSWERS)))
    text = text_of(found)
    begin = text.index(f"  - name: {bed.name}\n")
    line = f"    {decision}: {ANSWERS[decision][dict(bed.ways)[decision]]}"
    opened_text = text[:begin] + text[begin:].replace(line, f"    {decision}: open", 1)
    with opened(opened_text) as before, opened(text) as after:
        open_before = {(each.bed, each.decision) for each in check(before).open}
        open_after = {(each.bed, each.decision) for each in check(after).open}
    assert open_before == {(bed.name, decision)}
    assert open_after == set()


@FEW
@given(jobs)
def test_every_bed_and_decision_has_its_word_on_the_paper(found: tuple[Bed, ...]) -> None:
    """In the scope table each bed has, under each decision, the word that the job gave it."""
    with opened(text_of(found)) as case:
        document = compose(frame_of(case, lexicon("en"), draft=True))
    (scope,) = [section for section in document.sections if section.key == "scope"]
    (table,) = [block for block in scope.blocks if isinstance(block, Table)]
    columns = ("material", "bed_prep", "edging", "debris", "substrate")
    assert [row.cells[0].text for row in table.rows] == [bed.name for bed in found]
    for bed, row in zip(found, table.rows, strict=True):
        assert [cell.text for cell in row.cells[1:]] == [
            WORDS[dict(bed.ways)[decision]] for decision in columns
        ]


@FEW
@given(jobs)
def test_check_is_fine_exactly_where_all_wording_is_there(found: tuple[Bed, ...]) -> None:
    """A job that nothing stops has one sentence at least for every decision of every bed."""
    with opened(text_of(found)) as case:
        if check(case).stops:
            return
        assert case.chosen is not None
        said = {(bed, each.decision) for each in case.chosen.said for bed in each.beds}
        assert {(index, decision) for index in range(len(found)) for decision in ANSWERS} <= said
