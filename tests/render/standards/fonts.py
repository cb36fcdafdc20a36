"""The fonts: all in the file, with a character for each sign that is shown."""

from __future__ import annotations

import re
from collections import defaultdict
from functools import cache
from io import BytesIO

import pikepdf
from fontTools.ttLib import TTFont

from .content import shown

CODE = r"<([0-9a-fA-F]+)>\s*"


def used(pdf: pikepdf.Pdf) -> dict[tuple[int, int], tuple[pikepdf.Dictionary, set[int]]]:
    """Each font that shows something, with the codes that it shows."""
    fonts: dict[tuple[int, int], pikepdf.Dictionary] = {}
    codes: dict[tuple[int, int], set[int]] = defaultdict(set)
    for page in pdf.pages:
        for piece in shown(page):
            if piece.codes and piece.font is not None:
                key = piece.font.objgen
                fonts[key] = piece.font
                codes[key] |= {int.from_bytes(piece.codes[i : i + 2]) for i in range(0, len(piece.codes), 2)}
    return {key: (fonts[key], codes[key]) for key in fonts}


def program(font: pikepdf.Dictionary) -> bytes | None:
    """The font's own file."""
    descriptor = font.DescendantFonts[0].get("/FontDescriptor", {})
    files = [descriptor[key] for key in ("/FontFile2", "/FontFile3") if key in descriptor]
    return files[0].read_bytes() if files else None


def all_of_the_file(pdf: pikepdf.Pdf) -> list[tuple[pikepdf.Dictionary, set[int]]]:
    """Every font of the file, also what only fields ask for."""
    seen = used(pdf)
    rest = {
        each.objgen: (each, set())
        for each in pdf.objects
        if isinstance(each, pikepdf.Dictionary)
        and each.get("/Type") == "/Font"
        and each.get("/Subtype") == "/Type0"
    }
    return list((rest | seen).values())


def embedded(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.21.4.1; ISO 19005-3, 6.2.11.4.1: every font is in the file, with the signs shown."""
    wrong = []
    for font, codes in all_of_the_file(pdf):
        content = program(font)
        if content is None:
            wrong.append(f"{font.BaseFont} is not in the file")
        elif max(codes, default=0) >= glyphs(content):
            wrong.append(f"{font.BaseFont} lacks a sign that is shown")
    return wrong


@cache
def glyphs(content: bytes) -> int:
    return int(TTFont(BytesIO(content))["maxp"].numGlyphs)


def characters(font: pikepdf.Dictionary) -> dict[int, str]:
    """What each code stands for: ISO 32000-1, 9.10.3."""
    if "/ToUnicode" not in font:
        return {}
    text, found = font.ToUnicode.read_bytes().decode("latin-1"), {}
    for section in re.findall(r"beginbfchar(.*?)endbfchar", text, re.S):
        found |= {int(code, 16): _utf16(to) for code, to in re.findall(2 * CODE, section)}
    for section in re.findall(r"beginbfrange(.*?)endbfrange", text, re.S):
        for first, last, to in re.findall(3 * CODE, section):
            start = int(to, 16)
            found |= {
                code: chr(start + code - int(first, 16)) for code in range(int(first, 16), int(last, 16) + 1)
            }
    return found


def _utf16(digits: str) -> str:
    return bytes.fromhex(digits).decode("utf-16-be", "replace")


def told(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.21.7; ISO 19005-3, 6.2.11.7.2: each sign shown is a character, and none of those that
    stand for nothing (U+0000, U+FEFF, U+FFFE)."""
    wrong = []
    for font, codes in used(pdf).values():
        known = characters(font)
        for code in sorted(codes):
            if not known.get(code) or set(known[code]) & {"\0", "\ufeff", "\ufffe"}:
                wrong.append(f"{font.BaseFont} shows {code:04X}, which stands for no character")
    return wrong


def no_box(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.21.8; ISO 19005-3, 6.2.11.8: no sign is shown that stands for a missing one."""
    return [f"{font.BaseFont} shows .notdef" for font, codes in used(pdf).values() if 0 in codes]


def widths(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.21.5; ISO 19005-3, 6.2.11.5: what the file says of widths is what the font says, within
    one thousandth."""
    wrong = []
    for font, codes in used(pdf).values():
        content = program(font)
        if content is None:
            continue
        face = TTFont(BytesIO(content))
        order, unit, said = (
            face.getGlyphOrder(),
            face["head"].unitsPerEm,
            _said_widths(font.DescendantFonts[0]),
        )
        for code in codes & set(range(len(order))):
            own = face["hmtx"][order[code]][0] * 1000 / unit
            if abs(own - said.get(code, float(font.DescendantFonts[0].get("/DW", 1000)))) > 1:
                wrong.append(f"{font.BaseFont}: {code:04X} is {own:g} wide")
    return wrong


def _said_widths(font: pikepdf.Dictionary) -> dict[int, float]:
    """ISO 32000-1, 9.7.4.3."""
    entries, found = list(font.get("/W", [])), {}
    while entries:
        first, second = int(entries.pop(0)), entries.pop(0)
        if isinstance(second, pikepdf.Array):
            found |= {first + i: float(width) for i, width in enumerate(second)}
        else:
            width = float(entries.pop(0))
            found |= dict.fromkeys(range(first, int(second) + 1), width)
    return found


CHECKS = (embedded, told, no_box, widths)
