"""A contractor's own folder to start from: every file commented, and ready to check."""

from scopegen.starter.folder import InTheWay, dated_in, files_of, first_season, lay_out, season_at

__all__ = ["InTheWay", "dated_in", "files_of", "first_season", "lay_out", "season_at"]
