"""`scopegen open` on what is no paper, on damaged papers, and on such as mean harm: one clear sentence each,
nothing written outside the folder, and no more memory than a paper may take."""

from __future__ import annotations

import io
import os
import random
import subprocess
import sys
import zlib
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pikepdf
import pytest

from scopegen.reopen import NotAPaper, Paper, read_paper

from .pdfs import entries, run, saved, with_content, with_job_called, written

ROOT = Path(__file__).parents[2]
GIGABYTE = 1 << 30
EVIL_NAMES = [
    "../../x.yaml",
    "/etc/x.yaml",
    "C:\\x.yaml",
    "..\\..\\x.yaml",
    "..",
    "",
    " ",
    "CON",
    "con.yaml",
    "LPT¹.yaml",
    ".bashrc",
    "x.yaml.",
    "a\x07b.yaml",
    "a\nb.yaml",
    "\x1b[31mred.yaml",
    "\u202elmay.x",
    "x" * 10_000,
    "é" * 150,
    "a:b.yaml",
    "resolved.json",
    "RESOLVED.JSON",
]


NO_TREES = [None, b"5", b"(x)", b"[]", b"<<>>", b"<</Names 5>>", b"<</Names [(a) 5]>>", b"<</Kids [5]>>"]
SAFE = {"job.yaml", "x.yaml", "resolved.json", "RESOLVED.JSON", "record-of-resolved.json"}


@pytest.fixture
def deep(tmp_path: Path) -> Path:
    """A folder deep enough that what leaves it is still seen."""
    folder = tmp_path / "a" / "b" / "c"
    folder.mkdir(parents=True)
    return folder


def refused(folder: Path, content: bytes, said: str = "") -> None:
    """The paper is refused in one sentence with exit code 2, and nothing is written."""
    paper = folder / "paper.pdf"
    paper.write_bytes(content)
    result = run("open", paper)
    assert result.exit_code == 2, result.output
    assert result.stdout == "" and len(result.stderr.splitlines()) == 1
    assert result.stderr.startswith(f"{paper} cannot be taken apart: ") and said in result.stderr
    assert list(folder.iterdir()) == [paper]


@pytest.mark.parametrize("name", EVIL_NAMES, ids=lambda name: ascii(name[:20]))
def test_name_stays_in_the_folder(deep: Path, tmp_path: Path, name: str) -> None:
    """Whatever the job description inside is called, it is written into the folder or not at all, under a
    name that any system takes for a plain file."""
    (deep / "paper.pdf").write_bytes(with_job_called(name))
    result = run("open", deep / "paper.pdf")
    there = {path for path in tmp_path.rglob("*") if path.is_file()} - {deep / "paper.pdf"}
    assert all(path.parent == deep / "paper" for path in there)
    assert not Path("/etc/x.yaml").exists()
    if there:
        assert {path.name for path in there} <= SAFE and len(there) == 2
    else:
        assert result.exit_code == 2 and len(result.stderr.splitlines()) == 1
    assert "\x1b" not in result.output and "\x07" not in result.output


@pytest.mark.parametrize(
    "name",
    [
        "-rf",
        "--help.yaml",
        ".bashrc",
        "company.yaml",
        "Company.YML",
        "prices-2027.yaml",
        "clauses.lock",
        "clauses",
    ],
)
def test_name_that_means_something_else(deep: Path, name: str) -> None:
    """An option of a command, a hidden file, another file of the contractor's folder, where it may even be
    put: the job is called otherwise, and that is said."""
    (deep / "paper.pdf").write_bytes(with_job_called(name))
    (deep / "company.yaml").write_text("mine", encoding="utf-8")
    result = run("open", deep / "paper.pdf", "--to", deep, "--replace")
    took, called = result.stdout.splitlines()[:2]
    assert took == f"Took job.yaml and resolved.json out of {deep / 'paper.pdf'}, into {deep}"
    assert called == f"Inside, job.yaml is called {name}, which is no name for a job here."
    names = {path.name for path in deep.iterdir()}
    assert names == {"paper.pdf", "company.yaml", "job.yaml", "resolved.json"}
    assert (deep / "company.yaml").read_text(encoding="utf-8") == "mine"


