"""A chart carried forward: byte for byte but for the season, the list and what was raised."""

from __future__ import annotations

from decimal import Decimal as D

import pytest

from scopegen.amend import CannotAmend
from scopegen.chart.prices import prices_in
from scopegen.load import parse
from scopegen.season import Opened, Refused, earlier_chart, opened, read_raise
from scopegen.understand import understand_chart
from tests.season.charts import TEXT, source


def carried(text: str = TEXT, *raises: str, step: str | None = None) -> Opened:
    return opened(source(text), text, 2028, [read_raise(each) for each in raises], D(step) if step else None)


def without_list(text: str, end: str = "\n") -> str:
    """The new chart without what was put in: the comment and the list, each on lines of its own."""
    lines = text.split(end)
    start = next(i for i, line in enumerate(lines) if line.startswith("# Season 2028 was opened"))
    stop = next(i for i in range(start + 2, len(lines)) if not lines[i].startswith("  - "))
    assert lines[start + 1] == "to_review:"
    return end.join([*lines[:start], *lines[stop:]])


@pytest.mark.parametrize(
    ("mark", "end"), [("", "\n"), ("\ufeff", "\n"), ("", "\r\n"), ("\ufeff", "\r\n")], ids=repr
)
def test_everything_else_is_byte_for_byte(mark: str, end: str) -> None:
    """Comments, order, spaces, line ends and the mark of byte order."""
    text = mark + TEXT.replace("\n", end)
    expected = text.replace("season: 2027", "season: 2028")
    assert without_list(carried(text).text, end) == expected


def test_every_price_is_on_the_list_at_the_top() -> None:
    """In the order of the chart, below the season."""
    done = carried()
    data = parse(done.text, "new").data
    names = [price.name for price in prices_in(source().data)]
    assert isinstance(data, dict)
    assert data["to_review"] == names == list(done.to_review)
    assert list(data)[:3] == ["season", "to_review", "currency"]
    chart = understand_chart(parse(done.text, "new"))
    assert chart.findings == () and chart.value.season == 2028
    assert chart.value.to_review == tuple(names)


def test_raised_prices_alone_are_changed() -> None:
    """Every changed line is that of a raised price; the comment says what was done."""
    done = carried(TEXT, "4 %", "mulch=6 %", step="0.05")
    was = {price.name: price for price in prices_in(source().data)}
    now = {price.name: price for price in prices_in(parse(done.text, "new").data)}
    assert {name for name in was if now[name].said != was[name].said} == {
        each.price.name for each in done.raised if each.after != each.before
    }
    assert now["materials.dark-hardwood.price"].said == "118.70"  # 112.00 × 1.06 = 118.72
    assert now["work.haul-away.dump.fabric"].said == "31.20/yd3"
    assert (
        "# Season 2028 was opened from season 2027; raised every price by 4 %, mulch by 6 %; rounded"
        " half up to"
        " 0.05, and to 0.01 below 1.00.\n"
    ) in done.text
    old, new = TEXT.replace("season: 2027", "season: 2028").splitlines(), without_list(done.text).splitlines()
    changed = [(a, b) for a, b in zip(old, new, strict=True) if a != b]
    assert len(changed) > 20
    assert all(a.partition("#")[2] == b.partition("#")[2] for a, b in changed)


def test_a_list_that_was_left_over_is_replaced() -> None:
    """What was confirmed last year is to be looked at again, and the comment of last year stays."""
    first = carried()
    second = opened(source(first.text, "prices-2028.yaml"), first.text, 2029)
    assert second.to_review == first.to_review
    assert second.text.count("to_review:") == 1
    assert "# Season 2028 was opened from season 2027, prices as they were." in second.text
    assert "# Season 2029 was opened from season 2028, prices as they were." in second.text


def test_comments_that_speak_of_the_old_season_are_named() -> None:
    """They are left as they are, and the office is told where."""
    assert carried().old_comments == (1,)
    assert carried(TEXT.replace("# of a day", "# since 20271, not 2027")).old_comments == (1, 53)


def test_a_season_in_quotes_stays_in_quotes() -> None:
    """It is only the year that changes."""
    assert 'season: "2028"\n' in carried(TEXT.replace("season: 2027\n", 'season: "2027"\n')).text


def test_a_chart_in_braces_is_refused() -> None:
    """No comment has room there, and the list would stand on one line."""
    text = "{season: 2027, worker_hour: 62.00}\n"
    with pytest.raises(CannotAmend, match="written in braces"):
        carried(text)


@pytest.mark.parametrize(
    ("charts", "season", "why"),
    [
        ((), 2028, "There is no price chart here to carry forward."),
        ((2027, 2028), 2028, "Season 2028 is open already: prices-2028.yaml is there. Nothing was written."),
        (
            (2027, 2028),
            2027,
            "Season 2027 is not later than the newest one, 2028: prices-2028.yaml is there.",
        ),
        (
            (2027, 2030),
            2028,
            "Season 2028 is not later than the newest one, 2030: prices-2030.yaml is there.",
        ),
    ],
)
def test_what_cannot_be_opened(charts: tuple[int, ...], season: int, why: str) -> None:
    """Twice, without an earlier chart, or before a later one."""
    with pytest.raises(Refused) as refused:
        earlier_chart(charts, season)
    assert str(refused.value).startswith(why)


def test_the_newest_earlier_chart_is_carried_forward() -> None:
    """Whatever the gap."""
    assert earlier_chart((2024, 2026, 2027), 2029) == 2027
