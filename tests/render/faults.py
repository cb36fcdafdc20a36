"""Faults put into a sound PDF, each with the check that has to find it."""

from __future__ import annotations

from collections.abc import Callable, Iterator

import pikepdf
from pikepdf import Array, Dictionary, Name, String

from .standards import catalog, content, fields, files, fonts, structure
from .standards.tree import kids_of, of

Fault = Callable[[pikepdf.Pdf], None]


def put(*path: str, to: object = None) -> Fault:
    """A value in the catalog put in or, without `to`, taken out."""

    def fault(pdf: pikepdf.Pdf) -> None:
        place = pdf.Root
        for key in path[:-1]:
            place = place[key]
        if to is None:
            del place[path[-1]]
        else:
            place[path[-1]] = to

    return fault


def element(kind: str, change: Callable[[Dictionary], None], place: int = 0) -> Fault:
    """A change of one element of a kind."""
    return lambda pdf: change(of(pdf, kind)[place].entry)


def field(ending: str, change: Callable[[Dictionary], None]) -> Fault:
    """A change of the first field whose name ends so."""
    return lambda pdf: change(next(f for f in fields.widgets(pdf) if fields.name_of(f).endswith(ending)))


def file(change: Callable[[Dictionary], None]) -> Fault:
    """A change of the first file's entry."""
    return lambda pdf: change(next(iter(files.inside(pdf).values())))


def font(change: Callable[[Dictionary], None]) -> Fault:
    """A change of the first font that is used."""
    return lambda pdf: change(next(iter(fonts.used(pdf).values()))[0])


def without(*keys: str) -> Callable[[Dictionary], None]:
    """What stands under the last key, below the others, taken out."""

    def change(entry: Dictionary) -> None:
        for key in keys[:-1]:
            entry = entry[key]
        del entry[keys[-1]]

    return change


def said(key: str, value: object) -> Callable[[Dictionary], None]:
    """Another value under a key."""
    return lambda entry: entry.__setitem__(key, value)


def metadata(old: bytes, new: bytes) -> Fault:
    """Other words in the metadata."""

    def fault(pdf: pikepdf.Pdf) -> None:
        before = pdf.Root.Metadata.read_bytes()
        assert old in before
        pdf.Root.Metadata.write(before.replace(old, new))

    return fault


def drawn(change: Callable[[list], list]) -> Fault:
    """Another first page: its steps changed."""

    def fault(pdf: pikepdf.Pdf) -> None:
        page = pdf.pages[0]
        steps = [(list(step.operands), str(step.operator)) for step in pikepdf.parse_content_stream(page)]
        changed = [(operands, pikepdf.Operator(operator)) for operands, operator in change(steps)]
        page.Contents = pdf.make_stream(pikepdf.unparse_content_stream(changed))

    return fault


def unmarked(steps: list) -> list:
    """The first piece of text without its mark."""
    start = next(i for i, step in enumerate(steps) if step[1] == "BDC")
    end = next(i for i, step in enumerate(steps) if i > start and step[1] == "EMC")
    return steps[:start] + steps[start + 1 : end] + steps[end + 1 :]


def foot_as_text(steps: list) -> list:
    """The foot as an artifact that does not say what it is."""
    return [([Name.Artifact], "BMC") if s[1] == "BDC" and s[0][0] == "/Artifact" else s for s in steps]


def number_twice(steps: list) -> list:
    """The second piece of text under the number of the first."""
    first, second = [i for i, step in enumerate(steps) if step[1] == "BDC" and "/MCID" in step[0][1]][:2]
    return [*steps[:second], steps[first], *steps[second + 1 :]]


def box_shown(steps: list) -> list:
    """The first text with a sign that stands for a missing one."""
    first = next(i for i, step in enumerate(steps) if step[1] == "TJ")
    return [*steps[:first], ([Array([String(b"\0\0")])], "TJ"), *steps[first + 1 :]]


def skipped_heading(pdf: pikepdf.Pdf) -> None:
    of(pdf, "/H2")[0].entry.S = Name.H4


def cell_gone(pdf: pikepdf.Pdf) -> None:
    row = of(pdf, "/TD")[-1].above[-1].entry
    row.K = Array(list(row.K)[:-1])


