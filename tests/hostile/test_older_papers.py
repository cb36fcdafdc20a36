"""What stands at a paper's place: an older paper of the same job may go, a signed one and all others stay."""

from __future__ import annotations

import io
import os
import random
import subprocess
import sys
import unicodedata
from collections.abc import Callable
from pathlib import Path

import pikepdf
import pytest

import scopegen.render
from scopegen.cli.ending import Exit
from scopegen.cli.paper import make, put
from scopegen.cli.targets import Order, Wanted
from scopegen.kept import Kept
from scopegen.papers.comparison import compose
from scopegen.render import to_pdf
from scopegen.reopen import MOST_BYTES
from scopegen.standing import Standing, standing
from scopegen.words import lexicon
from tests.jobs import example, laid
from tests.reopen.pdfs import entries, run, saved, written
from tests.reopen.test_same_paper import filled

ROOT = Path(__file__).parents[2]
OR = "Name another file with -o, or delete it first."
OR_AWAY = "Name another file with -o, or move this one away first."
TOUCHED = "was filled in or signed since it was written, or saved by another program, and is kept."
COMPARISON = to_pdf(compose((), 2027, 2028, lexicon("en")))


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    """A contractor's folder with two jobs, `oak` and `elm`."""
    laid(tmp_path, "").unlink()
    for name in ("oak", "elm"):
        (tmp_path / f"{name}.yaml").write_text(example(), encoding="utf-8")
    return tmp_path


def write(folder: Path, job: str, paper: str, *more: str) -> tuple[int, str]:
    result = run("write", "agreement", folder / f"{job}.yaml", "-o", folder / paper, *more)
    return result.exit_code, result.stderr.replace(f"{folder}{os.sep}", "")


def compare(folder: Path, paper: str) -> tuple[int, str]:
    result = run("clauses", "compare", "2027", "2028", "--in", folder, "--pdf", folder / paper)
    return result.exit_code, result.stderr.replace(f"{folder}{os.sep}", "")


@pytest.mark.parametrize("kind", ["pdf", "html"])
def test_paper_of_another_job_stays(folder: Path, kind: str) -> None:
    """Which job's paper stands there is said, and what to do; the job's own takes its place, a draft too."""
    paper = folder / f"oak-agreement.{kind}"
    assert write(folder, "oak", paper.name)[0] == 0
    before = paper.read_bytes()
    said = f"{paper.name} is there already: the agreement of oak.yaml. {OR}"
    assert write(folder, "elm", paper.name) == (3, f"{said}\n")
    assert write(folder, "elm", paper.name, "--draft") == (3, f"{said}\n")
    assert compare(folder, paper.name) == (3, f"{said.replace('-o', '--pdf')}\n")
    assert paper.read_bytes() == before
    for more in (["--draft"], ["--dated", "2027-03-22"]):
        assert write(folder, "oak", paper.name, *more) == (0, "")
        assert paper.read_bytes() != before
        before = paper.read_bytes()
    paper.unlink()
    assert write(folder, "elm", paper.name)[0] == 0


def test_comparison_takes_the_place_of_a_comparison_alone(folder: Path) -> None:
    """And no agreement takes its place."""
    assert compare(folder, "changes.pdf") == (0, "")
    assert compare(folder, "changes.pdf") == (0, "")
    said = f"changes.pdf is there already: a comparison. {OR}\n"
    assert write(folder, "oak", "changes.pdf") == (3, said)
    assert standing((folder / "changes.pdf").read_bytes()) == Standing("comparison", "", True)


def with_a_signature(content: bytes) -> bytes:
    """As an addition that nobody can read any more."""
    return content + b"9 0 obj\n<</Type /Sig>>\nendobj\nstartxref\n9\n%%EOF\n"


@pytest.mark.parametrize(
    "change",
    [
        lambda content: filled(content, incremental=True),
        filled,
        with_a_signature,
        lambda content: content + b"\n",
        lambda content: content + content,
    ],
    ids=["filled in behind its end", "filled in and written anew", "signed", "a line more", "twice"],
)
def test_paper_that_was_filled_in_or_signed_stays(folder: Path, change: Callable[[bytes], bytes]) -> None:
    """A signed paper is not lost to a newer one of the same job, nor of another, nor to a comparison."""
    paper = folder / "oak-agreement.pdf"
    assert write(folder, "oak", paper.name)[0] == 0
    after = change(paper.read_bytes())
    paper.write_bytes(after)
    said = f"{paper.name}, the agreement of oak.yaml, {TOUCHED} {OR_AWAY}"
    assert write(folder, "oak", paper.name) == (3, f"{said}\n")
    assert write(folder, "elm", paper.name) == (3, f"{said}\n")
    assert compare(folder, paper.name) == (3, f"{said.replace('-o', '--pdf')}\n")
    assert paper.read_bytes() == after


