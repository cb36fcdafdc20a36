"""What else is otherwise from a new season on: wording, legal pages to look at again, holidays."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from datetime import date, timedelta

from scopegen.clauses import Library, Ruling
from scopegen.clauses.in_force import Held
from scopegen.law import LastDay, Law
from scopegen.law.days import SATURDAY, SUNDAY


def turn_of(
    season: int, library: Library, laws: Sequence[Law], data: object, earlier: int | None = None
) -> Iterator[str]:
    """A sentence for each thing that the season's turn changes, or that nobody has looked at for long.

    `data` is the new chart's own, `earlier` the season whose chart it was made from, where that is not the
    one before: wording of the seasons between is new too.
    """
    for year in range(earlier + 1 if earlier is not None else season, season + 1):
        yield from _wording(year, library)
    yield from _old_laws(season, laws)
    yield from _uncounted(season, laws)
    if isinstance(data, dict):
        kept = [key for key in ("taxes", "wage", "overhead") if key in data]
        costs = any("cost" in each for each in _entries(data))
        kept += ["what material costs you"] if costs else []
        if kept:
            yield f"As they were, and not on the list: {_and(kept)}. Look at them too."


def _entries(data: dict[str, object]) -> Iterator[dict[str, object]]:
    materials = data.get("materials")
    for each in (*(materials.values() if isinstance(materials, dict) else ()), data.get("delivery")):
        if isinstance(each, dict):
            yield each


def _wording(season: int, library: Library) -> Iterator[str]:
    for name in sorted(library.held):
        held = library.held[name]
        own, shipped = (
            each and any(version.season == season for version in each.wording)
            for each in (held.own, held.shipped)
        )
        copied = _as_before(held if own else Held(held.shipped), season) if own or shipped else None
        if copied is not None:
            whose = "version of its own" if own else "shipped version"
            without = f", but with nothing in {_and(copied)}" if copied else ""
            yield f"{name} has a {whose} from season {season} on, still worded as before{without}."
        elif own:
            yield f"{name} has new wording from season {season} on, in your own file."
        elif shipped and held.own and held.own.stands_whole:
            yield (
                f"{name} has new shipped wording from season {season} on, but your own file goes before it:"
                " look whether you want it."
            )
        elif shipped:
            yield f"{name} has new shipped wording from season {season} on."
        gone = held.retired(season)
        if gone and gone.season == season:
            instead = f", and {gone.instead} is used" if gone.instead else ""
            yield f"{name} is no longer used from season {season} on{instead}: {gone.because.rstrip('.')}."


def _as_before(held: Held, season: int) -> tuple[str, ...] | None:
    """The languages that a clause has lost by the end of a season, where it says word by word what it said
    at the end of the one before; None where it says something else."""
    before, now = (held.ruling(year, date.max) for year in (season - 1, season))
    if before is None or now is None or not before.texts:
        return None
    lost = tuple(sorted(before.texts.keys() - now.texts.keys()))
    return lost if _said_by(before, now.texts) == _said_by(now, now.texts) else None


def _said_by(ruling: Ruling, languages: Iterable[str]) -> dict[str, object]:
    """The title and the words of each text, by language."""
    return {
        language: (
            ruling.title.get(language),
            {way: wording.text.split() for way, wording in ruling.texts.get(language, {}).items()},
        )
        for language in languages
    }


def _old_laws(season: int, laws: Sequence[Law]) -> Iterator[str]:
    by_day: dict[date, list[str]] = {}
    for law in laws:
        if law.looked_at < date(season - 1, 1, 1):
            by_day.setdefault(law.looked_at, []).append(law.name)
    for day, names in sorted(by_day.items()):
        yield (
            f"What the law asks ({_and(names)}) was last looked at on {day}, more than a year before the"
            " season: hold it against the addresses that its pages name, or ask a lawyer. This program gives"
            " no legal advice."
        )


def _uncounted(season: int, laws: Sequence[Law]) -> Iterator[str]:
    """The days of the year that move a last day to cancel, once for laws that count alike."""
    by_days: dict[tuple[date, ...], list[str]] = {}
    for law in laws:
        if law.cancel:
            by_days.setdefault(tuple(_holidays(season, law.cancel.last_day)), []).append(law.name)
    for days, names in by_days.items():
        if days:
            yield (
                f"Holidays in {season} that do not count toward the days to cancel ({_and(names)}):"
                f" {', '.join(f'{day:%a} {day:%b} {day.day}' for day in days)}."
            )


def _holidays(year: int, last_day: LastDay) -> Iterator[date]:
    """The days of a year that are not counted, but for those of the week that never are."""
    never = {
        day for day, word in ((SATURDAY, "saturday"), (SUNDAY, "sunday")) if word in last_day.not_counted
    }
    day = date(year, 1, 1)
    while day.year == year:
        if day.weekday() not in never and last_day.last(day - timedelta(days=1), 1) != day:
            yield day
        day += timedelta(days=1)


def _and(names: Sequence[str]) -> str:
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))
