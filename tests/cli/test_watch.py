"""`--watch` as a real process, with real changes of files."""

from __future__ import annotations

import os
from pathlib import Path

import pytest

from tests.cli.program import Running, running
from tests.jobs import changed, example, laid

WORDS = ("write", "agreement", "job.yaml", "--as", "html", "--watch")
PAPER = "job-agreement.html"


def wrote(run: Running, *files: str) -> None:
    """Waits for the line that names the files that changed."""
    run.until_said(f"Wrote {PAPER}: {', '.join(files)} changed\n")


def saved_by_renaming(path: Path, text: str) -> None:
    """As many editors save: a new file beside the old one, then put in its place."""
    beside = path.with_name(f".{path.name}.swp")
    beside.write_text(text, encoding="utf-8")
    os.replace(beside, path)


def test_each_file_that_it_rests_on_brings_a_new_paper(tmp_path: Path) -> None:
    """The job, its chart, the company's particulars, a clause of one's own; other files bring none."""
    laid(tmp_path, example())
    with running(*WORDS, folder=tmp_path, log=tmp_path / ".log") as run:
        run.until_said("Watching; Ctrl-C ends it.")
        paper = tmp_path / PAPER
        assert "Heron Bend, front" in paper.read_text(encoding="utf-8")
        (tmp_path / "notes.txt").write_text("not a part of it", encoding="utf-8")
        saved_by_renaming(
            tmp_path / "job.yaml", changed(example(), ("Heron Bend, front", "Heron Lane, front"))
        )
        wrote(run, "job.yaml")
        assert "Heron Lane, front" in paper.read_text(encoding="utf-8")
        company = tmp_path / "company.yaml"
        text = company.read_text(encoding="utf-8")
        name = next(line for line in text.splitlines() if line.startswith("name:"))
        company.write_text(changed(text, (name, "name: Bed Works of Sample Street")), encoding="utf-8")
        wrote(run, "company.yaml")
        assert "Bed Works of Sample Street" in paper.read_text(encoding="utf-8")
        chart = tmp_path / "prices-2027.yaml"
        chart.write_text(
            changed(
                chart.read_text(encoding="utf-8"), ("name: {en: twice-ground", "name: {en: thrice-ground")
            ),
            "utf-8",
        )
        wrote(run, "prices-2027.yaml")
        assert "hrice-ground" in paper.read_text(encoding="utf-8")
        clause(tmp_path, "We cut it with a spade by the moon.")
        run.until(lambda: "by the moon" in paper.read_text(encoding="utf-8"), "the new clause is in")
        clause(tmp_path, "We cut it with a spade by the stars.")
        # the line on the clause may stand there already: a new folder may be told before its file
        run.until(lambda: "by the stars" in paper.read_text(encoding="utf-8"), "the changed clause is in")
        wrote(run, "clauses/edging/new-edge.yaml")
        assert "notes.txt" not in run.said
        assert run.interrupted() == 0
    assert run.said.endswith("No longer watching.\n") and "Traceback" not in run.said
    assert not [path for path in tmp_path.iterdir() if path.name.startswith(f".{PAPER}")]


def clause(folder: Path, words: str) -> None:
    """The clause of a new edge in words of one's own."""
    own = folder / "clauses" / "edging"
    own.mkdir(parents=True, exist_ok=True)
    shipped = Path(__file__).parents[2] / "clause_library" / "edging" / "new-edge.yaml"
    text = shipped.read_text(encoding="utf-8")
    (own / "new-edge.yaml").write_text(
        changed(text, ("      included: ", f"      included: {words} ")), "utf-8"
    )


