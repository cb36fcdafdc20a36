"""What a new season changes beside prices, in sentences."""

from __future__ import annotations

from calendar import FRIDAY, MONDAY, SATURDAY, SUNDAY, THURSDAY
from datetime import date, timedelta
from pathlib import Path

import pytest

from scopegen.clauses import read_library
from scopegen.law import Law, read_laws
from scopegen.library_folder import library_folder
from scopegen.season import turn_of
from tests.jobs import EXAMPLES
from tests.season.charts import source

LAWS, _ = read_laws(library_folder())
FEDERAL = tuple(law for law in LAWS if law.state is None)


def said(season: int, own: Path | None = None, laws: tuple[Law, ...] = (), data: object = None) -> list[str]:
    return list(turn_of(season, read_library(library_folder(), own), laws, data))


def monday(year: int, month: int, number: int) -> date:
    """The so-manieth Monday of a month."""
    first = date(year, month, 1)
    return first + timedelta(days=(MONDAY - first.weekday()) % 7 + 7 * (number - 1))


def statutory(year: int) -> set[date]:
    """The holidays of 5 USC 6103(a), worked out from its words: days of the month, and Mondays and a
    Thursday counted; beside each on a Saturday or Sunday the Friday before or the Monday after."""
    last_of_may = date(year, 5, 31)
    first_of_november = date(year, 11, 1)
    thursday = first_of_november + timedelta(days=(THURSDAY - first_of_november.weekday()) % 7 + 21)
    days = {
        monday(year, 1, 3), monday(year, 2, 3), last_of_may - timedelta(days=last_of_may.weekday()),
        monday(year, 9, 1), monday(year, 10, 2), thursday,
    }  # fmt: skip
    for month, day in ((1, 1), (6, 19), (7, 4), (11, 11), (12, 25)):
        holiday = date(year, month, day)
        beside = {SATURDAY: -1, SUNDAY: 1}.get(holiday.weekday(), 0)  # Executive Order 11582 for Sundays
        days |= {holiday, holiday + timedelta(days=beside)}
    if date(year + 1, 1, 1).weekday() == SATURDAY:
        days.add(date(year, 12, 31))
        assert date(year, 12, 31).weekday() == FRIDAY
    return {day for day in days if day.year == year}


@pytest.mark.parametrize("year", [2027, 2028, 2029, 2033])
def test_holidays_that_do_not_count(year: int) -> None:
    """Those of the federal rule, 16 CFR 429.0(f): every holiday that is no Sunday, its observed day too."""
    (sentence,) = [each for each in said(year, laws=FEDERAL) if each.startswith("Holidays")]
    days = sorted(day for day in statutory(year) if day.weekday() != SUNDAY)
    told = ", ".join(f"{day:%a} {day:%b} {day.day}" for day in days)
    assert sentence == (
        f"Holidays in {year} that do not count toward the days to cancel (United States): {told}."
    )


def test_laws_that_count_alike_share_a_sentence() -> None:
    """Each page that gives a right to cancel is named once."""
    sentences = [each for each in said(2028, laws=LAWS) if each.startswith("Holidays")]
    with_right = [law.name for law in LAWS if law.cancel]
    assert 1 < len(sentences) < len(with_right)
    assert all(sum(name in each for each in sentences) == 1 for name in with_right)


def test_pages_of_the_law_that_are_old_are_named() -> None:
    """More than a year before the season's first day; the cautions go with it."""
    law = FEDERAL[0].model_copy(update={"looked_at": date(2026, 12, 31)})
    assert [each for each in said(2028, laws=(law,)) if "looked at" in each] == [
        "What the law asks (United States) was last looked at on 2026-12-31, more than a year before"
        " the season:"
        " hold it against the addresses that its pages name, or ask a lawyer. This program gives no"
        " legal advice."
    ]
    newer = law.model_copy(update={"looked_at": date(2027, 1, 1)})
    assert not [each for each in said(2028, laws=(newer,)) if "looked at" in each]


