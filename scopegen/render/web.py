"""A document as one HTML file, for a phone, a desk screen and a browser's printer."""

from __future__ import annotations

from base64 import b64encode
from functools import lru_cache
from io import BytesIO

from scopegen.papers.document import Document

from .faces import FACES, Face, drawable
from .markup import markup
from .printed import printed_texts, refuse_undrawable
from .seal import sealed
from .styles import document_rules, sheet

# What nearly every paper needs, so that the fonts are cut once a process: letters of the Latin script,
# punctuation, raised and lowered figures, fractions, arrows, the euro, the minus, the box and the tick.
COMMON = frozenset(
    (*range(0x20, 0x7F), *range(0xA0, 0x180), *range(0x2010, 0x2045), *range(0x2070, 0x20A0))
    + (*range(0x2150, 0x2160), *range(0x2190, 0x2194), 0x20AC, 0x2212, 0x2610, 0x2713)
)


def web_page(document: Document) -> str:
    """The document as a self-contained page, with its seal. Raises UndrawableText or RenderingUnavailable."""
    refuse_undrawable(document)
    rare = frozenset(ord(c) for text in printed_texts(document) for c in text) - COMMON
    styles = [face.rule(embedded(face, rare)) for face in FACES]
    styles += [
        sheet("look"),
        f"@media print {{\n{sheet('paper')}\n{document_rules(document)}\n}}",
        sheet("screen"),
    ]
    return sealed(markup(document, styles="\n".join(styles), screen=True))


@lru_cache(maxsize=32)
def embedded(face: Face, rare: frozenset[int]) -> str:
    """A face as a data: address that holds the common characters and the rare ones given: about 30 kB."""
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    font = TTFont(BytesIO(face.content()), recalcTimestamp=False)
    # of the font's names only those that say what it is and under which licence (OpenType, name table)
    subsetter = Subsetter(Options(hinting=False, name_IDs=[0, 1, 2, 13, 14]))
    subsetter.populate(unicodes=(COMMON | rare) & drawable())
    subsetter.subset(font)
    font.flavor = "woff"
    content = BytesIO()
    font.save(content)
    return "data:font/woff;base64," + b64encode(content.getvalue()).decode("ascii")
