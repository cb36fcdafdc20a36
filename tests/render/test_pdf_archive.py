"""What a screen reader and an archive need of the file, and that it is the same file every time."""

import hashlib
import os
import subprocess
import sys
from pathlib import Path

import pikepdf
import pytest

from scopegen.papers.document import Document
from scopegen.render import to_pdf

from .conftest import SAMPLES, drawn
from .paper import Paper


@pytest.fixture(scope="module")
def opened(paper):
    import io

    with pikepdf.open(io.BytesIO(paper("10 beds, A4, draft").content)) as pdf:
        yield pdf


def structure(element) -> list:
    """All structure elements below one, in reading order, as (type, element)."""
    found = []
    kids = element.get("/K", [])
    for kid in kids if isinstance(kids, pikepdf.Array) else [kids]:
        if isinstance(kid, pikepdf.Dictionary) and "/S" in kid:
            found += [(str(kid.S), kid), *structure(kid)]
    return found


def test_language_title_and_tags(opened) -> None:
    """ISO 14289-1 (PDF/UA-1): a title that is shown (7.1), a language (7.2), the mark (clause 5); and that of
    PDF/A-3a (ISO 19005-3, 6.6.4)."""
    assert str(opened.Root.Lang) == "en-US"
    assert opened.Root.MarkInfo.Marked is True
    assert opened.Root.ViewerPreferences.DisplayDocTitle is True
    assert str(opened.docinfo.Title) == "Bed work at 18 Heron Bend"
    with opened.open_metadata() as metadata:
        assert metadata["dc:title"] == "Bed work at 18 Heron Bend"
        assert metadata["pdfuaid:part"] == "1"
        assert (metadata["pdfaid:part"], metadata["pdfaid:conformance"]) == ("3", "A")
    assert str(opened.docinfo.CreationDate).startswith("D:20270301")
    assert "/OpenAction" not in opened.Root and "/AF" not in opened.Root
    assert "/NeedAppearances" not in opened.Root.AcroForm


def test_headings_step_down_one_by_one(opened) -> None:
    """ISO 14289-1, 7.4.2: the first heading is H1 and none is skipped."""
    levels = [
        int(kind[2:])
        for kind, _ in structure(opened.Root.StructTreeRoot)
        if kind[:2] == "/H" and kind[2:].isdigit()
    ]
    assert len(levels) > 10 and levels[0] == 1 and levels.count(1) == 1
    assert all(after - before <= 1 for before, after in zip(levels, levels[1:], strict=False))


def test_tables_are_regular_and_their_headers_say_what_they_head(opened) -> None:
    """ISO 14289-1, 7.5; ISO 32000-1, table 349 (Scope)."""
    tables = [element for kind, element in structure(opened.Root.StructTreeRoot) if kind == "/Table"]
    assert len(tables) >= 5
    scopes = []
    for table in tables:
        rows = [element for kind, element in structure(table) if kind == "/TR"]
        cells = [[kind for kind, _ in structure(row) if kind in ("/TH", "/TD")] for row in rows]
        assert len({len(row) for row in cells}) == 1
        scopes += [str(element.A.Scope) for kind, element in structure(table) if kind == "/TH"]
    assert scopes.count("/Column") >= 20 and scopes.count("/Row") >= 20


def test_bookmarks_are_the_headings(sample: tuple[Document, Paper]) -> None:
    document, paper = sample

    def titles(outline) -> list:
        return [titles(entry) if isinstance(entry, list) else entry.title for entry in outline]

    outline = titles(paper.reader.outline)
    assert outline[0] == document.title
    expected = [f"{s.number} {s.title}".strip() for s in document.sections[1:]]
    assert [entry for entry in outline[1] if isinstance(entry, str)] == expected
    assert outline[1][1] == ["1.1 Bed prep", "1.2 Edging", "1.3 Material"]


def test_only_our_fonts_and_all_of_them_inside(sample: tuple[Document, Paper]) -> None:
    names = set()
    for page in sample[1].reader.pages:
        for font in page["/Resources"]["/Font"].values():
            descendant = font["/DescendantFonts"][0].get_object()
            descriptor = descendant["/FontDescriptor"].get_object()
            assert any(key in descriptor for key in ("/FontFile", "/FontFile2", "/FontFile3"))
            assert "/ToUnicode" in font
            names.add(str(font["/BaseFont"]).partition("+")[2])
    faces = {"Serif-Semi-Bold", "Sans", "Sans-Semi-Bold", "Sans-Bold", "Field"}
    assert names == {f"Scopegen{face}" for face in faces}


@pytest.mark.parametrize(("seed", "zone"), [("0", "Pacific/Auckland"), ("4711", "America/Anchorage")])
def test_the_same_document_gives_the_same_bytes_in_another_process(seed: str, zone: str) -> None:
    program = (
        "import hashlib, sys; sys.path[:0] = sys.argv[1:3]; from sample import agreement; from "
        "scopegen.render import to_html, to_pdf; document = agreement(10, 'A4', 'DRAFT'); "
        "print(hashlib.sha256(to_pdf(document)).hexdigest(), "
        "hashlib.sha256(to_html(document).encode()).hexdigest())"
    )
    here = Path(__file__).parent
    run = subprocess.run(
        [sys.executable, "-c", program, str(here), str(here.parents[1])],
        env={**os.environ, "PYTHONHASHSEED": seed, "TZ": zone, "HOME": "/nonexistent"},
        capture_output=True,
        text=True,
        check=True,
    )
    from scopegen.render import to_html

    name = "10 beds, A4, draft"
    expected = [drawn(name).content, to_html(SAMPLES[name]).encode()]
    assert run.stdout.split() == [hashlib.sha256(content).hexdigest() for content in expected]
    assert run.stderr == ""


def test_drawing_twice_gives_the_same_bytes() -> None:
    assert to_pdf(SAMPLES["3 beds, Letter"]) == drawn("3 beds, Letter").content