@pytest.mark.parametrize(
    "change",
    [
        lambda content: content.replace(b"initials", b"initialed"),
        lambda content: content.replace(b"\n", b"\r\n", 1),
        lambda content: content + b"<p>Signed: R. Q.",
        lambda content: content[:-1],
        lambda content: content[: content.rindex(b"<!-- sha256")],
    ],
    ids=["text", "a line end", "a line more", "cut short", "without its last line"],
)
def test_page_that_was_changed_stays(folder: Path, change: Callable[[bytes], bytes]) -> None:
    """In HTML any change at all shows by its last line; with another head it is no paper."""
    paper = folder / "oak-agreement.html"
    assert write(folder, "oak", paper.name)[0] == 0
    after = change(paper.read_bytes())
    assert after != paper.read_bytes()
    paper.write_bytes(after)
    code, said = write(folder, "oak", paper.name)
    assert (code, paper.read_bytes()) == (3, after)
    assert TOUCHED in said or "is no paper of scopegen" in said


def another_pdf() -> bytes:
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        return saved(pdf)


@pytest.mark.parametrize(
    "content", [b"%PDF-1.7\nmine", b"%PDF-", another_pdf()], ids=["text", "start", "page"]
)
def test_pdf_of_another_program_stays(folder: Path, content: bytes) -> None:
    (folder / "plan.pdf").write_bytes(content)
    said = f"plan.pdf is there already, and is no paper of scopegen. {OR}\n"
    assert write(folder, "oak", "plan.pdf") == (3, said)
    assert compare(folder, "plan.pdf") == (3, said.replace("-o", "--pdf"))
    assert (folder / "plan.pdf").read_bytes() == content


def test_pdf_that_is_too_large_to_be_looked_at_stays(folder: Path) -> None:
    """No more of it is read than of a paper that comes back."""
    with (folder / "plan.pdf").open("wb") as file:
        file.write(b"%PDF-1.7\n")
        file.truncate(MOST_BYTES + 1)
    code, said = write(folder, "oak", "plan.pdf")
    assert code == 3 and "is no paper of scopegen" in said
    assert (folder / "plan.pdf").stat().st_size == MOST_BYTES + 1


def test_job_is_known_by_its_place(folder: Path) -> None:
    """Jobs of one name in two folders are two; one that is named by a link, or spelled otherwise, is one."""
    for season in ("spring", "fall"):
        (folder / season).mkdir()
        (folder / season / "oak.yaml").write_text(example(), encoding="utf-8")
    assert write(folder, "spring/oak", "a.html")[0] == 0
    said = f"a.html is there already: the agreement of spring/oak.yaml. {OR}\n"
    assert write(folder, "fall/oak", "a.html") == (3, said)
    assert write(folder, "oak", "a.html") == (3, said)
    (folder / "same.yaml").symlink_to(folder / "spring" / "oak.yaml")
    assert write(folder, "same", "a.html") == (0, "")
    composed, apart = (unicodedata.normalize(form, 'caf\u00e9 "&amp;') for form in ("NFC", "NFD"))
    for name in (composed, apart):
        (folder / f"{name}.yaml").write_text(example(), encoding="utf-8")
        assert write(folder, name, "b.html") == (0, "")


def order(folder: Path, kind: str) -> Order:
    return Order(folder / "oak.yaml", folder / f"paper.{kind}", kind, Wanted())


@pytest.mark.parametrize("kind", ["pdf", "html"])
@pytest.mark.parametrize("there", [True, False])
def test_what_comes_meanwhile_stays(folder: Path, kind: str, there: bool) -> None:
    """When the paper is ready, what stands at its place is looked at once more, where it changed."""
    wanted = order(folder, kind)
    if there:
        assert put(make(wanted, Kept())).code is Exit.FINE
    made = make(wanted, Kept())
    assert made.data is not None
    signed = filled(written(), incremental=True)
    wanted.path.write_bytes(signed)
    after = put(made)
    assert (after.code, wanted.path.read_bytes()) == (Exit.CANNOT_WRITE, signed)
    assert f"the agreement of cedar-row.yaml, {TOUCHED}" in after.said
    wanted.path.unlink()
    assert put(made).code is Exit.FINE


