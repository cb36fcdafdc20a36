"""Every word of a document stands on the paper, in its order, and nothing in it is taken for mark-up."""

from collections.abc import Iterator
from dataclasses import replace

from scopegen.papers.document import Document, Masthead, Paragraph, Section, Table, text_of
from scopegen.render import to_html, to_pdf

from .paper import FOOT, Paper, squeezed
from .sample import agreement, bed_name

HOSTILE = '<b>bold</b> &amp; <img src="file:///etc/hostname"> {{ 7*7 }} {% raw %} "; } @import "x"; \\41 */'


def texts(document: Document) -> Iterator[str]:
    yield from (document.masthead.name, *document.masthead.lines, document.title, document.subtitle)
    for section in document.sections:
        yield from section_texts(section)


def section_texts(section: Section) -> Iterator[str]:
    if section.role != "front":
        yield f"{section.number} {section.title}"
    for block in section.blocks:
        if isinstance(block, Section):
            yield from section_texts(block)
        elif isinstance(block, Table) and not block.show_caption:
            yield from list(text_of(block))[1:]
        else:
            yield from text_of(block)


def test_every_text_is_there_in_its_order(sample: tuple[Document, Paper]) -> None:
    document, paper = sample
    body = squeezed("".join(piece.text for piece in paper.body))
    place, seen = 0, 0
    for text in texts(document):
        place = body.find(squeezed(text), place)
        assert place >= 0, text
        place += len(squeezed(text))
        seen += 1
    assert seen > 100


def test_each_page_has_its_foot(sample: tuple[Document, Paper]) -> None:
    document, paper = sample
    count = len(paper.reader.pages)
    for number in range(1, count + 1):
        foot = [p.text for p in paper.pieces if p.page == number and p.y < FOOT]
        draft = [f"{document.draft}\u00a0"] if document.draft else []
        expected = [document.running_head, *draft, f"Page {number} of {count}"]
        assert squeezed("".join(foot)) == squeezed("".join(expected))


def test_a_draft_says_so_large_behind_the_text_of_every_page(paper) -> None:
    """The large word is drawn before any text, so that it covers none; only a draft has it."""
    light = b"0.929412 0.929412 0.929412 rg"  # ed hexadecimal, of 255
    for name, expected in (("10 beds, A4, draft", True), ("10 beds, A4", False)):
        for page in paper(name).reader.pages:
            forms = page["/Resources"].get("/XObject", {})
            drawn = [form.get_object().get_data() for form in forms.values()]
            drawn += [p.get_object().get_data() for p in page["/Resources"].get("/Pattern", {}).values()]
            content = page.get_contents().get_data()
            first_text = content.index(b"BT")
            assert (light in content[:first_text] or any(light in d for d in drawn)) is expected


def test_the_scope_table_has_its_header_on_every_page(paper) -> None:
    forty = paper("40 beds, Letter")
    labels = ["Bed", "Material", "Bed prep", "Edging", "Debris", "Ground underneath"]
    last = forty.find(bed_name(39))[-1].page
    assert last >= 3
    for page in forty.pages[1:last]:
        assert [piece.text for piece in page[:6]] == labels


def test_mark_up_in_a_text_is_printed_as_it_stands() -> None:
    document = replace(
        agreement(),
        title=HOSTILE,
        subtitle=HOSTILE,
        running_head=HOSTILE,
        masthead=Masthead(HOSTILE, (HOSTILE,)),
        sections=(Section(HOSTILE, HOSTILE, (Paragraph(HOSTILE, lead_in=HOSTILE),)),),
    )
    paper = Paper(to_pdf(document))
    everything = squeezed("".join(piece.text for piece in paper.pieces))
    assert everything.count(squeezed(HOSTILE)) == 8
    assert paper.reader.metadata.title == HOSTILE
    page = to_html(document)
    assert "<b>" not in page and "<img" not in page and "{{ 7*7 }}" in page
    assert page.count("</style>") == 1
