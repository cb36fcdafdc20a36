"""The large light word behind the text of a draft, as a drawing of the letters' outlines."""

from __future__ import annotations

from io import BytesIO
from math import atan2, cos, degrees, hypot, sin

from .faces import FACES

# points: US Letter is 8 1/2 by 11 in, A4 210 by 297 mm (ISO 216)
PAGE_POINTS = {"letter": (612.0, 792.0), "A4": (595.276, 841.89)}
LIGHT = "#ededed"  # light enough to read through, dark enough to survive most copies
SPAN = 0.64  # of the page's diagonal
TALLEST = 130.0  # points of capital height


def draft_drawing(word: str, page_size: str) -> str:
    """An SVG of the page's size with the word rising along its diagonal. `word` is drawable text."""
    width, height = PAGE_POINTS[page_size]
    outline, length, capitals = word_outline(word)
    scale = min(SPAN * hypot(width, height) / length, TALLEST / capitals)
    angle = atan2(height, width)
    # the middle of the word, half its length along and half its height up, goes to the middle of the page
    along, up = scale * length / 2, scale * capitals / 2
    x = width / 2 - along * cos(angle) + up * sin(angle)
    y = height / 2 + along * sin(angle) + up * cos(angle)
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{width}pt" height="{height}pt" '
        f'viewBox="0 0 {width} {height}"><path fill="{LIGHT}" d="{outline}" '
        f'transform="translate({x:.3f} {y:.3f}) rotate({-degrees(angle):.3f}) '
        f'scale({scale:.5f} {-scale:.5f})"/></svg>'
    )


def word_outline(word: str) -> tuple[str, float, float]:
    """The outline of a word as SVG path data, its length and its capitals' height, in font units."""
    from fontTools.pens.svgPathPen import SVGPathPen
    from fontTools.pens.transformPen import TransformPen
    from fontTools.ttLib import TTFont

    semibold = next(face for face in FACES if face.weight == 600)
    font = TTFont(BytesIO(semibold.content()), lazy=True)
    glyphs, names = font.getGlyphSet(), font.getBestCmap()
    pen, length = SVGPathPen(glyphs), 0
    for character in " ".join(word.split()):
        glyph = glyphs[names[ord(character)]]
        glyph.draw(TransformPen(pen, (1, 0, 0, 1, length, 0)))
        length += glyph.width
    return pen.getCommands(), float(max(length, 1)), float(font["OS/2"].sCapHeight)
