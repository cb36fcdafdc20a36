"""`check` of many jobs, and what they share."""

from __future__ import annotations

import json
import os
from pathlib import Path

from click.testing import CliRunner, Result

from scopegen.build import open_case
from scopegen.cli.commands import scopegen
from scopegen.kept import MOST, Kept
from tests.jobs import EXAMPLES, changed, example, laid


def check(*words: str) -> Result:
    return CliRunner().invoke(scopegen, ["check", *words])


def three_jobs(folder: Path) -> list[Path]:
    """A sound job, one with open decisions, and one that is no YAML."""
    sound = laid(folder, example()).rename(folder / "a-sound.yaml")
    (folder / "b-open.yaml").write_text(example("quarry-lane"), encoding="utf-8")
    (folder / "c-broken.yaml").write_text("job: [\n", encoding="utf-8")
    return [sound, folder / "b-open.yaml", folder / "c-broken.yaml"]


def test_each_job_has_a_heading_and_totals_close(tmp_path: Path) -> None:
    """A broken job does not stop the others; the exit code is the highest."""
    jobs = three_jobs(tmp_path)
    result = check(str(tmp_path))
    assert result.exit_code == 2
    lines = result.stdout.splitlines()
    for job in jobs:
        assert lines[lines.index(str(job)) + 1] == "-" * len(str(job))
    assert "39 decisions: 39 decided, 0 open." in lines
    assert "Garage side: nobody decided edging" in result.stdout
    assert "[yaml]" in result.stdout
    assert lines[-1] == "3 jobs: 1 can be written, 1 cannot yet, 1 not understood; 5 decisions open in all."


def test_json_of_several_is_a_list(tmp_path: Path) -> None:
    """One file gives one object, as ever; several names or a folder give a list, of one job too."""
    jobs = three_jobs(tmp_path)
    listed = json.loads(check("--json", *map(str, jobs)).stdout)
    assert [each["job"] for each in listed] == [str(job) for job in jobs]
    alone = json.loads(check("--json", str(jobs[1])).stdout)
    assert listed[1] == {"job": str(jobs[1]), **alone}
    assert [finding["rule"] for finding in listed[2]["findings"]] == ["yaml"]
    jobs[0].unlink()
    jobs[2].unlink()
    assert json.loads(check("--json", str(tmp_path)).stdout) == [listed[1]]


def test_quiet_says_only_what_stops(tmp_path: Path) -> None:
    """Nothing of a sound job, its notes included; of the others what stops them."""
    jobs = three_jobs(tmp_path)
    assert (check("-q", str(jobs[0])).output, check(str(jobs[0])).output.count("notes:")) == ("", 2)
    said = check("--quiet", str(tmp_path)).output
    assert str(jobs[0]) not in said and str(jobs[1]) in said and str(jobs[2]) in said
    assert "stops:" in said and "notes:" not in said and "warns:" not in said and "decisions" not in said


def test_jobs_of_one_folder_share_what_was_read() -> None:
    """Chart, company and clauses are read once: the same values, not equal ones."""
    kept = Kept()
    one, two = (open_case(EXAMPLES / f"{name}.yaml", kept=kept) for name in ("heron-bend", "tern-court"))
    assert one.chart_source is two.chart_source and one.company_source is two.company_source
    assert one.library is two.library
    assert one == open_case(EXAMPLES / "heron-bend.yaml")


def test_shared_chart_that_changes_is_read_anew(tmp_path: Path) -> None:
    """In one run too, as --watch needs it; a clause of one's own that is added, and one taken away again."""
    kept, job = Kept(), laid(tmp_path, example())
    before = open_case(job, kept=kept)
    chart = tmp_path / "prices-2027.yaml"
    chart.write_text(changed(chart.read_text(encoding="utf-8"), ("crew: ", "crew: 1")), encoding="utf-8")
    assert open_case(job, kept=kept).chart != before.chart
    own = tmp_path / "clauses" / "edging"
    own.mkdir(parents=True)
    (own / "new-edge.yaml").write_text("clause: [\n", encoding="utf-8")
    assert "edging.new-edge" in open_case(job, kept=kept).library.broken
    (own / "new-edge.yaml").unlink()
    assert open_case(job, kept=kept).library == before.library


def test_what_is_kept_is_bounded(tmp_path: Path) -> None:
    """A run through many folders holds no more than a few readings; a file saved by renaming is another."""
    kept, read = Kept(), list[int]()
    for number in (*range(3 * MOST), 3 * MOST - 1):
        kept.once(number, [], lambda number=number: read.append(number))
    assert read == list(range(3 * MOST))
    kept.once(0, [], lambda: read.append(0))
    assert read[-1] == 0
    file, other = tmp_path / "a", tmp_path / "b"
    file.write_text("same size")
    other.write_text("same sise")
    times = file.stat().st_atime_ns, file.stat().st_mtime_ns
    os.utime(other, ns=times)
    assert kept.once("file", [file], file.read_text) == "same size"
    other.replace(file)
    assert kept.once("file", [file], file.read_text) == "same sise"
