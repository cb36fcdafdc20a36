"""A drawing as SVG, set in the font of the papers."""

from __future__ import annotations

from markupsafe import Markup, escape

from scopegen.drawing import Drawing, Stroke, Words
from scopegen.drawing.sheet import SIZE, box_of

from .faces import SANS

# how thick, in points, and broken in which way; told apart without color, also on a copy of a copy
LINES = {
    "worked": (1.6, ""),
    "partly": (1.6, "8 3"),
    "offered": (1.6, "1.6 2.6"),
    "others": (1.0, "7 2 1 2 1 2"),
    "open": (1.0, "3 3"),
    "mixed": (1.6, "6 2 1.6 2"),
    "left": (0.6, ""),
    "bed": (0.6, ""),
    "leader": (0.3, ""),
    "against": (0.6, ""),
    "solid": (0.45, ""),
    "taped": (0.4, "2 2"),
    "span": (0.45, ""),
    "joint": (0.4, "5 2 1 2"),
    "hatch": (0.25, ""),
    "gap": (0.5, "1 1.6"),
    "bar": (0.9, ""),
}


def svg(drawing: Drawing) -> Markup:
    """The drawing as an inline picture. Its title is what a screen reader says."""
    size = f'width="{drawing.width:g}pt" height="{drawing.height:g}pt"'
    shapes = Markup("").join(map(_stroke, drawing.strokes)) + Markup("").join(map(_words, drawing.words))
    return Markup(
        '<svg role="img" {} viewBox="0 0 {:g} {:g}">'
        '<title>{}</title><g fill="none" stroke="#000">{}</g></svg>'
    ).format(Markup(size), drawing.width, drawing.height, drawing.told, shapes)


def _stroke(stroke: Stroke) -> Markup:
    width, dashes = LINES[stroke.kind]
    points = " ".join(f"{x:g},{y:g}" for x, y in stroke.points)
    broken = f' stroke-dasharray="{dashes}"' if dashes else ""
    shape = "polygon" if stroke.closed else "polyline"
    return Markup(f'<{shape} points="{points}" stroke-width="{width}"{broken}/>')


def _words(words: Words) -> Markup:
    x, y = words.at
    turned = f' transform="rotate({words.turn:g} {x:g} {y:g})"' if words.turn else ""
    text = Markup(
        '<text x="{:g}" y="{:g}"{} text-anchor="{}" font-family="{}" font-size="{}" '
        'fill="#000" stroke="none">{}</text>'
    ).format(x, y, Markup(turned), words.anchor, SANS, SIZE, escape(words.text))
    return (_clearing(words) if words.clear else Markup("")) + text


def _clearing(words: Words) -> Markup:
    """White behind words, so that no line runs through them."""
    points = " ".join(f"{x:.2f},{y:.2f}" for x, y in box_of(words))
    return Markup(f'<polygon points="{points}" fill="#fff" stroke="none"/>')