def test_what_comes_while_a_comparison_is_made_stays(folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    def made_while_another_comes(document: object) -> bytes:
        (folder / "changes.pdf").write_bytes(written())
        return COMPARISON

    monkeypatch.setattr(scopegen.render, "to_pdf", made_while_another_comes)
    code, said = compare(folder, "changes.pdf")
    assert code == 3 and "changes.pdf is there already: the agreement of cedar-row.yaml." in said
    assert (folder / "changes.pdf").read_bytes() == written()


def test_of_several_jobs_the_others_are_written(folder: Path) -> None:
    """The one whose place is taken is reported as not written, and why."""
    papers = folder / "papers"
    papers.mkdir()
    assert write(folder, "elm", "papers/oak-agreement.html")[0] == 0
    before = (papers / "oak-agreement.html").read_bytes()
    for at_once in ("1", "2"):
        result = run("write", "agreement", folder, "-o", papers, "--as", "html", "--at-once", at_once)
        assert result.exit_code == 3
        assert f"Wrote {papers / 'elm-agreement.html'}\n" in result.stdout
        taken = f"{papers / 'oak-agreement.html'} is there already: the agreement of elm.yaml. {OR}"
        lines = ["1 written, 1 not written:", f"  {folder / 'oak.yaml'}", f"    {taken}"]
        assert result.stderr.splitlines() == lines
    assert (papers / "oak-agreement.html").read_bytes() == before


@pytest.mark.parametrize(
    ("job", "options"),
    [
        ("heron-bend", ()),
        ("cedar-row", ()),
        ("tern-court", ()),
        ("garza-lane", ()),
        ("quarry-lane", ("--draft",)),
    ],
)
def test_what_was_just_written_is_known(job: str, options: tuple[str, ...]) -> None:
    """Agreements and drafts of every example, with photographs, in Spanish, with many beds."""
    content = written(job, *options)
    assert standing(content) == Standing("agreement", f"{job}.yaml", True)
    assert standing(filled(content)) == Standing("agreement", f"{job}.yaml", False)


def test_same_place_in_both_kinds_of_file(folder: Path) -> None:
    """A page takes the place of a PDF of its job, under a name that says neither."""
    for kind in ("pdf", "html", "pdf"):
        assert write(folder, "oak", "paper", "--as", kind) == (0, "")
        assert standing((folder / "paper").read_bytes()) == Standing("agreement", "oak.yaml", True)


def test_looking_reads_no_pdf_of_our_own() -> None:
    """The reader of PDFs, which takes a while to load, is asked for papers of other programs alone."""
    code = (
        "import sys; from scopegen.standing import standing; told = standing(sys.stdin.buffer.read()); "
        "print(told.as_written, 'pypdf' in sys.modules)"
    )
    for content in (written(), filled(written(), incremental=True), COMPARISON):
        ended = subprocess.run(
            [sys.executable, "-c", code],
            input=content,
            capture_output=True,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        assert ended.stdout.split()[1:] == [b"False"], ended.stderr


def test_damaged_anywhere_is_never_taken_for_whole_where_it_ends() -> None:
    """Cut short anywhere, or with anything behind it, a paper is not as it was written, and nothing ends in a
    traceback."""
    chance = random.Random(2027)
    for content in (written("heron-bend"), COMPARISON):
        for _ in range(30):
            short = standing(content[: chance.randrange(len(content))])
            longer = standing(content + chance.randbytes(chance.randrange(1, 400)))
            assert short is None or not short.as_written
            assert longer is not None and not longer.as_written


def test_bytes_that_are_altered_end_in_no_traceback() -> None:
    """Whatever is damaged."""
    chance, whole = random.Random(2028), written("heron-bend")
    for _ in range(40):
        damaged = bytearray(whole)
        for _ in range(chance.randrange(1, 200)):
            damaged[chance.randrange(len(damaged))] = chance.randrange(256)
        assert standing(bytes(damaged)) is None or isinstance(standing(bytes(damaged)), Standing)


def test_record_that_unpacks_to_too_much_is_none() -> None:
    """What a paper holds is unpacked up to the limit of one that comes back."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        entries(pdf)["/Data"].EF.F.write(b"[" * 30_000_000)
        assert standing(saved(pdf)) is None
