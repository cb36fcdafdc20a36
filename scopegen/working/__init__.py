"""Each quantity and sum of a job worked out step by step, as a person would check it with a pencil."""

from scopegen.working.job import worked_out
from scopegen.working.values import Sheet

__all__ = ["Sheet", "worked_out"]
