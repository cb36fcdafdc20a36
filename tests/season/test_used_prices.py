"""A price that nobody has looked at stops exactly the jobs whose paper it could change."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.amend import AddKey, Put, amended
from scopegen.build import open_case
from scopegen.chart.prices import prices_in
from scopegen.check import check
from scopegen.kept import Kept
from scopegen.papers.agreement import compose
from scopegen.papers.document import text_of, walk
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon
from tests.jobs import changed, example, laid
from tests.season.charts import TEXT, source

PRICES = prices_in(source().data)
LISTED = amended(TEXT, [AddKey((), "to_review", [price.name for price in PRICES])])


def stopped(job: Path) -> set[str]:
    """The names of the prices that stop a job."""
    found = [each for each in check(open_case(job)).findings if each.rule == "price-to-review"]
    return {each.place.text.strip().removeprefix("- ") for each in found}


def paper(job: Path, kept: Kept) -> list[str]:
    """Every word of the agreement, and of what is worked out for it."""
    case = open_case(job, kept=kept)
    document = compose(frame_of(case, lexicon(case.job.language)))
    return [text for _, block in walk(document) for text in text_of(block)]


@pytest.mark.parametrize(
    ("name", "idle"),
    [
        ("heron-bend", set[str]()),
        ("cedar-row", set[str]()),
        # one price group: a price that differs from the first one's is a finding by itself
        ("tern-court", {"materials.dark-hardwood.price"}),
    ],
)
def test_a_price_stops_a_job_where_it_could_change_the_paper(
    tmp_path: Path, name: str, idle: set[str]
) -> None:
    """Each price of the chart is made larger by itself: where the agreement says something else then, it is
    one that stops the job, and where not, it is none."""
    job = laid(tmp_path, example(name), chart=LISTED)
    found = stopped(job)
    laid(tmp_path, example(name))
    kept = Kept()
    before, matters = paper(job, kept), set()
    for price in PRICES:
        larger = amended(TEXT, [Put(price.path, price.written(price.amount * 1000 + 10))])
        laid(tmp_path, example(name), chart=larger)
        if paper(job, kept) != before:
            matters.add(price.name)
    assert 10 < len(matters) < len(PRICES)
    assert found - matters == idle
    assert matters <= found


@pytest.mark.parametrize(
    ("name", "over", "stops"),
    [
        ("tern-court", "14.75 yd3", True),  # 9.75 and 5.25 yd³ of two colors count together
        ("tern-court", "15 yd3", False),
        ("heron-bend", "3.5 yd3", True),  # 3 yd³, and 0.75 yd³ as an add-on
        ("heron-bend", "3.75 yd3", False),
    ],
)
def test_a_volume_price_stops_above_its_amount(tmp_path: Path, name: str, over: str, stops: bool) -> None:
    """Where what is included and the largest add-on come to more; a price that is not reached is not used."""
    entry = "materials.twice-ground-hardwood.volume_price.over-"
    chart = changed(
        LISTED, ("over: 15 yd3", f"over: {over}"), ("over-15-yd3", f"over-{over.replace(' ', '-')}")
    )
    found = stopped(laid(tmp_path, example(name), chart=chart))
    assert any(each.startswith(entry) for each in found) == stops


def test_a_price_that_is_not_listed_stops_nothing(tmp_path: Path) -> None:
    """An empty list, as it is left when the last line was taken off by hand, neither."""
    chart = TEXT.replace("season: 2027\n", "season: 2027\nto_review:\n")
    checked = check(open_case(laid(tmp_path, example(), chart=chart)))
    assert not checked.stops


def test_a_price_left_out_is_one_to_be_asked_for_later(tmp_path: Path) -> None:
    """Excluded work is printed with its price, so that price is looked at too."""
    name = "work.lay-heavy-fabric.price.amount"
    assert name not in stopped(laid(tmp_path, example(), chart=LISTED))
    old = "    edging: {decided: included, work: recut-edge}\n"
    text = changed(example(), (old, old + "    substrate: {decided: excluded, work: lay-heavy-fabric}\n"))
    assert name in stopped(laid(tmp_path, text, chart=LISTED))
