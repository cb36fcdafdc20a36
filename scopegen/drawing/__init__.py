"""Beds drawn to scale from what was measured, as lines and words on a sheet: no mark-up, no file.

The same drawings serve every paper. Shapely lays the ground out; it is imported only when something is drawn.
"""

from scopegen.drawing.beds import Drawn, draw_beds
from scopegen.drawing.plan import Plan, draw_plans
from scopegen.drawing.values import Drawing, Scale, Stroke, Words

__all__ = ["Drawing", "Drawn", "Plan", "Scale", "Stroke", "Words", "draw_beds", "draw_plans"]
