"""`write agreement` of many jobs: what is written, what is not and why, and that nothing half is left."""

from __future__ import annotations

import os
import re
import signal
import time
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scopegen.cli.commands import scopegen
from tests.cli.program import children_of, on_terminal, piped, running
from tests.jobs import changed, example, laid


def write(*words: str) -> Result:
    return CliRunner().invoke(scopegen, ["write", "agreement", *words])


def folder_of_jobs(folder: Path, *names: str) -> Path:
    """A contractor's folder with sound jobs of these names."""
    folder.mkdir(exist_ok=True)
    laid(folder, example()).unlink()
    for name in names:
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(example(), encoding="utf-8")
    return folder


def names_in(folder: Path) -> list[str]:
    return sorted(path.name for path in folder.iterdir())


def test_each_is_written_that_can_be(tmp_path: Path) -> None:
    """One open, one broken and one sound job: the sound one is written, the summary has the first finding of
    the others, and the exit code is the highest."""
    jobs = folder_of_jobs(tmp_path / "jobs", "c-sound.yaml")
    open_job = changed(
        example(),
        ("    edging: {decided: included, work: new-edge}", "    edging: open"),
        ("plants:", "plant:"),
    )
    (jobs / "a-open.yaml").write_text(open_job, encoding="utf-8")
    (jobs / "b-broken.yaml").write_text("job: [\nbeds: }\n", encoding="utf-8")
    result = write(str(jobs), "--as", "html", "-o", str(tmp_path / "papers"), "--at-once", "1")
    assert result.exit_code == 2
    assert f"Wrote {tmp_path / 'papers' / 'c-sound-agreement.html'}\n" in result.stdout
    assert names_in(tmp_path / "papers") == ["c-sound-agreement.html"]
    lines = result.stderr.splitlines()
    assert lines[0] == "1 written, 2 not written:"
    assert lines[1] == f"  {jobs / 'a-open.yaml'}"
    assert "nobody decided edging" in lines[2] and lines[2].endswith(", and 1 more")
    assert lines[3] == f"  {jobs / 'b-broken.yaml'}"
    assert "[yaml]" in lines[4]


def test_several_processes_write_the_same_bytes_as_one(tmp_path: Path) -> None:
    """How many papers are made at once changes no byte of them."""
    jobs = folder_of_jobs(tmp_path, "one.yaml", "two.yaml", "three.yaml")
    for count, papers in (("1", "alone"), ("3", "at-once")):
        ended = piped("write", "agreement", ".", "-o", papers, "--at-once", count, folder=jobs)
        assert (ended.returncode, ended.stderr) == (0, "")
        assert ended.stdout.splitlines()[-1] == "3 written, 0 not written."
    names = ["one-agreement.pdf", "three-agreement.pdf", "two-agreement.pdf"]
    assert names_in(tmp_path / "alone") == names_in(tmp_path / "at-once") == names
    for name in names:
        assert (tmp_path / "alone" / name).read_bytes() == (tmp_path / "at-once" / name).read_bytes()


def test_killed_process_takes_one_paper_with_it(tmp_path: Path) -> None:
    """Where a process is killed, as the system does when memory runs out, its job is reported; the others are
    written, and no half file is left."""
    names = [f"job-{number}.yaml" for number in range(4)]
    jobs = folder_of_jobs(tmp_path / "jobs", *names)
    with running("write", "agreement", ".", "--at-once", "2", folder=jobs, log=tmp_path / "log") as run:
        # the first has its job once the second is there; without one it would only be replaced
        run.until(lambda: len(children_of(run.process.pid)) > 1, "two processes were started")
        os.kill(children_of(run.process.pid)[0], signal.SIGKILL)
        assert run.process.wait(90) == 3
    assert "3 written, 1 not written:" in run.said
    assert "its process ended before the paper was ready (SIGKILL)" in run.said
    papers = [name for name in names_in(jobs) if name.startswith("job-") and name.endswith(".pdf")]
    assert len(papers) == 3
    assert not [name for name in names_in(jobs) if name.startswith(".")]


def test_interruption_leaves_whole_papers(tmp_path: Path) -> None:
    """Ctrl-C ends a run with a sentence: no traceback, no half file, no process left."""
    jobs = folder_of_jobs(tmp_path / "jobs", *(f"job-{number}.yaml" for number in range(12)))
    with running("write", "agreement", ".", "--at-once", "2", folder=jobs, log=tmp_path / "log") as run:
        run.until_said("Wrote ")
        helpers = children_of(run.process.pid)
        assert run.interrupted() == 130
    assert "Traceback" not in run.said and "KeyboardInterrupt" not in run.said
    last = run.said.splitlines()[-1]
    assert last.startswith("Interrupted: ") and last.endswith(" of 12 papers are written, each whole.")
    papers = sorted(jobs.glob("*.pdf"))
    assert 1 <= len(papers) < 12 and int(last.split()[1]) == len(papers)
    assert all(paper.read_bytes().rstrip().endswith(b"%%EOF") for paper in papers)
    assert not [name for name in names_in(jobs) if name.startswith(".")]
    end = time.monotonic() + 10
    while [child for child in helpers if Path(f"/proc/{child}/exe").exists()]:
        assert time.monotonic() < end, "a process is left"
        time.sleep(0.05)