def test_findings_are_shown_and_it_goes_on(tmp_path: Path) -> None:
    """A job that stops being sound leaves the paper of before; mended, it is written again."""
    laid(tmp_path, example())
    job, paper = tmp_path / "job.yaml", tmp_path / PAPER
    with running(*WORDS, folder=tmp_path, log=tmp_path / ".log") as run:
        run.until_said("Watching; Ctrl-C ends it.")
        before = paper.read_bytes()
        edge = "    edging: {decided: included, work: new-edge}"
        job.write_text(changed(example(), (edge, "    edging: open")), encoding="utf-8")
        run.until_said("Not written: job.yaml changed\n")
        run.until_said("Maple ring: nobody decided edging")
        job.write_text("job: [\n", encoding="utf-8")
        run.until_said("[yaml]")
        job.unlink()
        run.until_said("there is no file job.yaml")
        assert paper.read_bytes() == before
        job.write_text(example(), encoding="utf-8")
        wrote(run, "job.yaml")
        assert paper.read_bytes() == before
        assert run.interrupted() == 0
    assert "Traceback" not in run.said


def test_new_job_of_a_watched_folder_is_written(tmp_path: Path) -> None:
    """A folder is looked at anew: what is added to it is written, and the others are left alone."""
    laid(tmp_path, example())
    with running(
        "write", "agreement", ".", "--as", "html", "--watch", folder=tmp_path, log=tmp_path / ".log"
    ) as run:
        run.until_said("Watching; Ctrl-C ends it.")
        (tmp_path / "second.yaml").write_text(example(), encoding="utf-8")
        run.until_said("Wrote second-agreement.html")
        assert run.said.count("Wrote job-agreement.html") == 1
        for name in ("job.yaml", "second.yaml"):
            (tmp_path / name).unlink()
        run.until_said("is a folder without a job description")
        (tmp_path / "third.yaml").write_text(example(), encoding="utf-8")
        run.until_said("Wrote third-agreement.html")
        assert run.interrupted() == 0
    assert "Traceback" not in run.said


@pytest.mark.parametrize("there", [True, False])
def test_photo_that_the_job_names(tmp_path: Path, there: bool) -> None:
    """A photo that changes, or comes to be there, brings a new paper; one that no job names does not."""
    from PIL import Image

    named = changed(
        example(), ("  - name: Entry corner\n", "  - name: Entry corner\n    photos: entry.jpg\n")
    )
    laid(tmp_path, named)
    if there:
        Image.new("RGB", (400, 300), "green").save(tmp_path / "entry.jpg")
    with running(*WORDS, folder=tmp_path, log=tmp_path / ".log") as run:
        run.until_said("Watching; Ctrl-C ends it.")
        Image.new("RGB", (400, 300), "red").save(tmp_path / "other.jpg")
        Image.new("RGB", (400, 300), "brown").save(tmp_path / "entry.jpg")
        wrote(run, "entry.jpg")
        assert run.interrupted() == 0


def test_paper_that_is_signed_meanwhile_stays(tmp_path: Path) -> None:
    """What it wrote itself it replaces, time and again; what was added to since, or another job's, never."""
    laid(tmp_path, example())
    job, paper = tmp_path / "job.yaml", tmp_path / PAPER
    with running(*WORDS, folder=tmp_path, log=tmp_path / ".log") as run:
        run.until_said("Watching; Ctrl-C ends it.")
        for name in ("Heron Row", "Heron Way"):
            saved_by_renaming(job, changed(example(), ("Heron Bend, front", f"{name}, front")))
            run.until(lambda name=name: name in paper.read_text(encoding="utf-8"), f"{name} is in")
        signed = paper.read_bytes() + b"<p>Signed"
        paper.write_bytes(signed)
        saved_by_renaming(job, changed(example(), ("Heron Bend, front", "Heron Hill, front")))
        run.until_said("Not written: job.yaml changed\n")
        run.until_said(f"{PAPER}, the agreement of job.yaml, was filled in or signed since it was written")
        assert paper.read_bytes() == signed
        paper.unlink()
        saved_by_renaming(job, example())
        run.until(paper.exists, "the paper is there again")
        assert run.interrupted() == 0
    other = tmp_path / "other.yaml"
    other.write_text(example(), encoding="utf-8")
    words = ("write", "agreement", other.name, "-o", PAPER, "--watch")
    with running(*words, folder=tmp_path, log=tmp_path / ".log") as run:
        assert run.process.wait(90) == 3
    assert f"{PAPER} is there already: the agreement of job.yaml. Name another file with -o, " in run.said
    assert "Watching" not in run.said
