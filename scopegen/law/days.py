"""Business days: which days a rule counts, and the last day to use a right."""

from __future__ import annotations

from datetime import date, timedelta
from functools import cache
from typing import Literal

from scopegen.quantities.fields import Entry, Whole, YesNo

SATURDAY, SUNDAY = 5, 6
# The holidays of 5 USC 6103(a), by the names that statutes use.
Holiday = Literal[
    "New Year's Day",
    "Martin Luther King Jr. Day",
    "Washington's Birthday",
    "Memorial Day",
    "Juneteenth National Independence Day",
    "Independence Day",
    "Labor Day",
    "Columbus Day",
    "Veterans Day",
    "Thanksgiving Day",
    "Christmas Day",
]


class Counting(Entry):
    """Which days are no business days: `of_them` names those of the federal holidays that a rule lists,
    all of them where it names none."""

    not_counted: tuple[Literal["sunday", "saturday", "holiday"], ...]
    holidays: Literal["US"] = "US"
    of_them: tuple[Holiday, ...] = ()
    holidays_on: tuple[Literal["day itself", "day observed"], ...] = ("day itself", "day observed")

    def after(self, signed: date, business_days: int) -> date:
        """The so-manieth business day after a day; counting starts on the day after it."""
        day, left = signed, business_days
        while left:
            day += timedelta(days=1)
            left -= self._counts(day)
        return day

    def _counts(self, day: date) -> bool:
        weekend = {SUNDAY: "sunday", SATURDAY: "saturday"}.get(day.weekday())
        if weekend in self.not_counted:
            return False
        if "holiday" not in self.not_counted:
            return True
        return day not in _closed(day.year, self.holidays_on, self.of_them)


# 16 CFR 429.0(f): any day but Sunday and the federal holidays.
FEDERAL = Counting(not_counted=("sunday", "holiday"))


class LastDay(Counting):
    """How many business days a buyer has, and one of 65 or older where that is more. Where `or_federal`,
    the day by the federal list is taken if it is the later one."""

    business_days: Whole
    from_65: Whole | None = None
    or_federal: YesNo = False

    def days(self, is_65_or_older: bool | None) -> int:
        """Business days for this buyer; the longer time where the age is not known."""
        longer = self.from_65 is not None and is_65_or_older is not False
        return self.from_65 if longer and self.from_65 else self.business_days

    def last(self, signed: date, business_days: int) -> date:
        """The last day for what was signed on a day."""
        own = self.after(signed, business_days)
        return max(own, FEDERAL.after(signed, business_days)) if self.or_federal else own


@cache
def _closed(year: int, on: tuple[str, ...], names: tuple[str, ...]) -> frozenset[date]:
    """Federal holidays (5 USC 6103), or those of them with these names, that touch a year. The neighbouring
    years are needed too: the holiday of 1 January may be observed on 31 December."""
    import holidays

    years = (year - 1, year, year + 1)
    statutory = holidays.country_holidays("US", years=years, observed=False)
    both = holidays.country_holidays("US", years=years, observed=True)
    days = set[date]()
    if "day itself" in on:
        days |= {day for day, name in statutory.items() if not names or name in names}
    if "day observed" in on:
        observed = {day: name.removesuffix(" (observed)") for day, name in both.items()}
        days |= {
            day for day, name in observed.items() if day not in statutory and (not names or name in names)
        }
    return frozenset(days)