def test_plain_names_stay_as_they_are(deep: Path) -> None:
    for name in ("Müller & Söhne.yaml", "ein langer Name " * 5 + ".yaml", "a'b(1).yaml", "日本.yaml"):
        (deep / "paper.pdf").write_bytes(with_job_called(name))
        assert run("open", deep / "paper.pdf", "--to", deep / name[:3]).stdout.startswith("Took ")
        assert (deep / name[:3] / name).is_file()


def with_more(files: dict[str, bytes]) -> bytes:
    """A paper with more files inside."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        for name, content in files.items():
            pdf.attachments[name] = pikepdf.AttachedFileSpec(pdf, content, filename=name)
        return saved(pdf)


def test_other_files_inside_are_left_there(deep: Path) -> None:
    """Only what a paper needs is taken out."""
    (deep / "paper.pdf").write_bytes(with_more({"install.exe": b"MZ", "../../y": b"y"}))
    assert run("open", deep / "paper.pdf").stdout.startswith("Took ")
    assert {path.name for path in (deep / "paper").iterdir()} == {"cedar-row.yaml", "resolved.json"}


def test_a_thousand_files_inside(deep: Path) -> None:
    with pikepdf.open(io.BytesIO(written())) as pdf:
        spec = pdf.make_indirect(entries(pdf)["/Data"])
        spec.AFRelationship = pikepdf.Name.Supplement
        more = [each for number in range(1000) for each in (pikepdf.String(f"{number:04}"), spec)]
        pdf.Root.Names.EmbeddedFiles.Names = pikepdf.Array(more)
        refused(deep, saved(pdf), "more than 20 files")


def test_same_name_twice(deep: Path) -> None:
    """Two that call themselves the source: the first is looked at."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        names = pdf.Root.Names.EmbeddedFiles.Names
        pdf.Root.Names.EmbeddedFiles.Names = pikepdf.Array([*names, *names])
        (deep / "paper.pdf").write_bytes(saved(pdf))
    assert run("open", deep / "paper.pdf").stdout.startswith("Took ")


def bomb(megabytes: int, *, twice: bool = False) -> bytes:
    """A paper whose job description unpacks to so many megabytes of nothing."""
    packer = zlib.compressobj(9, wbits=-15)
    megabyte = packer.compress(bytes(1_000_000)) + packer.flush(zlib.Z_FULL_FLUSH)
    check = (megabytes * 1_000_000 % 65521 << 16 | 1).to_bytes(4)  # RFC 1950, 8.2: of nothing but zeros
    packed = b"\x78\xda" + megabytes * megabyte + b"\x03\x00" + check
    flate = pikepdf.Name.FlateDecode
    filters = pikepdf.Array([flate, flate]) if twice else flate
    with pikepdf.open(io.BytesIO(written())) as pdf:
        content = zlib.compress(packed, 9) if twice else packed
        entries(pdf)["/Source"].EF.F.write(content, filter=filters)
        return saved(pdf, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.none)


@pytest.mark.parametrize(("megabytes", "twice"), [(30, False), (3000, False), (3000, True)])
def test_what_unpacks_to_too_much(deep: Path, megabytes: int, twice: bool) -> None:
    """3 GB of zeros in a few kilobytes are refused with 1 GB of memory to be had."""
    paper = deep / "paper.pdf"
    paper.write_bytes(bomb(megabytes, twice=twice))
    program = (
        f"import resource; resource.setrlimit(resource.RLIMIT_AS, ({GIGABYTE}, {GIGABYTE})); "
        "from scopegen.cli import main; main()"
    )
    ended = subprocess.run(
        [sys.executable, "-c", program, "open", str(paper)], cwd=ROOT, capture_output=True, text=True
    )
    assert ended.returncode == 2 and ended.stdout == ""
    assert len(ended.stderr.splitlines()) == 1
    said = "is packed as no paper" if twice else "unpacks to more than a paper can hold"
    assert said in ended.stderr or "more than 20 MB" in ended.stderr


