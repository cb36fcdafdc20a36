"""The fields that are filled in on a screen."""

from __future__ import annotations

from collections import Counter

import pikepdf

from .tree import Element, kids_of, of, parents

PRINT, HIDDEN = (
    1 << 2,
    (1 << 0) | (1 << 1) | (1 << 5),
)  # ISO 32000-1, table 165; hidden, invisible, not viewed


def widgets(pdf: pikepdf.Pdf) -> list[pikepdf.Dictionary]:
    """Every field on every page."""
    return [
        note for page in pdf.pages for note in page.get("/Annots", []) if note.get("/Subtype") == "/Widget"
    ]


def name_of(field: pikepdf.Dictionary) -> str:
    return str(field.get("/T", ""))


def words(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.18.1: words for whoever does not see the field."""
    return [f"{name_of(f)} has no words" for f in widgets(pdf) if not str(f.get("/TU", "")).strip()]


def looks(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.3.3: every field has a look; of a box, one for each state, and it is in one of them."""
    wrong = []
    for field in widgets(pdf):
        normal = field.get("/AP", {}).get("/N")
        if normal is None:
            wrong.append(f"{name_of(field)} has no look")
        elif field.get("/FT") == "/Btn":
            states = set() if isinstance(normal, pikepdf.Stream) else set(normal.keys())
            if "/Off" not in states or len(states) != 2 or str(field.get("/AS")) not in states:
                wrong.append(f"{name_of(field)} is in none of its states")
        elif not isinstance(normal, pikepdf.Stream):
            wrong.append(f"{name_of(field)} has several looks")
    return wrong


def printed(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.3.2: a field is printed, and is not hidden."""
    flags = ((name_of(field), int(field.get("/F", 0))) for field in widgets(pdf))
    return [f"{name} is not printed" for name, flag in flags if not flag & PRINT or flag & HIDDEN]


def in_forms(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.18.4: each field hangs in a Form element of the tags, which it leads to."""
    held = {}
    for element in of(pdf, "/Form"):
        for kid in kids_of(element.entry):
            if isinstance(kid, pikepdf.Dictionary) and kid.get("/Type") == "/OBJR":
                held.setdefault(kid.Obj.objgen, []).append(element)
    wrong, tree = [], parents(pdf)
    for field in widgets(pdf):
        forms: list[Element] = held.get(field.objgen, [])
        leads = tree.get(int(field.get("/StructParent", -1)))
        if len(forms) != 1 or leads is None or leads.objgen != forms[0].key:
            wrong.append(f"{name_of(field)} is in {len(forms)} forms, or leads to another")
    return wrong


def names(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, 12.7.3.2: names without a dot, each once, and all in the form's list."""
    given = Counter(map(name_of, widgets(pdf)))
    wrong = [f"the name '{name}'" for name in given if not name or "." in name]
    wrong += [f"{count} fields called {name}" for name, count in given.items() if count > 1]
    listed = Counter(name_of(field) for field in pdf.Root.get("/AcroForm", {}).get("/Fields", []))
    return wrong + ([] if listed == given else ["the form lists other fields than the pages show"])


def signatures(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, 12.7.4.5 and table 219: places to sign are fields for signatures, and the form says so."""
    wrong = []
    for field in widgets(pdf):
        to_sign = name_of(field).endswith("_signature")
        if to_sign != (field.get("/FT") == "/Sig"):
            wrong.append(f"{name_of(field)} is a field of the kind {field.get('/FT')}")
        if to_sign and not int(pdf.Root.AcroForm.get("/SigFlags", 0)) & 1:
            wrong.append("the form does not say that it has places to sign")
    return wrong


def order(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.18.3: on a page with fields, the tab key follows the tags."""
    pages = [(number, page) for number, page in enumerate(pdf.pages, 1) if "/Annots" in page]
    return [
        f"page {number}: the tab key goes its own way" for number, page in pages if page.get("/Tabs") != "/S"
    ]


CHECKS = (words, looks, printed, in_forms, names, signatures, order)
