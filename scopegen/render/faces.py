"""The fonts that every paper is set in, where they lie, and which characters they can draw."""

from __future__ import annotations

import unicodedata
from dataclasses import dataclass
from functools import cache
from importlib import resources
from io import BytesIO

from .refusals import RenderingUnavailable

# Names of our own: fontconfig takes `Sans` and `Serif` for any font of the machine.
SANS, SERIF, FIELD = "ScopegenSans", "ScopegenSerif", "ScopegenField"


@dataclass(frozen=True, slots=True)
class Face:
    """One font file of a package: `family` and `weight` are what the style sheets call it."""

    family: str
    weight: int
    package: str
    file: str

    @property
    def address(self) -> str:
        """What the style sheet of a PDF asks for; nothing but our own fetcher knows it."""
        return f"scopegen:{self.family}-{self.weight}"

    def rule(self, source: str) -> str:
        """The @font-face rule of this face, loaded from `source`, an address."""
        return (
            f'@font-face {{ font-family: {self.family}; font-weight: {self.weight}; src: url("{source}") }}\n'
        )

    def content(self) -> bytes:
        """The font file. Raises RenderingUnavailable where its package or the file is missing."""
        return _font_file(self.package, self.file)


FACES = (
    Face(SANS, 400, "font_source_sans_pro", "SourceSansPro-Regular.ttf"),
    Face(SANS, 600, "font_source_sans_pro", "SourceSansPro-Semibold.ttf"),
    # Full bold for prescribed wording only: "in bold face type", 16 CFR 429.1(a) and (b).
    Face(SANS, 700, "font_source_sans_pro", "SourceSansPro-Bold.ttf"),
    Face(SERIF, 600, "font_source_serif_pro", "SourceSerifPro-Semibold.ttf"),
)


# What can be typed into a form field: letters of the Latin script and the usual signs.
TYPED = (
    *range(0x20, 0x7F), *range(0xA0, 0x180),
    0x2013, 0x2014, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2026, 0x20AC,
)  # fmt: skip


@dataclass(frozen=True, slots=True)
class FieldFace(Face):
    """The face of what is typed into fields. It goes into a PDF whole, so it is cut down to what can be
    typed, and has no ligatures: those would have no Unicode of their own (ISO 19005-3, 6.2.11.7.2)."""

    def content(self) -> bytes:
        return _typed(self.package, self.file)


FIELDS = FieldFace(FIELD, 400, "font_source_sans_pro", "SourceSansPro-Regular.ttf")


# What sets letters closer or in place of others: OpenType 1.9, 'Advanced Typographic Tables'.
_OF_LAYOUT = {"BASE", "GDEF", "GPOS", "GSUB", "JSTF", "MATH"}


@cache
def _typed(package: str, file: str) -> bytes:
    from fontTools.subset import Options, Subsetter
    from fontTools.ttLib import TTFont

    font = TTFont(BytesIO(_font_file(package, file)), recalcTimestamp=False)
    for table in _OF_LAYOUT & {*font.keys()}:
        del font[table]  # before the subsetter, which reads them whole even to drop them
    options = Options(hinting=False, name_IDs=[1, 2, 3, 4, 6], notdef_outline=True)
    subsetter = Subsetter(options)
    subsetter.populate(unicodes=TYPED)
    subsetter.subset(font)
    content = BytesIO()
    font.save(content)
    return content.getvalue()


@cache
def _font_file(package: str, file: str) -> bytes:
    try:
        return (resources.files(package) / "files" / file).read_bytes()
    except (ModuleNotFoundError, FileNotFoundError):
        name = package.replace("_", "-")
        raise RenderingUnavailable(
            f"the font {file} is missing, without which no paper can be drawn: "
            f"install it with `python3 -m pip install {name}==0.0.1`."
        ) from None


@cache
def drawable() -> frozenset[int]:
    """The characters that every sans face holds; a heading falls back to them where the serif has a gap."""
    from fontTools.ttLib import TTFont

    faces = (TTFont(BytesIO(face.content()), lazy=True) for face in FACES if face.family == SANS)
    return frozenset.intersection(*(frozenset(face.getBestCmap()) for face in faces))


def is_drawable(character: str) -> bool:
    """Whether a character can be drawn; a line break or a tab in a text is printed as a space."""
    if character in "\n\t":
        return True
    hidden = unicodedata.category(character) in ("Cc", "Cf", "Cs", "Co", "Cn", "Zl", "Zp")
    return not hidden and ord(character) in drawable()
