"""`scopegen open`: whether a paper still leads to the same paper, and what is no longer as it was."""

from __future__ import annotations

import io
from collections.abc import Callable
from pathlib import Path

import pytest
from PIL import Image, ImageOps
from pypdf import PdfReader, PdfWriter
from pypdf.annotations import FreeText
from pypdf.generic import ArrayObject, FloatObject, NameObject, NumberObject, StreamObject

from scopegen import record

from .pdfs import EXAMPLES, run, with_content, workspace, written

SAME = "It leads to the same paper, byte for byte."
ADDED = "It leads to the same paper. Something was added to the file since: filled in, or signed."
ANEW = (
    "What travels inside leads to the same paper, but the PDF was written anew by another program: its"
    " pages may show something else. Lay them beside a paper that you write today."
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A contractor's folder with a paper in it."""
    space = workspace(tmp_path / "jobs")
    (space / "paper.pdf").write_bytes(written())
    return space


@pytest.fixture
def alone(tmp_path: Path) -> Path:
    """A folder with a paper and nothing that it was made from, so that none is made again."""
    (tmp_path / "alone").mkdir()
    (tmp_path / "alone" / "paper.pdf").write_bytes(written())
    return tmp_path / "alone"


@pytest.mark.parametrize(
    ("job", "options"),
    [
        ("tern-court", ()),
        ("cedar-row", ()),
        ("quarry-lane", ("--draft",)),
        ("heron-bend", ("--signed-on", "2027-03-23")),
        ("quarry-lane", ("--draft", "--dated", "2027-03-30")),
    ],
)
@pytest.mark.usefixtures("drawn_each_time")
def test_paper_leads_to_the_same_paper(folder: Path, job: str, options: tuple[str, ...]) -> None:
    """Every example, a draft, a day of signing and another date: byte for byte."""
    (folder / "paper.pdf").write_bytes(written(job, *options))
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (0, SAME)
    assert (folder / "paper" / f"{job}.yaml").read_bytes() == (EXAMPLES / f"{job}.yaml").read_bytes()


def test_what_it_says(folder: Path) -> None:
    """Where the files went, the mark of the pages' end, the date and the total."""
    result = run("open", folder / "paper.pdf")
    first, second, third = result.stdout.splitlines()
    assert (
        first
        == f"Took cedar-row.yaml and resolved.json out of {folder / 'paper.pdf'}, into {folder / 'paper'}"
    )
    taken = (folder / "paper" / "resolved.json").read_bytes()
    assert second == f"Mark {record.mark_of(taken)}, dated 2027-04-07, total {priced('cedar-row')}"
    assert third == SAME
    text = "".join(page.extract_text() for page in PdfReader(folder / "paper.pdf").pages)
    assert record.mark_of(taken) in text


def priced(job: str) -> str:
    import json

    return str(json.loads(run("price", EXAMPLES / f"{job}.yaml", "--json").stdout)["total"])


def changed(path: Path, old: str, new: str) -> None:
    text = path.read_text(encoding="utf-8")
    assert old in text
    path.write_text(text.replace(old, new), encoding="utf-8")


def change_chart(folder: Path) -> None:
    chart = folder / "prices-2027.yaml"
    chart.write_text(chart.read_text(encoding="utf-8") + "# looked at again\n", encoding="utf-8")


def dearer(folder: Path) -> None:
    chart = folder / "prices-2027.yaml"
    changed(chart, "worker_hour: ", "worker_hour: 1")


def change_company(folder: Path) -> None:
    company = folder / "company.yaml"
    changed(company, "phone: ", "phone: 1 ")


def change_company_unprinted(folder: Path) -> None:
    """What only papers in another language say."""
    changed(folder / "company.yaml", "es: registro ", "es: registro número ")


def add_clause(folder: Path) -> None:
    own = folder / "clauses" / "terms"
    own.mkdir(parents=True, exist_ok=True)
    text = "clause: terms.payment\nreplaces: parts\nwording: [{season: 2027, en: {says: We are paid.}}]\n"
    (own / "payment.yaml").write_text(text, encoding="utf-8")


def add_term(folder: Path) -> None:
    own = folder / "clauses" / "terms" / "our-dogs.yaml"
    own.parent.mkdir(parents=True, exist_ok=True)
    text = "clause: terms.our-dogs\ntitle: {en: Dogs}\nwording: [{season: 2027, en: {says: We have dogs.}}]\n"
    own.write_text(text, encoding="utf-8")


def name_known_work(folder: Path) -> None:
    text = "clause: edging.metal-edging\nreplaces: parts\nname_if_absent: {en: steel edges}\n"
    own = folder / "clauses" / "edging" / "metal-edging.yaml"
    own.write_text(text + "wording: [{season: 2027, en: {included: We set it.}}]\n", encoding="utf-8")


def turn_photo(folder: Path) -> None:
    photo = sorted((folder / "photos").iterdir())[0]
    with Image.open(photo) as picture:
        ImageOps.mirror(picture).save(photo)


@pytest.mark.parametrize(
    ("change", "said"),
    [
        (change_chart, "- prices-2027.yaml is not as it was"),
        (dearer, "- prices-2027.yaml is not as it was"),
        (change_company, "- company.yaml is not as it was"),
        (change_company_unprinted, "- company.yaml is not as it was"),
        (add_clause, "- the clause terms.payment is not as it was"),
        (add_term, "- the clause terms.our-dogs is not as it was"),
        (name_known_work, "- the list of what is not in the price is not as it was"),
        (turn_photo, "- the photo photos/drive-strip-edge.jpg is not as it was"),
    ],
)
def test_changed_input_is_named(folder: Path, change, said: str) -> None:
    """Each file that a paper is made from, changed since, and no other."""
    change(folder)
    result = run("open", folder / "paper.pdf")
    lines = result.stdout.splitlines()
    assert (result.exit_code, lines[2], lines[3]) == (1, "It leads to another paper:", said)
    says_the_same = change in (change_chart, change_company_unprinted)
    assert lines[5:] == (
        ["- by its record, all that its pages say is as it was, but for the mark"] if says_the_same else []
    )
    total = priced("cedar-row")
    if change is dearer:
        assert lines[4].startswith(f"- the total was {total}, and is ")
    else:
        assert lines[4] == f"- the total is {total}, as it was"


def test_another_program_version_is_named(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    before = record.__version__
    monkeypatch.setattr(record, "__version__", "99.0.0")
    lines = run("open", folder / "paper.pdf").stdout.splitlines()
    assert lines[3] == f"- it was made by scopegen {before}"


def test_job_changed_inside_is_named(folder: Path) -> None:
    """The job description inside a paper was changed, its record was not."""
    job = (EXAMPLES / "cedar-row.yaml").read_bytes().replace(b"job: ", b"job: Other ", 1)
    (folder / "paper.pdf").write_bytes(with_content("/Source", job))
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[3]) == (1, "- cedar-row.yaml is not as it was")


def test_job_in_the_folder_may_be_gone_or_changed(folder: Path) -> None:
    """The job description is the one inside the paper; what now has its name does not matter."""
    changed(folder / "cedar-row.yaml", "job: ", "job: Other ")
    assert run("open", folder / "paper.pdf").exit_code == 0
    (folder / "cedar-row.yaml").unlink()
    assert run("open", folder / "paper.pdf").exit_code == 0


def test_something_stops_it(folder: Path) -> None:
    """The chart of the season is gone, or no text any more."""
    chart = folder / "prices-2027.yaml"
    chart.write_bytes(b"\xff\xfe")
    for _ in range(2):
        result = run("open", folder / "paper.pdf")
        assert result.exit_code == 1 and "It leads to no paper today" in result.stdout
        chart.unlink(missing_ok=True)


def filled(content: bytes, **options) -> bytes:
    """A paper with its first line filled in, as pypdf does it."""
    writer = PdfWriter(io.BytesIO(content), **options)
    if not options:
        writer = PdfWriter(clone_from=io.BytesIO(content))
    page = next(page for page in writer.pages if "/Annots" in page)
    names = [note.get_object().get("/T") for note in page["/Annots"]]
    name = next(name for name in names if name and name.endswith(("_initials", "_date", "_text")))
    writer.update_page_form_field_values(page, {name: "R. Q."}, auto_regenerate=False)
    out = io.BytesIO()
    writer.write(out)
    return out.getvalue()


def test_what_is_written_for_later_seasons_changes_no_old_paper(folder: Path) -> None:
    """A clause sharpened from 2028 on, one no longer used from then on, and one that no job here takes."""
    own = folder / "clauses"
    for name, text in (
        ("terms/payment", "replaces: parts\nwording: [{season: 2028, en: {says: We are paid.}}]"),
        ("terms/offer", "no_longer: {season: 2028, because: nobody asked}"),
        ("edging/brick", "title: {en: Brick}\ndecides: edging\nways: [included]\n"
         "wording: [{season: 2027, en: {included: Brick.}}]"),
    ):  # fmt: skip
        path = own / f"{name}.yaml"
        path.write_text(f"clause: {name.replace('/', '.')}\n{text}\n", encoding="utf-8")
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (0, SAME)


def test_filled_in_and_written_anew(folder: Path) -> None:
    """The files inside are whole; the bytes are another program's."""
    content = filled(written())
    assert content != written() and not content.startswith(written())
    (folder / "paper.pdf").write_bytes(content)
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (1, ANEW)


def test_filled_in_behind_its_end(folder: Path) -> None:
    """As signatures are added too: what was there stays, byte for byte (ISO 32000-1, 7.5.6)."""
    content = filled(written(), incremental=True)
    assert content.startswith(written()) and len(content) > len(written())
    (folder / "paper.pdf").write_bytes(content)
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (0, ADDED)


CHANGED = "It begins with the same paper, but something was added to the file's end since that changes"


def updated(change: Callable[[PdfWriter], None]) -> bytes:
    """The paper with an addition to its end."""
    writer = PdfWriter(io.BytesIO(written()), incremental=True)
    change(writer)
    out = io.BytesIO()
    writer.write(out)
    assert out.getvalue().startswith(written())
    return out.getvalue()


def another_price(writer: PdfWriter) -> None:
    page = writer.pages[0]
    stream = StreamObject()
    stream.set_data(b"BT /F1 30 Tf 60 500 Td (Price 1.00, no other terms) Tj ET")
    page[NameObject("/Contents")] = writer._add_object(stream)


def note_over_the_price(writer: PdfWriter) -> None:
    writer.add_annotation(0, FreeText(text="Price 1.00", rect=(50, 550, 250, 650)))


def field_moved_over_the_price(writer: PdfWriter) -> None:
    page = next(page for page in writer.pages if page.get("/Annots"))
    field = page["/Annots"][0].get_object()
    field[NameObject("/Rect")] = ArrayObject([FloatObject(n) for n in (50, 550, 250, 650)])


def page_less(writer: PdfWriter) -> None:
    pages = writer.root_object["/Pages"]
    pages["/Kids"].pop(1)
    pages[NameObject("/Count")] = NumberObject(len(pages["/Kids"]))


def font_of_other_figures(writer: PdfWriter) -> None:
    fonts = writer.pages[0]["/Resources"]["/Font"]
    first, *others = sorted(fonts)
    fonts[NameObject(others[0])] = fonts.raw_get(first)


@pytest.mark.parametrize(
    "change",
    [another_price, note_over_the_price, field_moved_over_the_price, page_less, font_of_other_figures],
)
def test_pages_changed_behind_the_end_are_told(folder: Path, change: Callable[[PdfWriter], None]) -> None:
    """The bytes before are as they were written, and the pages show something else."""
    (folder / "paper.pdf").write_bytes(updated(change))
    result = run("open", folder / "paper.pdf")
    assert result.exit_code == 1
    assert result.stdout.splitlines()[-1].startswith(CHANGED)


@pytest.mark.parametrize("more", [b"\x00\xffrubbish" * 100, b"%%EOF\n" * 3])
def test_rubbish_behind_the_end_is_no_signature(folder: Path, more: bytes) -> None:
    """It shows nowhere, but what cannot be read is not taken for a paper."""
    (folder / "paper.pdf").write_bytes(written() + more)
    result = run("open", folder / "paper.pdf")
    assert result.exit_code in (0, 1)
    assert (ADDED in result.stdout) is (result.exit_code == 0)


def test_file_in_it_is_replaced_behind_its_end(folder: Path) -> None:
    """A record put over the first one by an addition is not taken for the same paper."""
    writer = PdfWriter(io.BytesIO(written()), incremental=True)
    files = {str(file.name): file for file in writer.attachment_list}
    stream = files["resolved.json"]._embedded_file
    stream.set_data(stream.get_data().replace(b'"draft": false', b'"draft": true'))
    out = io.BytesIO()
    writer.write(out)
    assert out.getvalue().startswith(written())
    (folder / "paper.pdf").write_bytes(out.getvalue())
    result = run("open", folder / "paper.pdf")
    assert result.exit_code == 1 and ADDED not in result.stdout


def test_paper_far_from_its_folder(folder: Path, tmp_path: Path) -> None:
    """It says that it cannot tell; with the folder named, it can."""
    away = tmp_path / "mail" / "paper.pdf"
    away.parent.mkdir()
    away.write_bytes(written())
    result = run("open", away)
    assert result.exit_code == 1
    assert "there is no company.yaml in" in result.stdout and "--workspace" in result.stdout
    assert run("open", away, "--workspace", folder).stdout.splitlines()[-1] == SAME


def test_what_is_there_is_kept(alone: Path) -> None:
    """A file that says something else is written over only where that is asked for; no other is touched."""
    there = alone / "taken"
    there.mkdir()
    (there / "resolved.json").write_text("mine")
    result = run("open", alone / "paper.pdf", "--to", there)
    assert result.exit_code == 3 and "--replace" in result.stderr
    assert {each.name: each.read_text() for each in there.iterdir()} == {"resolved.json": "mine"}
    assert run("open", alone / "paper.pdf", "--to", there, "--replace").exit_code == 1
    assert (there / "resolved.json").read_bytes().startswith(b"{")
    assert run("open", alone / "paper.pdf", "--to", there).stderr == ""


@pytest.mark.parametrize("name", ["paper", ".pdf", "..pdf", "a.b.pdf", "...."])
def test_folder_beside_a_paper_of_any_name(alone: Path, name: str) -> None:
    """The folder never has the paper's own name."""
    (alone / "paper.pdf").rename(alone / name)
    result = run("open", alone / name)
    assert result.exit_code == 1 and result.stdout.startswith("Took "), result.output
    assert (alone / name).read_bytes() == written()
    assert len(list(alone.iterdir())) == 2


def test_folder_that_cannot_be_written_into(folder: Path) -> None:
    """A file or a device in its place: one sentence, exit code 3."""
    (folder / "taken").write_text("a file")
    for place in (folder / "taken", Path("/dev/null")):
        result = run("open", folder / "paper.pdf", "--to", place)
        assert result.exit_code in (2, 3) and len(result.stderr.splitlines()) <= 4
    (folder / "other" / "resolved.json").mkdir(parents=True)
    for replace in ((), ("--replace",)):
        result = run("open", folder / "paper.pdf", "--to", folder / "other", *replace)
        assert result.exit_code == 3 and "other" in result.stderr


def test_job_called_like_the_record(folder: Path) -> None:
    """Both travel inside and are told apart."""
    (folder / "cedar-row.yaml").rename(folder / "resolved.json")
    (folder / "paper.pdf").unlink()  # that of another job by now
    assert run("write", "agreement", folder / "resolved.json", "-o", folder / "paper.pdf").exit_code == 0
    result = run("open", folder / "paper.pdf")
    assert (result.exit_code, result.stdout.splitlines()[-1]) == (0, SAME)
    assert sorted(each.name for each in (folder / "paper").iterdir()) == [
        "record-of-resolved.json",
        "resolved.json",
    ]


def test_job_with_a_byte_order_mark_and_other_line_ends(folder: Path) -> None:
    """What travels inside is the file itself, not what was made of it."""
    job = folder / "cedar-row.yaml"
    job.write_bytes(b"\xef\xbb\xbf" + job.read_bytes().replace(b"\n", b"\r\n"))
    assert run("write", "agreement", job, "-o", folder / "paper.pdf").exit_code == 0
    assert run("open", folder / "paper.pdf").exit_code == 0
    assert (folder / "paper" / "cedar-row.yaml").read_bytes() == job.read_bytes()
