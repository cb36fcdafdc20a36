"""Saving: the old file or the new one, whole, whatever happens while it is written."""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import threading
import time
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.render.save import save
from tests.hostile.bounded import bounded
from tests.jobs import EXAMPLES, example, laid

ROOT = Path(__file__).parents[2]
SIZE = 4_000_000
SAVING = """
import sys
from pathlib import Path
from scopegen.render.save import save
print("begun", flush=True)
while True:
    for letter in (b"a", b"b"):
        save(Path(sys.argv[1]), letter * int(sys.argv[2]))
"""


def test_killed_at_any_moment_a_file_is_whole(tmp_path: Path) -> None:
    """Forty times a process that saves without end is killed for good; what it left does not add up."""
    path, chance, seen = tmp_path / "agreement.pdf", random.Random(2027), set()
    path.write_bytes(b"old" * 1000)
    for _ in range(40):
        child = subprocess.Popen(
            [sys.executable, "-S", "-c", SAVING, str(path), str(SIZE)],
            stdout=subprocess.PIPE,
            env={**os.environ, "PYTHONPATH": str(ROOT)},
        )
        assert child.stdout is not None and child.stdout.readline() == b"begun\n"
        time.sleep(chance.random() / 10)
        child.send_signal(signal.SIGKILL)
        child.wait()
        child.stdout.close()
        raw = path.read_bytes()
        whole = len(raw) == SIZE and raw in (b"a" * SIZE, b"b" * SIZE)
        assert whole or raw == b"old" * 1000
        seen.add(raw[:1])
        assert len(os.listdir(tmp_path)) <= 2  # the file, and what the last one left
    assert len(seen) > 1  # some were killed after a whole save
    save(path, b"new")
    assert os.listdir(tmp_path) == ["agreement.pdf"]