@pytest.mark.parametrize(
    ("jobs", "output"),
    [
        (("a.yaml", "a.yml"), None),  # both beside themselves
        (("spring/a.yaml", "fall/a.yaml"), "papers"),
        (("spring/a.yaml", "fall/A.yaml"), "papers"),  # one file where case does not count
        (("spring/caf\u00e9.yaml", "fall/cafe\u0301.yaml"), "papers"),  # one name, spelled in two ways
    ],
)
def test_two_jobs_for_one_file_are_refused(tmp_path: Path, jobs: tuple[str, str], output: str | None) -> None:
    """Before anything is written."""
    folder = folder_of_jobs(tmp_path / "jobs", *jobs)
    before = sorted(folder.rglob("*"))
    more = ["-o", str(folder / output)] if output else []
    result = write(*(str(folder / job) for job in jobs), *more)
    assert result.exit_code == 3
    assert f"{folder / jobs[0]} and {folder / jobs[1]} would both be written to" in result.stderr
    assert sorted(folder.rglob("*")) == before


def test_same_job_named_twice_is_written_once(tmp_path: Path) -> None:
    """By itself and by its folder it is still one job."""
    jobs = folder_of_jobs(tmp_path, "one.yaml")
    result = write(str(jobs / "one.yaml"), str(jobs), "--as", "html", "--at-once", "1")
    assert result.exit_code == 0
    assert result.stdout.count("Wrote ") == 1
    assert result.stdout.endswith("1 written, 0 not written.\n")


def test_folder_means_its_jobs_and_no_other_files(tmp_path: Path) -> None:
    """Below it too; but not clauses, charts, the company's particulars, hidden files, or YAML of another
    kind, which is named."""
    names = ("a.yaml", "north/b.yml", "clauses/c.yaml", ".old/d.yaml", ".e.yaml", "prices-2028.yaml")
    jobs = folder_of_jobs(tmp_path, *names)
    (jobs / "crew.yaml").write_text("crew: [Ann Sample]\n", encoding="utf-8")
    result = CliRunner().invoke(scopegen, ["check", str(jobs)])
    headings = [line for line in result.stdout.splitlines() if re.fullmatch(r"\S.*\.ya?ml", line)]
    crew = f"Passed over, since no key there is 'job', 'beds' or 'customer': {jobs / 'crew.yaml'}"
    assert headings == [str(jobs / "a.yaml"), str(jobs / "north" / "b.yml"), crew]


def test_folder_without_a_job_is_said(tmp_path: Path) -> None:
    """Nothing to do is no success."""
    laid(tmp_path, example()).unlink()
    for command in (["check"], ["write", "agreement"], ["write", "agreement", "--watch"]):
        result = CliRunner().invoke(scopegen, [*command, str(tmp_path)])
        assert result.exit_code == 2
        assert f"{tmp_path} is a folder without a job description, in it or below" in result.stderr


def test_folder_for_the_papers(tmp_path: Path) -> None:
    """For several jobs -o is a folder, made where its own folder is there; a file is refused."""
    jobs = folder_of_jobs(tmp_path, "one.yaml")
    (tmp_path / "notes").write_text("no folder", encoding="utf-8")
    for output, said in (
        (tmp_path / "away" / "papers", f"There is no folder {tmp_path / 'away'}."),
        (tmp_path / "all.pdf", "all.pdf names a file, and several jobs need a folder."),
        (tmp_path / "notes", "notes names a file, and several jobs need a folder."),
    ):
        result = write(str(jobs), "-o", str(output))
        assert result.exit_code == 3
        assert said in result.stderr
    assert names_in(tmp_path) == ["company.yaml", "notes", "one.yaml", "prices-2027.yaml"]


def test_folder_for_the_paper_of_one_job(tmp_path: Path) -> None:
    """A folder that is there takes the paper of a single job under its usual name."""
    jobs = folder_of_jobs(tmp_path, "one.yaml")
    (tmp_path / "papers").mkdir()
    assert write(str(jobs / "one.yaml"), "--as", "html", "-o", str(tmp_path / "papers")).exit_code == 0
    assert names_in(tmp_path / "papers") == ["one-agreement.html"]


def test_bar_is_on_a_terminal_alone(tmp_path: Path) -> None:
    """A terminal shows how far the run is; a pipe, and --quiet, get no bar."""
    jobs = folder_of_jobs(tmp_path, "one.yaml", "two.yaml")
    words = ("write", "agreement", ".", "--as", "html", "--at-once", "1")
    shown = on_terminal(*words, folder=jobs)
    assert shown.code == 0
    assert "Writing" in shown.shown and "0/2" in shown.shown and "Wrote one-agreement.html" in shown.shown
    through = piped(*words, folder=jobs)
    assert "Writing" not in through.stdout + through.stderr and "\x1b" not in through.stdout + through.stderr
    assert on_terminal(*words, "--quiet", folder=jobs).shown == ""
