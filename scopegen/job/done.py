"""When the work is to be done: so many days after the start, or by a day."""

from __future__ import annotations

import re
from dataclasses import dataclass
from datetime import date
from typing import Annotated, Any

from pydantic import BeforeValidator

from scopegen.quantities import written
from scopegen.quantities.fields import complaint, kind_of
from scopegen.quantities.texts import day
from scopegen.quantities.units import DAYS, NotAQuantity, shortened

_FIX = "write '10 days after start', '2 weeks after start', or a day like 2027-05-14"


@dataclass(frozen=True, slots=True)
class Done:
    """The day by which the work is done: of the calendar, or so many days after it starts."""

    day: date | None = None
    days_after_start: int | None = None


_DONE = written.text(
    rf"(?:[1-9][0-9]{{0,2}}\s+{written.one_of(DAYS)}\s+[aA][fF][tT][eE][rR]\s+(?:[tT][hH][eE]\s+)?"
    f"{written.any_case('start')}|{written.DATE})",
    "so many days after the start, or a day",
    "10 days after start",
    "2027-05-14",
)


def _done(value: Any) -> Any:
    if isinstance(value, Done):
        return value
    if isinstance(value, (list, tuple, dict)):
        raise complaint(f"{kind_of(value)} stands where a day belongs", _FIX)
    text = " ".join(value.lower().split()) if isinstance(value, str) else ""
    words = re.fullmatch(r"([1-9][0-9]{0,2}) (\S+) after (?:the )?start", text)
    if words and words[2] in DAYS:
        return Done(days_after_start=int(words[1]) * int(DAYS[words[2]]))
    try:
        return Done(day=day(text))
    except NotAQuantity:
        raise complaint(f"'{shortened(value)}' does not say when the work is done", _FIX) from None


DoneBy = Annotated[Done, BeforeValidator(_done, json_schema_input_type=written.as_written(_DONE))]