def test_draft_waits_for_whoever_clears_it_away(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another process that took a new draft for one left behind has it locked for a moment, and then it is
    gone: a further one is made."""
    lost, others = [], []

    def made_and_taken(*asked: str, **where: object) -> tuple[int, str]:
        handle, name = mkstemp(*asked, **where)
        if not lost:
            lost.append(name)
            code = (
                "import fcntl, os, sys, time; file = open(sys.argv[1]); fcntl.flock(file, fcntl.LOCK_EX); "
                "print(flush=True); time.sleep(0.3); os.unlink(sys.argv[1])"
            )
            other = subprocess.Popen([sys.executable, "-c", code, name], stdout=subprocess.PIPE)
            assert other.stdout is not None and other.stdout.readline()
            others.append(other)
        return handle, name

    mkstemp = tempfile.mkstemp
    monkeypatch.setattr(tempfile, "mkstemp", made_and_taken)
    save(tmp_path / "agreement.pdf", b"new")
    for other in others:
        assert other.communicate()[0] == b"" and other.returncode == 0
    assert lost and os.listdir(tmp_path) == ["agreement.pdf"]


def test_what_others_are_writing_is_not_cleared_away(tmp_path: Path) -> None:
    """Four at once save the same file; none fails, and the last one stands."""
    path, faults = tmp_path / "agreement.pdf", []

    def write(letter: bytes) -> None:
        try:
            for _ in range(50):
                save(path, letter * 100_000)
        except OSError as error:
            faults.append(error)

    writers = [threading.Thread(target=write, args=(letter,)) for letter in (b"a", b"b", b"c", b"d")]
    for each in writers:
        each.start()
    for each in writers:
        each.join()
    assert faults == []
    raw = path.read_bytes()
    assert raw == raw[:1] * 100_000
    assert os.listdir(tmp_path) == ["agreement.pdf"]


def test_a_disk_that_is_full_leaves_the_old_file(tmp_path: Path) -> None:
    """No file may grow beyond 10 kB: the old one stays, nothing is left beside it (setrlimit(2))."""
    job, path = laid(tmp_path, example()), tmp_path / "agreement.html"
    words = ["write", "agreement", str(job), "-o"]
    before = sorted(os.listdir(tmp_path))
    assert write_to(path, job)[0] == 0
    (tmp_path / "clauses.lock").unlink()
    old = path.read_bytes()
    first, said = bounded(([*words, str(tmp_path / "first.html")], 0), ([*words, str(path)], 10_000))
    assert first["code"] == 0
    assert said["code"] == 3, said["out"]
    assert "cannot be written: File too large. Name another file with -o." in said["out"]
    assert path.read_bytes() == old
    there = [*before, "agreement.html", "clauses.lock", "first.html"]  # the first paper is on record
    assert sorted(os.listdir(tmp_path)) == sorted(there)


def write_to(target: Path, job: Path) -> tuple[int, str]:
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(job), "-o", str(target), "--as", "html"])
    assert result.exception is None or isinstance(result.exception, SystemExit), result.exception
    return result.exit_code, result.output


def test_a_folder_that_may_not_be_written_is_said(tmp_path: Path) -> None:
    """Exit code 3 and a sentence."""
    job, place = laid(tmp_path, example()), tmp_path / "papers"
    place.mkdir(mode=0o500)
    words = ["write", "agreement", str(job), "-o"]
    _, said = bounded(([*words, str(tmp_path / "first.html")], 0), ([*words, str(place / "a.html")], 0))
    place.chmod(0o755)
    assert said["code"] == 3
    assert "cannot be written: Permission denied. Name another file with -o." in said["out"]
    assert os.listdir(place) == []


def test_a_target_that_is_no_file_stays_what_it_is(tmp_path: Path) -> None:
    """A folder, a pipe and a device are not replaced by a paper."""
    folder, pipe, device = tmp_path / "a.html", tmp_path / "b.html", tmp_path / "c.html"
    folder.mkdir()
    os.mkfifo(pipe)
    device.symlink_to("/dev/null")
    for path in (folder, pipe, device):
        with pytest.raises(OSError):
            save(path, b"paper")
    assert folder.is_dir() and pipe.is_fifo() and Path("/dev/null").is_char_device()
    assert sorted(os.listdir(tmp_path)) == ["a.html", "b.html", "c.html"]
    job = laid(tmp_path, example())
    assert write_to(device, job)[0] == 3
    assert write_to(folder, job)[0] == 0  # into the folder
    assert folder.is_dir() and len(os.listdir(folder)) == 1


def test_a_link_is_followed_and_stays_a_link(tmp_path: Path) -> None:
    """What it points at is replaced in its own folder; a link to itself is refused."""
    there, link = tmp_path / "there", tmp_path / "paper.pdf"
    there.mkdir()
    (there / "real.pdf").write_bytes(b"old")
    link.symlink_to(there / "real.pdf")
    save(link, b"new")
    assert link.is_symlink() and (there / "real.pdf").read_bytes() == b"new"
    assert os.listdir(there) == ["real.pdf"]
    link.unlink()
    link.symlink_to("paper.pdf")
    with pytest.raises(OSError, match="symbolic links"):
        save(link, b"new")


def test_a_name_as_long_as_names_can_be_is_saved(tmp_path: Path) -> None:
    path = tmp_path / ("x" * 251 + ".pdf")
    save(path, b"paper")
    assert path.read_bytes() == b"paper"


@pytest.mark.parametrize("way", ["as named", "by a link", "by a detour"])
@pytest.mark.parametrize(
    "name", ["job.yaml", "company.yaml", "prices-2027.yaml", "clauses/edging/recut.yaml", "notes.yml"]
)
def test_a_paper_never_takes_the_place_of_what_jobs_are_read_from(
    tmp_path: Path, name: str, way: str
) -> None:
    """Exit code 3, and every file is as it was."""
    job = laid(tmp_path, example())
    (tmp_path / "clauses/edging").mkdir(parents=True)
    clause = ROOT / "clause_library/edging/recut.yaml"
    (tmp_path / "clauses/edging/recut.yaml").write_bytes(clause.read_bytes())
    before = {path: path.read_bytes() for path in tmp_path.rglob("*.y*ml")}
    target = tmp_path / name
    if way == "by a link":
        target = tmp_path / "paper.html"
        target.symlink_to(tmp_path / name)
    elif way == "by a detour":
        target = tmp_path / "clauses" / ".." / name
    code, out = write_to(target, job)
    assert code == 3
    assert "is a file that jobs are read from, and is not overwritten" in out
    assert {path: path.read_bytes() for path in tmp_path.rglob("*.y*ml") if path in before} == before


@pytest.mark.parametrize("way", ["as named", "by a link"])
@pytest.mark.parametrize(
    "content",
    [b"Call Pat on Monday.\n", b"\xff\xd8\xff\xe0", b"<!doctype html>\n<p>Mine", b"%PDF-1.7\nmine"],
)
def test_a_paper_takes_the_place_of_papers_alone(tmp_path: Path, content: bytes, way: str) -> None:
    """Notes, a picture, a page and a PDF of one's own stay; the job's paper and an empty file do not."""
    job, notes, target = laid(tmp_path, example()), tmp_path / "notes.txt", tmp_path / "notes.txt"
    if way == "by a link":
        target = tmp_path / "paper.html"
        target.symlink_to(notes)
    notes.write_bytes(content)
    code, out = write_to(target, job)
    said = f"{target} is there already, and is no paper of scopegen. Name another file with -o, or delete"
    assert (code, out, notes.read_bytes()) == (3, f"{said} it first.\n", content)
    for before in (b"", None):  # None: the HTML of the run before
        if before is not None:
            notes.write_bytes(before)
        assert write_to(target, job)[0] == 0
        assert notes.read_bytes().startswith(b"<!doctype html>")


def test_a_photo_of_the_job_is_not_overwritten(tmp_path: Path) -> None:
    """There or not: the next paper would be looked for in a paper."""
    shutil.copytree(EXAMPLES, tmp_path / "jobs")
    job, photo = tmp_path / "jobs" / "cedar-row.yaml", tmp_path / "jobs" / "photos" / "drive-strip-edge.jpg"
    before = photo.read_bytes()
    code, out = write_to(photo, job)
    assert (code, photo.read_bytes()) == (3, before) and "is there already, and is no paper" in out
    photo.unlink()
    text = job.read_text(encoding="utf-8").replace("drive-strip-edge.jpg", "a.html")
    job.write_text(text, encoding="utf-8")
    said = "is the place of a photo of the job. Name another file with -o.\n"
    code, out = write_to(photo.with_name("a.html"), job)
    assert code == 3 and out.endswith(said)
    assert not photo.with_name("a.html").exists()


def test_the_lock_is_no_place_for_a_paper(tmp_path: Path) -> None:
    """Before it is there, and after."""
    job, lock = laid(tmp_path, example()), tmp_path / "clauses.lock"
    said = f"{lock} is where the wording on papers is kept. Name another file with -o.\n"
    assert write_to(lock, job) == (3, said) and not lock.exists()
    assert write_to(tmp_path / "a.html", job)[0] == 0 and lock.read_bytes().startswith(b"{")
    assert write_to(lock, job) == (3, said) and lock.read_bytes().startswith(b"{")


@pytest.mark.parametrize("place", ["/dev/stdout", "/dev/fd/1", "/proc/self/fd/1", "by a link", "by a folder"])
def test_what_the_output_goes_to_is_not_replaced(tmp_path: Path, place: str) -> None:
    """A file that the output is led into is no place for a paper by the output's name."""
    job, out = laid(tmp_path, example()), tmp_path / "out.html"
    (tmp_path / "link.html").symlink_to("/dev/stdout")
    (tmp_path / "folder").symlink_to("/dev")
    named = {"by a link": str(tmp_path / "link.html"), "by a folder": str(tmp_path / "folder" / "stdout")}
    words = ["write", "agreement", str(job), "-o", named.get(place, place), "--as", "html"]
    with out.open("w") as file:
        ended = subprocess.run(
            [sys.executable, "-m", "scopegen", *words],
            stdout=file, stderr=subprocess.PIPE, text=True, env={**os.environ, "PYTHONPATH": str(ROOT)},
        )  # fmt: skip
        assert os.fstat(file.fileno()).st_nlink == 1  # still the file that it was
    assert (ended.returncode, out.read_text(encoding="utf-8")) == (3, "")
    assert "it is a device or a pipe. Name another file with -o." in ended.stderr


@pytest.mark.parametrize("name", ["notes.txt", "company.yaml"])
def test_a_comparison_takes_the_place_of_papers_alone(tmp_path: Path, name: str) -> None:
    """As an agreement does."""
    laid(tmp_path, example())
    (tmp_path / name).touch()
    before = (tmp_path / name).read_bytes() or b"Call Pat."
    (tmp_path / name).write_bytes(before)
    words = ["clauses", "compare", "2027", "2028", "--in", str(tmp_path), "--pdf", str(tmp_path / name)]
    result = CliRunner().invoke(scopegen, words)
    assert (result.exit_code, (tmp_path / name).read_bytes()) == (3, before)
    assert "is there already, and is no paper of scopegen. Name another file with --pdf" in result.stderr


def test_a_job_by_another_name_is_not_overwritten(tmp_path: Path) -> None:
    """A job description need not end in .yaml."""
    job = tmp_path / "job.html"
    laid(tmp_path, "")
    job.write_text(example(), encoding="utf-8")
    assert write_to(job, job)[0] == 3
    assert job.read_text(encoding="utf-8") == (EXAMPLES / "heron-bend.yaml").read_text(encoding="utf-8")
