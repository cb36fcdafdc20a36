"""The list of what is still to be looked at: shown, confirmed, changed, byte for byte otherwise."""

from __future__ import annotations

import pytest

from scopegen.season import Refused, confirmed, names_meant, opened, to_look_at
from tests.season.charts import TEXT, source

NEW = opened(source(), TEXT, 2028).text.replace("  - job.minimum\n", "  - job.minimum   # ask Kim\n")


def after(names: list[str], amounts: dict[str, str] | None = None, text: str = NEW) -> str:
    return confirmed(source(text), text, names_meant(source(text), names), amounts)


def test_listed_with_the_price_now_and_before() -> None:
    """With the line of the list, and without a price where a chart has none of that name."""
    later = NEW.replace("minimum: 280.00, set_up", "minimum: 300.00, set_up").replace(
        "  - job.come_back", "  - gone"
    )
    rows = {each.name: each for each in to_look_at(source(later), source().data)}
    assert (rows["job.minimum"].now, rows["job.minimum"].before) == ("300.00", "280.00")
    assert later.splitlines()[rows["job.minimum"].line - 1] == "  - job.minimum   # ask Kim"
    assert (rows["gone"].now, rows["gone"].before) == (None, None)
    assert rows["worker_hour"].before == "62.00"
    assert {each.before for each in to_look_at(source(later))} == {None}


def test_a_confirmed_name_goes_with_its_line() -> None:
    """And nothing else."""
    assert after(["job.minimum"]) == NEW.replace("  - job.minimum   # ask Kim\n", "")
    both = NEW.replace("  - worker_hour\n", "").replace("  - delivery.fee\n", "")
    assert after(["delivery.fee", "worker_hour"]) == both


def test_a_part_of_a_name_stands_for_all_below_it() -> None:
    """One word confirms a material or all dump fees; never a price whose name only begins so."""
    assert names_meant(source(NEW), ["work.haul-away.dump"]) == tuple(
        f"work.haul-away.dump.{stream}" for stream in ("sod", "green", "mulch", "fabric")
    )
    assert "work.new-edge.price.amount" in names_meant(source(NEW), ["work"])
    with pytest.raises(Refused):
        names_meant(source(NEW), ["work.new"])


def test_what_is_confirmed_last_takes_the_list_with_it() -> None:
    """The chart is then as it was, but for the season and the comment."""
    left = after(["worker_hour", "job", "delivery", "materials", "work"])
    assert "to_review" not in left
    kept = [line for line in left.splitlines(keepends=True) if not line.startswith("# Season 2028")]
    assert "".join(kept) == TEXT.replace("season: 2027", "season: 2028")


def test_a_price_that_is_set_is_changed_and_off_the_list() -> None:
    """In its own way of writing; a dump fee keeps its unit."""
    changed = after([], {"job.minimum": "$300", "work.haul-away.dump.sod": "26.5 / yd3"})
    expected = NEW.replace("  - job.minimum   # ask Kim\n", "").replace("  - work.haul-away.dump.sod\n", "")
    expected = expected.replace("minimum: 280.00, set_up", "minimum: 300.00, set_up").replace(
        "24.00/yd3", "26.50/yd3"
    )
    assert changed == expected
    again = after(
        [], {"job.minimum": "310.00"}, changed
    )  # it is off the list, and can be changed all the same
    assert again == changed.replace("minimum: 300.00", "minimum: 310.00")


@pytest.mark.parametrize(
    ("names", "amounts", "why"),
    [
        (
            ["worker_hours"],
            {},
            "'worker_hours' is not on the list; did you mean 'worker_hour'? Nothing was written.",
        ),
        (["overhead"], {}, "'overhead' is not on the list. Nothing was written."),
        (
            [],
            {"job.max": "1"},
            "The chart has no price called 'job.max'; did you mean 'job.come_back'? Nothing was written.",
        ),
        (
            [],
            {"job.minimum": "3.001"},
            "job.minimum: '3.001' has a part of a cent; write dollars and cents, like 150.00."
            " Nothing was written.",
        ),
        (
            [],
            {"work.haul-away.dump.sod": "30/ton"},
            "work.haul-away.dump.sod is 24.00/yd3, and '30/ton' has another unit; change the unit in"
            " the chart"
            " itself. Nothing was written.",
        ),
        (
            [],
            {"job.minimum": "300/yd3"},
            "job.minimum is 280.00, and '300/yd3' has another unit; change the unit in the chart"
            " itself. Nothing"
            " was written.",
        ),
    ],
)
def test_refused(names: list[str], amounts: dict[str, str], why: str) -> None:
    """With the name that may have been meant."""
    with pytest.raises(Refused) as refused:
        after(names, amounts)
    assert str(refused.value) == why


def test_confirmed_already_is_said() -> None:
    """Twice is no typing error."""
    text = after(["worker_hour"])
    with pytest.raises(Refused) as refused:
        after(["worker_hour"], text=text)
    assert str(refused.value) == "'worker_hour' is confirmed already. Nothing was written."


def test_a_list_in_brackets_works_the_same_way() -> None:
    """As somebody may write it by hand."""
    text = NEW[: NEW.index("to_review:")] + "to_review: [worker_hour, job.minimum, delivery.fee]  # mine\n"
    text += NEW[NEW.index("currency:") :]
    assert "to_review: [worker_hour, delivery.fee]  # mine\n" in after(["job.minimum"], text=text)
    assert "to_review: [delivery.fee]  # mine\n" in after(["job.minimum", "worker_hour"], text=text)
    assert "to_review" not in after(["job.minimum", "worker_hour", "delivery.fee"], text=text)