def test_what_is_packed_so_that_it_takes_minutes(deep: Path) -> None:
    """A predictor of a picture's lines (ISO 32000-1, 7.4.4.4): refused before it is unpacked."""
    with pikepdf.open(io.BytesIO(written())) as pdf:
        stream = entries(pdf)["/Source"].EF.F
        lines = pikepdf.Dictionary(Predictor=12, Columns=1)
        stream.write(zlib.compress(b"\2" * 10_000_000), filter=pikepdf.Name.FlateDecode, decode_parms=lines)
        content = saved(pdf, compress_streams=False, stream_decode_level=pikepdf.StreamDecodeLevel.none)
    (deep / "paper.pdf").write_bytes(content)
    result = run("open", deep / "paper.pdf")
    assert result.exit_code == 2
    assert "a file inside it is packed as no paper of scopegen packs one" in result.stderr


def test_tree_of_names_that_leads_back_to_itself(deep: Path) -> None:
    with pikepdf.open(io.BytesIO(written())) as pdf:
        tree = pdf.make_indirect(pikepdf.Dictionary())
        tree.Kids = pikepdf.Array([tree, tree])
        pdf.Root.Names.EmbeddedFiles = tree
        refused(deep, saved(pdf))


@pytest.mark.parametrize("value", NO_TREES)
def test_tree_of_names_that_is_none(deep: Path, value: bytes | None) -> None:
    with pikepdf.open(io.BytesIO(written())) as pdf:
        if value is None:
            del pdf.Root.Names
        else:
            pdf.Root.Names.EmbeddedFiles = pikepdf.Object.parse(value)
        refused(deep, saved(pdf))


def test_locked(deep: Path) -> None:
    """With a password to open, and with one to change alone."""
    for user in ("secret", ""):
        with pikepdf.open(io.BytesIO(written())) as pdf:
            locked = saved(pdf, encryption=pikepdf.Encryption(owner="office", user=user))
        refused(deep, locked, "locked with a password")


def test_papers_of_others(deep: Path) -> None:
    """A PDF without files, one with a file of its own, and what only looks like one."""
    with pikepdf.new() as pdf:
        pdf.add_blank_page()
        refused(deep, saved(pdf), "no job description travels inside")
        pdf.attachments["notes.txt"] = b"notes"
        refused(deep, saved(pdf), "no job description travels inside")
    refused(deep, b"", "it is no PDF")
    refused(deep, b"beds: []\n", "it is no PDF")
    refused(deep, b"%PDF-1.7\n", "damaged or cut short")
    refused(deep, b"%PDF-1.7\n" + b"1 0 obj" * 100_000)


def test_job_description_is_missing(deep: Path) -> None:
    with pikepdf.open(io.BytesIO(written())) as pdf:
        entries(pdf)["/Source"].AFRelationship = pikepdf.Name.Unspecified
        refused(deep, saved(pdf), "the job description that it names is not")


def test_places_that_are_no_file(deep: Path) -> None:
    """A folder, nothing, a pipe, names that cannot be: a sentence each."""
    os.mkfifo(deep / "pipe.pdf")
    places = {
        deep: "it is a folder",
        deep / "none.pdf": "there is no such file",
        deep / "pipe.pdf": "it is no plain file",
        Path("/dev/null"): "it is no plain file",
        deep / ("x" * 5000): "cannot be read",
        deep / "pipe.pdf" / "paper.pdf": "cannot be",
    }
    for place, said in places.items():
        result = run("open", place)
        assert result.exit_code == 2, place
        assert len(result.stderr.splitlines()) == 1 and said in result.stderr
    with pytest.raises(NotAPaper, match="no file can have such a name"):
        read_paper(Path("a\0b.pdf"))


