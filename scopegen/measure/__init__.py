"""From what the tape said to areas, edges, shares and volumes."""

from scopegen.measure.beds import measure
from scopegen.measure.values import BedMeasure, Ground, Measured, Share, Spread, Trouble

__all__ = ["BedMeasure", "Ground", "Measured", "Share", "Spread", "Trouble", "measure"]
