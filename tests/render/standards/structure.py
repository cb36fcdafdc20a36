"""The tags: headings, tables, figures, and the tree that holds them."""

from __future__ import annotations

from collections import Counter

import pikepdf

from .tree import elements, kids_of, of, parents

STANDARD = {
    "/Document", "/Part", "/Art", "/Sect", "/Div", "/BlockQuote", "/Caption", "/NonStruct", "/P", "/H1",
    "/H2", "/H3", "/H4", "/H5", "/H6", "/L", "/LI", "/Lbl", "/LBody", "/Table", "/TR", "/TH", "/TD",
    "/THead", "/TBody", "/TFoot", "/Span", "/Link", "/Form", "/Figure",
}  # fmt: skip
MAY_HOLD = {
    "/Table": {"/TR", "/THead", "/TBody", "/TFoot", "/Caption"},
    "/THead": {"/TR"}, "/TBody": {"/TR"}, "/TFoot": {"/TR"}, "/TR": {"/TH", "/TD"},
    "/L": {"/L", "/LI", "/Caption"}, "/LI": {"/Lbl", "/LBody"},
}  # fmt: skip


def kinds(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, 14.8.4 (standard kinds), tables 336 and 337 (what tables and lists are made of);
    ISO 14289-1, 7.1 (no kind of one's own without a map to these)."""
    wrong = [f"kind {element.kind}" for element in elements(pdf) if element.kind not in STANDARD]
    for element in of(pdf, *MAY_HOLD):
        held = {str(kid.S) for kid in kids_of(element.entry) if isinstance(kid, pikepdf.Dictionary)}
        wrong += [f"{kid} in {element.kind}" for kid in sorted(held - MAY_HOLD[element.kind])]
    return wrong or ([] if elements(pdf) else ["no tags at all"])


def headings(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.4.2: the first heading is of level 1, and none is skipped on the way down."""
    levels = [int(element.kind[2:]) for element in elements(pdf) if element.kind[2:].isdigit()]
    wrong = [] if levels[:1] == [1] else ["the first heading is not of level 1"]
    steps = zip(levels, levels[1:], strict=False)
    return wrong + [f"H{after} after H{before}" for before, after in steps if after > before + 1]


def header_cells(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.5; ISO 32000-1, table 349 (Scope, Headers) and 14.7.2 (IDTree)."""
    wrong, root = [], pdf.Root.StructTreeRoot
    named = dict(pikepdf.NameTree(root.IDTree).items()) if "/IDTree" in root else {}
    for head in of(pdf, "/TH"):
        if str(head.entry.get("/A", {}).get("/Scope", "")) not in ("/Row", "/Column", "/Both"):
            wrong.append("a header cell without a scope")
        if "/ID" in head.entry and str(head.entry.ID) not in named:
            wrong.append("a header cell that is in no tree of identifiers")
    for cell in of(pdf, "/TD"):
        asked = {str(name) for name in cell.entry.get("/A", {}).get("/Headers", [])}
        wrong += [f"a cell asks for the header {name}" for name in asked - named.keys()]
    return wrong


def rows(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.5: tables are regular, and have headers."""
    wrong = []
    for table in of(pdf, "/Table"):
        inside = [each for each in elements(pdf) if each.above and table.key in {a.key for a in each.above}]
        width = Counter()
        for cell in inside:
            if cell.kind in ("/TH", "/TD"):
                width[cell.above[-1].key] += int(cell.entry.get("/A", {}).get("/ColSpan", 1))
        wrong += ["a table with rows of several widths"] if len(set(width.values())) > 1 else []
        wrong += [] if any(cell.kind == "/TH" for cell in inside) else ["a table without headers"]
    return wrong


def figures(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.3 (words for a figure); ISO 32000-1, table 344 (BBox: where it is, on its page)."""
    wrong = []
    for figure in of(pdf, "/Figure"):
        wrong += [] if str(figure.entry.get("/Alt", "")).strip() else ["a figure without words"]
        box = [float(side) for side in figure.entry.get("/A", {}).get("/BBox", [])]
        page = [float(side) for side in figure.entry.Pg.MediaBox]
        inside = (
            len(box) == 4 and page[0] <= box[0] < box[2] <= page[2] and page[1] <= box[1] < box[3] <= page[3]
        )
        wrong += [] if inside else [f"a figure that is not on its page: {box}"]
    return wrong


def hangs_together(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, table 323 (P, K): every element hangs once under the element that it names."""
    wrong, hung = [], Counter(element.key for element in elements(pdf))
    wrong += [f"element {key} hangs {count} times" for key, count in hung.items() if count != 1]
    for element in elements(pdf):
        above = element.above[-1].entry if element.above else pdf.Root.StructTreeRoot
        wrong += (
            [] if element.entry.P.objgen == above.objgen else ["an element that names another one above it"]
        )
    loose = [
        each
        for each in pdf.objects
        if isinstance(each, pikepdf.Dictionary)
        and each.get("/Type") == "/StructElem"
        and each.objgen not in hung
    ]
    return wrong + (["elements that hang nowhere"] if loose else [])


def parent_tree(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, 14.7.4.4: what is marked on a page leads to the one element that holds it, and back."""
    wrong, tree = [], parents(pdf)
    held = Counter(
        (element.entry.Pg.objgen, int(kid))
        for element in elements(pdf)
        for kid in kids_of(element.entry)
        if isinstance(kid, int)
    )
    for page in pdf.pages:
        if "/StructParents" not in page:
            wrong.append("a page that is in no parent tree")
            continue
        listed = tree.get(int(page.StructParents), [])
        drawn = Counter(numbers_drawn(page))
        wrong += [f"{number} is drawn {count} times" for number, count in drawn.items() if count != 1]
        for number in drawn:
            there = number < len(listed) and isinstance(listed[number], pikepdf.Dictionary)
            if not there or number not in kids_of(listed[number]):
                wrong.append(f"what is marked {number} leads to no element that holds it")
            if held[page.obj.objgen, number] != 1:
                wrong.append(f"what is marked {number} is held {held[page.obj.objgen, number]} times")
        wrong += [
            f"{number} is listed, but not drawn"
            for number, element in enumerate(listed)
            if element is not None and number not in drawn
        ]
    return wrong


def numbers_drawn(page: pikepdf.Page) -> list[int]:
    """The numbers (MCID) of what is marked on a page, in the order in which it is drawn."""
    return [
        int(step.operands[1].MCID)
        for step in pikepdf.parse_content_stream(page)
        if str(step.operator) == "BDC"
        and isinstance(step.operands[1], pikepdf.Dictionary)
        and "/MCID" in step.operands[1]
    ]


CHECKS = (kinds, headings, header_cells, rows, figures, hangs_together, parent_tree)
