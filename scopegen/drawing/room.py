"""Where there is room for words outside a bed: off its ground, its strokes and all other words."""

from __future__ import annotations

from functools import cached_property
from typing import Any

from scopegen.drawing.laid import pieces
from scopegen.drawing.sheet import Sheet, box_of
from scopegen.drawing.values import Line, Point, StrokeKind, Words

# Strokes that no words outside a bed may lie over.
KEPT: tuple[StrokeKind, ...] = (
    *("worked", "partly", "offered", "others", "open", "mixed", "left", "bed", "against"),
    *("solid", "gap", "span", "leader"),
)
TOUCH = 0.75  # points: what lies nearer to a line lies on it


class Room:
    """The sheet round a bed whose outline is on it already; `whole` is the bed's ground in ft."""

    def __init__(self, sheet: Sheet, whole: Any) -> None:
        from shapely import affinity, prepare, union_all

        self.sheet = sheet
        ground = union_all(pieces(whole))  # without lines that widths of nothing leave
        self.ground = affinity.scale(ground, sheet.k, -sheet.k, origin=(0, 0))
        self.edge = self.ground.boundary
        prepare(self.ground)

    @cached_property
    def _strokes(self) -> Any:
        from shapely import MultiLineString, prepare

        lines = [
            (*stroke.points, *(stroke.points[:1] if stroke.closed else ()))
            for stroke in self.sheet.strokes
            if stroke.kind in KEPT
        ]
        strokes = MultiLineString(lines)
        prepare(strokes)
        return strokes

    def off_the_strokes(self, words: Words) -> bool:
        """Whether words cross no stroke that is kept clear of."""
        from shapely import Polygon

        return not self._strokes.intersects(Polygon(box_of(words)))

    def outside(self, words: Words) -> bool:
        """Whether words lie outside the bed and cross nothing."""
        from shapely import Polygon

        return not self.ground.intersects(Polygon(box_of(words))) and self.off_the_strokes(words)

    def inside(self, words: Words) -> bool:
        """Whether words lie in the bed and cross nothing."""
        from shapely import Polygon

        return bool(self.ground.contains(Polygon(box_of(words)))) and self.off_the_strokes(words)

    def nearest_to(self, words: Words, own: Any, others: Any) -> bool:
        """Whether words stand closer to this line than to these others."""
        from shapely import Polygon

        box = Polygon(box_of(words))
        return bool(others.is_empty or box.distance(own) < box.distance(others))

    def others(self, own: Any) -> Any:
        """The bed's edge without what lies on this line."""
        return self.edge.difference(own.buffer(TOUCH, cap_style="flat"))

    def exposed(self, point: Point) -> bool:
        """Whether a point lies on the bed's edge."""
        from shapely import Point as Spot

        return bool(self.edge.distance(Spot(point)) < TOUCH)

    def lead(self, words: Words, spot: Point) -> bool:
        """Puts words down, outside the bed, with a line that leads from this spot on its edge to them, where
        that line crosses neither bed nor words."""
        if self.sheet.taken(box_of(words)) or not self.outside(words):
            return False
        line = self._leader(words, spot)
        if line is None:
            return False
        self.sheet.write(words)
        self.leader(line)
        return True

    def _leader(self, words: Words, spot: Point) -> Line | None:
        from shapely import LineString, Polygon
        from shapely import Point as Spot
        from shapely.ops import nearest_points

        end = nearest_points(Polygon(box_of(words)), Spot(spot))[0]
        line = LineString([spot, (end.x, end.y)])
        free = line.length <= TOUCH or not self.ground.intersects(
            LineString([line.interpolate(TOUCH), line.interpolate(line.length)])
        )
        clear = not any(line.intersects(Polygon(box_of(other))) for other in self.sheet.words)
        return tuple(line.coords) if free and clear else None

    def leader(self, line: Line) -> None:
        """Puts down a line that leads to words."""
        self.sheet.stroke("leader", line)
        self.__dict__.pop("_strokes", None)  # later words keep off it too