def no_headers(pdf: pikepdf.Pdf) -> None:
    for head in of(pdf, "/TH"):
        head.entry.S = Name.TD


def hung_twice(pdf: pikepdf.Pdf) -> None:
    root = of(pdf, "/Document")[0].entry
    root.K.append(root.K[0])


def loose_element(pdf: pikepdf.Pdf) -> None:
    pdf.Root.Loose = pdf.make_indirect(Dictionary(Type=Name.StructElem, S=Name.P))


def lost_in_the_tree(pdf: pikepdf.Pdf) -> None:
    pdf.Root.StructTreeRoot.ParentTree.Nums[1][0] = None


def held_twice(pdf: pikepdf.Pdf) -> None:
    first, second = (each.entry for each in of(pdf, "/Span")[:2])
    second.K.append(first.K[0])


def listed_but_not_drawn(pdf: pikepdf.Pdf) -> None:
    pdf.Root.StructTreeRoot.ParentTree.Nums[1].append(of(pdf, "/Span")[0].entry)


def entry_of_characters_gone(entry: Dictionary) -> None:
    before = entry.ToUnicode.read_bytes()
    start = before.index(b"\n<", before.index(b"beginbf")) + 1
    entry.ToUnicode.write(before[:start] + before[before.index(b"\n", start) + 1 :])


def wider(entry: Dictionary) -> None:
    inner = entry.DescendantFonts[0]
    inner.W = Array([])
    inner.DW = 3000


def other_form(pdf: pikepdf.Pdf) -> None:
    first, second = of(pdf, "/Form")[:2]
    objr = next(kid for kid in kids_of(first.entry) if isinstance(kid, Dictionary))
    second.entry.K.append(objr)


def same_name(pdf: pikepdf.Pdf) -> None:
    first, second = fields.widgets(pdf)[:2]
    second.T = first.T


def doubled(pdf: pikepdf.Pdf) -> None:
    pdf.Root.AF.append(pdf.Root.AF[0])


def names_turned_round(pdf: pikepdf.Pdf) -> None:
    names = list(pdf.Root.Names.EmbeddedFiles.Names)
    pdf.Root.Names.EmbeddedFiles.Names = Array(names[2:] + names[:2])