@contextmanager
def nobody() -> Iterator[None]:
    """As a user without rights, where we have them all."""
    root = os.geteuid() == 0
    if root:
        os.seteuid(65534)
    try:
        yield
    finally:
        if root:
            os.seteuid(0)


def test_file_that_may_not_be_read(deep: Path) -> None:
    paper = deep / "paper.pdf"
    paper.write_bytes(written())
    read_paper(paper)
    paper.chmod(0)
    with nobody(), pytest.raises(NotAPaper, match="it cannot be read: Permission denied"):
        read_paper(paper)


def outcome(folder: Path, content: bytes) -> Paper | None:
    """What is read of damaged bytes: a paper or a refusal, and nothing else."""
    path = folder / "paper.pdf"
    path.write_bytes(content)
    try:
        return read_paper(path)
    except NotAPaper as error:
        assert len(str(error).splitlines()) == 1
        return None


def test_cut_short_anywhere(deep: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """Whatever is left of a paper, it is read or refused; without its end it is never taken for whole."""
    whole = written("quarry-lane", "--draft")
    cuts = [*range(0, len(whole), len(whole) // 40), *range(len(whole) - 400, len(whole), 20)]
    read = [cut for cut in cuts if outcome(deep, whole[:cut]) is not None]
    assert len(read) < len(cuts) / 4
    assert capfd.readouterr() == ("", "")


def damage(by: random.Random, whole: bytes) -> bytes:
    """A few bytes turned, taken out, doubled or put elsewhere."""
    changed = bytearray(whole)
    # half of the slips hit the end, where what leads to everything else stands
    start = 0 if by.random() < 0.5 else len(whole) - 30_000
    for _ in range(by.randint(1, 8)):
        at = by.randrange(start, len(changed) - 64)
        match by.randrange(3):
            case 0:
                changed[at] ^= 1 << by.randrange(8)
            case 1:
                del changed[at : at + by.randint(1, 40)]
            case _:
                changed[at:at] = changed[at : at + by.randint(1, 40)]
    return bytes(changed)


def test_damaged_anywhere(deep: Path, capfd: pytest.CaptureFixture[str]) -> None:
    """200 damaged papers: each is read or refused, and says nothing on the side."""
    by, whole = random.Random(2027), written("quarry-lane", "--draft")
    found = [outcome(deep, damage(by, whole)) is None for _ in range(200)]
    assert 0 < found.count(False) < len(found)  # most damage is refused, some does no harm
    assert capfd.readouterr() == ("", "")


def test_damaged_and_opened(deep: Path) -> None:
    """The same by the command: an exit code, a sentence, and no traceback."""
    by, whole = random.Random(4711), written("quarry-lane", "--draft")
    for _ in range(30):
        (deep / "paper.pdf").write_bytes(damage(by, whole))
        result = run("open", deep / "paper.pdf", "--replace")
        assert result.exit_code in (1, 2)


EVIL_JOBS: dict[str, Callable[[], bytes]] = {
    "not text": lambda: b"\xff\xfe\x00",
    "empty": lambda: b"",
    "too large": lambda: b"a: b\n" * 400_000,
    "nested": lambda: b"[" * 100_000,
    "bomb of aliases": lambda: b"a: &a [x]\nb: [*a, *a]\n",
    "no job": lambda: b"name: x\n",
}


@pytest.mark.parametrize("what", EVIL_JOBS)
def test_job_inside_that_cannot_be_understood(tmp_path: Path, what: str) -> None:
    """It is taken out as it is, and leads to no paper."""
    from .pdfs import workspace

    folder = workspace(tmp_path / "jobs")
    (folder / "paper.pdf").write_bytes(with_content("/Source", EVIL_JOBS[what]()))
    result = run("open", folder / "paper.pdf")
    assert result.exit_code == 1
    assert "It leads to no paper today" in result.stdout
