"""A new season: last season's prices, each to be looked at, and new versions of the wording."""

from scopegen.season.charts import earlier_chart, left_open
from scopegen.season.opening import Opened, opened
from scopegen.season.raising import Raise, Raised, read_raise
from scopegen.season.refused import Refused
from scopegen.season.review import ToLookAt, confirmed, names_meant, to_look_at
from scopegen.season.turn import turn_of
from scopegen.season.wording import NewVersion, new_version, own_file

__all__ = [
    "NewVersion", "Opened", "Raise", "Raised", "Refused", "ToLookAt", "confirmed",
    "earlier_chart", "left_open", "names_meant", "new_version", "opened", "own_file", "read_raise",
    "to_look_at", "turn_of",
]  # fmt: skip