def test_wording_of_the_season_is_named() -> None:
    """Own versions of the example's folder, and what is no longer used; nothing for a season without any."""
    sentences = said(2028, EXAMPLES / "clauses")
    assert "edging.recut has new wording from season 2028 on, in your own file." in sentences
    assert (
        "extra.shrub-trim is no longer used from season 2028 on, and extra.hourly is used: trimming"
        " is sold as"
        " work by the hour."
    ) in sentences
    assert said(2031, EXAMPLES / "clauses") == []


COLOR = "clause: terms.color\ntitle: {en: Color, es: Color}\nwording:\n"


def color(folder: Path, *versions: str) -> Path:
    """A folder with one clause in these versions."""
    (folder / "terms").mkdir(parents=True)
    (folder / "terms" / "color.yaml").write_text(COLOR + "".join(versions))
    return folder


def version(season: int, en: str, es: str = "") -> str:
    spanish = f"    es: {{says: {es}}}\n" if es else ""
    return f"  - season: {season}\n    en: {{says: {en}}}\n{spanish}"


def test_a_copy_that_nobody_edited_is_not_called_new(tmp_path: Path) -> None:
    """It says what it said before, whatever line breaks it has; a word, a title or a language makes it
    another one."""
    old = version(2027, "Color fades.", "Palidece.")
    same = version(2028, "Color\n      fades.", "Palidece.")
    ships = color(tmp_path / "ships", old)

    def of(name: str, *versions: str) -> list[str]:
        library = read_library(ships, color(tmp_path / name, *versions))
        return list(turn_of(2028, library, (), None))

    copy = "terms.color has a version of its own from season 2028 on, still worded as before"
    assert of("copied", old, same) == [f"{copy}."]
    assert of("alone", same) == [f"{copy}."]
    assert of("lost", version(2028, "Color fades.")) == [f"{copy}, but with nothing in es."]
    new = ["terms.color has new wording from season 2028 on, in your own file."]
    assert of("edited", version(2028, "Color fades in the sun.", "Palidece.")) == new
    title = color(tmp_path / "title", same) / "terms" / "color.yaml"
    title.write_text(title.read_text().replace("en: Color,", "en: Looks,"))
    assert list(turn_of(2028, read_library(ships, title.parents[1]), (), None)) == new
    shipped = color(tmp_path / "shipped", old, same)
    assert list(turn_of(2028, read_library(shipped), (), None)) == [
        "terms.color has a shipped version from season 2028 on, still worded as before."
    ]


def test_wording_of_a_season_that_was_passed_over_is_named(tmp_path: Path) -> None:
    """Where its chart was made from an older one, all that came since is new to its jobs."""
    folder = color(tmp_path / "ships", version(2027, "One."), version(2028, "Two."), version(2030, "Three."))
    library = read_library(folder)
    assert list(turn_of(2029, library, (), None)) == []
    assert list(turn_of(2029, library, (), None, 2027)) == [
        "terms.color has new shipped wording from season 2028 on."
    ]


def test_shipped_wording_that_an_own_file_hides_is_named(tmp_path: Path) -> None:
    """So that nobody misses what was mended."""
    for folder in ("shipped", "own"):
        (tmp_path / folder / "terms").mkdir(parents=True)
    head = (
        "clause: terms.color\ntitle: {en: Color}\nwording:\n  - season: 2027\n    en: {says: Color fades.}\n"
    )
    newer = head + "  - season: 2028\n    en: {says: Color fades in the sun.}\n"
    shipped, own = (tmp_path / folder / "terms" / "color.yaml" for folder in ("shipped", "own"))
    shipped.write_text(newer)
    alone = list(turn_of(2028, read_library(tmp_path / "shipped"), (), None))
    assert alone == ["terms.color has new shipped wording from season 2028 on."]
    own.write_text(head)
    assert list(turn_of(2028, read_library(tmp_path / "shipped", tmp_path / "own"), (), None)) == [
        "terms.color has new shipped wording from season 2028 on, but your own file goes before it:"
        " look whether"
        " you want it."
    ]


def test_what_is_not_on_the_list_is_named() -> None:
    """What things cost and what is taxed changes with the year as well."""
    assert said(2031, data=source().data) == [
        "As they were, and not on the list: taxes, wage, overhead and what material costs you. Look"
        " at them too."
    ]
    assert said(2031, data={"taxes": {}}) == ["As they were, and not on the list: taxes. Look at them too."]