def all_faults() -> Iterator[tuple[Callable[[pikepdf.Pdf], list[str]], str, Fault]]:
    """Each check with what it has to find, in words, and the fault itself."""
    script = Dictionary(S=Name.JavaScript, JS=String("app.alert(1)"))
    yield catalog.marked, "not marked", put("/MarkInfo", "/Marked", to=False)
    yield catalog.marked, "tags in doubt", put("/MarkInfo", "/Suspects", to=True)
    yield catalog.language, "no language", put("/Lang")
    yield catalog.language, "no language that there is", put("/Lang", to=String("English"))
    yield catalog.title, "title not shown", put("/ViewerPreferences", "/DisplayDocTitle", to=False)
    yield catalog.title, "no title", metadata(b"dc:title", b"dc:source")
    yield catalog.title, "another title beside it", lambda pdf: pdf.docinfo.__setitem__("/Title", "Other")
    yield catalog.standards, "no PDF/UA", metadata(b'pdfuaid:part="1"', b'pdfuaid:part="2"')
    yield catalog.standards, "no PDF/A-3a", metadata(b'pdfaid:conformance="A"', b'pdfaid:conformance="B"')
    yield catalog.standards, "mark not described", metadata(b">pdfuaid<", b">pdfua<")
    yield catalog.standards, "no metadata", put("/Metadata")
    yield catalog.colors, "no output intent", put("/OutputIntents")
    yield catalog.colors, "no profile", lambda pdf: pdf.Root.OutputIntents[0].DestOutputProfile.write(b"sRGB")
    yield catalog.nothing_runs, "script at opening", put("/OpenAction", to=script)
    yield catalog.nothing_runs, "script by name", put("/Names", "/JavaScript", to=Dictionary(Names=Array([])))
    yield catalog.nothing_runs, "script of a field", field("_initials", said("/AA", Dictionary(K=script)))
    yield catalog.nothing_runs, "fields to be drawn", put("/AcroForm", "/NeedAppearances", to=True)
    yield catalog.syntax, "no identifier", lambda pdf: pdf.trailer.__delitem__("/ID")
    yield structure.kinds, "kind of one's own", element("/P", said("/S", Name.Blurb))
    yield structure.kinds, "paragraph as a row", element("/TR", said("/S", Name.P))
    yield structure.headings, "heading skipped", skipped_heading
    yield structure.headings, "first of level 2", element("/H1", said("/S", Name.H2))
    yield structure.header_cells, "no scope", element("/TH", without("/A", "/Scope"))
    yield structure.header_cells, "no identifiers", put("/StructTreeRoot", "/IDTree")
    yield structure.rows, "cell gone", cell_gone
    yield structure.rows, "no headers", no_headers
    yield structure.figures, "no words", element("/Figure", without("/Alt"))
    yield structure.figures, "no place", element("/Figure", without("/A", "/BBox"))
    yield structure.figures, "off the page", element("/Figure", lambda e: e.A.BBox.__setitem__(2, 1200))
    yield structure.hangs_together, "hung twice", hung_twice
    yield structure.hangs_together, "loose", loose_element
    yield structure.hangs_together, "other parent", lambda pdf: said("/P", pdf.Root)(of(pdf, "/P")[0].entry)
    yield structure.parent_tree, "lost", lost_in_the_tree
    yield structure.parent_tree, "held twice", held_twice
    yield structure.parent_tree, "listed, not drawn", listed_but_not_drawn
    yield structure.parent_tree, "number twice", drawn(number_twice)
    yield structure.parent_tree, "page in no tree", lambda pdf: pdf.pages[0].obj.__delitem__("/StructParents")
    yield content.all_marked, "text without a mark", drawn(unmarked)
    yield content.foot, "foot as text", drawn(foot_as_text)
    yield (
        fonts.embedded,
        "not in the file",
        font(lambda entry: entry.DescendantFonts[0].FontDescriptor.__delitem__("/FontFile2")),
    )
    yield fonts.told, "no characters", font(without("/ToUnicode"))
    yield fonts.told, "character gone", font(entry_of_characters_gone)
    yield fonts.no_box, "missing sign", drawn(box_shown)
    yield fonts.widths, "other widths", font(wider)
    yield fields.words, "no words", field("_initials", without("/TU"))
    yield fields.looks, "no look", field("_date", without("/AP"))
    yield fields.looks, "signature without a look", field("_signature", without("/AP", "/N"))
    yield fields.looks, "no look when off", field("_choice", without("/AP", "/N", "/Off"))
    yield fields.printed, "not printed", field("_date", said("/F", 0))
    yield fields.printed, "hidden", field("_date", said("/F", 6))
    yield fields.in_forms, "in two forms", other_form
    yield fields.in_forms, "leads nowhere", field("_date", without("/StructParent"))
    yield fields.in_forms, "no form", element("/Form", said("/S", Name.Span))
    yield fields.names, "dot in a name", field("_date", said("/T", String("sign.date")))
    yield fields.names, "name twice", same_name
    yield fields.names, "not listed", lambda pdf: pdf.Root.AcroForm.Fields.__delitem__(0)
    yield fields.signatures, "text in its place", field("_signature", said("/FT", Name.Tx))
    yield fields.signatures, "form does not say", put("/AcroForm", "/SigFlags")
    yield fields.order, "own order", lambda pdf: [said("/Tabs", Name.R)(page.obj) for page in pdf.pages]
    yield files.told, "no relationship", file(without("/AFRelationship"))
    yield files.told, "no Unicode name", file(without("/UF"))
    yield files.told, "no description", file(without("/Desc"))
    yield files.told, "no type", file(without("/EF", "/F", "/Subtype"))
    yield files.told, "no date", file(without("/EF", "/F", "/Params", "/ModDate"))
    yield files.told, "none inside", put("/Names", "/EmbeddedFiles")
    yield files.belong, "listed twice", doubled
    yield files.belong, "not listed", put("/AF")
    yield files.sorted_names, "out of order", names_turned_round
