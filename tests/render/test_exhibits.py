"""Drawings and photographs on the paper: to scale, told in words, with nothing from outside."""

from __future__ import annotations

import re
from io import BytesIO
from pathlib import Path

import pdfplumber
import pikepdf
import pytest
from PIL import Image

from scopegen.build import open_case
from scopegen.papers.agreement import compose
from scopegen.papers.document import Document, Figures, Photos, walk
from scopegen.papers.frame import frame_of
from scopegen.render import to_html, to_pdf
from scopegen.words import lexicon

EXAMPLES = Path(__file__).parents[2] / "example_scopes"


@pytest.fixture(scope="module")
def document() -> Document:
    return compose(frame_of(open_case(EXAMPLES / "cedar-row.yaml"), lexicon("en")))


@pytest.fixture(scope="module")
def pdf(document: Document) -> bytes:
    return to_pdf(document)


def told(document: Document) -> list[str]:
    """What a screen reader says of each drawing and photograph, in their order."""
    words = []
    for _, block in walk(document):
        if isinstance(block, Figures):
            words += [figure.drawing.told for row in block.rows for figure in row]
        if isinstance(block, Photos):
            words += [photo.told for photo in block.entries]
    return words


def structure(pdf: bytes, kind: str) -> list[pikepdf.Dictionary]:
    with pikepdf.open(BytesIO(pdf)) as file:
        return [
            each for each in file.objects
            if isinstance(each, pikepdf.Dictionary) and each.get("/S") == f"/{kind}" and "/P" in each
        ]  # fmt: skip


def test_every_figure_is_told_in_words(document: Document, pdf: bytes) -> None:
    """Each drawing and photograph has its sentences as alternative text, in sizes and edges."""
    with pikepdf.open(BytesIO(pdf)) as file:
        figures = [
            str(each["/Alt"])
            for each in file.objects
            if isinstance(each, pikepdf.Dictionary) and each.get("/S") == "/Figure"
        ]
    expected = told(document)
    assert len(expected) == 7  # four beds, the lines, two photographs
    assert sorted(figures) == sorted(expected)
    assert "Photograph of Drive strip: grass and weeds have grown into the bed." in figures
    assert "Photograph of Drive strip: edge missing, heavy weeds, old mulch 2 in deep." in figures
    assert any("a strip, 96 ft long and 4 ft wide" in words for words in figures)


def test_printed_line_is_as_long_as_its_scale_says(pdf: bytes) -> None:
    """96 ft at 1 in = 20 ft are 345.6 points on the page: nothing scales a drawing on its way there."""
    spans = []
    with pikepdf.open(BytesIO(pdf)) as file:
        for page in file.pages:
            spans += _level_lines(page)
    assert any(abs(length - 345.6) < 0.05 for length in spans), sorted(spans)[-5:]


def _level_lines(page: pikepdf.Page) -> list[float]:
    """The lengths in points of level lines that are drawn, under the transformations in force."""
    lengths, stack, matrix, start = [], [], pikepdf.Matrix(), (0.0, 0.0)
    for operands, operator in pikepdf.parse_content_stream(page):
        match str(operator):
            case "q":
                stack.append(matrix)
            case "Q":
                matrix = stack.pop()
            case "cm":
                matrix = pikepdf.Matrix(*map(float, operands)) @ matrix
            case "m" | "l":
                point = matrix.transform(tuple(map(float, operands)))
                if str(operator) == "l" and abs(point[1] - start[1]) < 0.01:
                    lengths.append(abs(point[0] - start[0]))
                start = point
    return lengths


def test_photographs_are_plain_pictures(pdf: bytes) -> None:
    """JPEG in RGB, with nothing of where it was taken."""
    with pikepdf.open(BytesIO(pdf)) as file:
        images = [
            each for each in file.objects
            if isinstance(each, pikepdf.Stream) and each.get("/Subtype") == "/Image"
        ]  # fmt: skip
        assert len(images) == 2
        for image in images:
            assert image["/Filter"] == "/DCTDecode" or list(image["/Filter"]) == ["/DCTDecode"]
            assert image["/ColorSpace"] == "/DeviceRGB"
            assert b"Exif" not in image.read_raw_bytes()


def test_html_holds_its_pictures(document: Document) -> None:
    """The file on a screen shows the same figures, and asks for none of them."""
    page = to_html(document)
    assert len(re.findall("<svg ", page)) == 5
    sources = re.findall(r'src="([^"]{0,40})', page)
    assert len(sources) == 2 and all(source.startswith("data:image/jpeg;base64,") for source in sources)
    assert not re.search(r"(https?|file|ftp):", page)


def test_names_in_drawings_are_text(tmp_path: Path) -> None:
    """Mark-up in the name of a part or of what lies beside is printed as it stands."""
    for name in ("company.yaml", "prices-2027.yaml"):
        (tmp_path / name).write_text((EXAMPLES / name).read_text("utf-8"), "utf-8")
    text = (EXAMPLES / "heron-bend.yaml").read_text("utf-8")
    text = text.replace("shade end", "</title><b>shade").replace("{patio:", "{'<script>x</script>':")
    (tmp_path / "job.yaml").write_text(text, "utf-8")
    page = to_html(compose(frame_of(open_case(tmp_path / "job.yaml"), lexicon("en"))))
    assert "<b>" not in page and "<script>" not in page
    assert "&lt;/title&gt;&lt;b&gt;shade" in page and "&lt;script&gt;" in page


def test_a_tall_photograph_stays_on_its_page_with_its_words(tmp_path: Path) -> None:
    """However high it is, it ends above the foot, and its title and its line are on the same page."""
    for name in ("company.yaml", "prices-2027.yaml"):
        (tmp_path / name).write_text((EXAMPLES / name).read_text("utf-8"), "utf-8")
    for name, size in (("tall.jpg", (1000, 3200)), ("thin.png", (32, 20_000))):
        Image.new("RGB", size, "darkgreen").save(tmp_path / name)
    text = (EXAMPLES / "heron-bend.yaml").read_text("utf-8")
    photos = "    photos: [{file: tall.jpg, shows: THE TALL ONE}, thin.png]\n"
    text = text.replace("  - name: Front walk\n", f"  - name: Front walk\n{photos}", 1)
    (tmp_path / "job.yaml").write_text(text, "utf-8")
    paper = to_pdf(compose(frame_of(open_case(tmp_path / "job.yaml"), lexicon("en"))))
    with pdfplumber.open(BytesIO(paper)) as pdf:
        shown = [(page, image) for page in pdf.pages for image in page.images]
        assert len(shown) == 2
        for page, image in shown:
            assert image["top"] > 53 and image["bottom"] < page.height - 72
            assert image["x0"] > 53 and image["x1"] < page.width - 53
            assert "THE TALL ONE" in page.extract_text()
