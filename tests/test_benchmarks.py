"""The benchmark runs and prints its rows; how long anything takes is not tested."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

from scopegen.build import open_case
from scopegen.check import check
from scopegen.quantities.fields import MOST_BEDS
from tests.benchmarks.jobs import with_beds, workspace

ROW = re.compile(r"^  (\S.*?) +(\d+\.\d\d) s +(\d+\.\d\d) x +(\d+\.\d\d) s of processors +(\d+) MiB$", re.M)


def test_benchmark_prints_its_rows() -> None:
    """With the least of everything: each row has a time, a ratio to its table's first row, and memory."""
    command = [
        sys.executable,
        "-m",
        "tests.benchmarks",
        "--cold",
        "--runs",
        "1",
        "--beds",
        "2",
        "--papers",
        "2",
    ]
    root = Path(__file__).parents[1]
    ended = subprocess.run(command, cwd=root, capture_output=True, text=True, timeout=300, check=False)
    assert (ended.returncode, ended.stderr) == (0, "")
    rows = ROW.findall(ended.stdout)
    names = [row[0] for row in rows if "Chromium" not in row[0]]
    assert names == [
        "a bare interpreter with pydantic, ruamel.yaml and click",
        "check, 1 bed",
        "check, 2 beds",
        "WeasyPrint alone, the same page",
        "write agreement, 2 beds",
        "2 papers in one process",
        "2 papers on all cores",
        "2 papers, a run each",
    ]
    assert len(rows) == len(names) + ("There is no" not in ended.stdout)
    assert [float(ratio) for _, _, ratio, *_ in rows].count(1.0) >= 3
    assert all(float(seconds) > 0 for _, seconds, *_ in rows)
    assert all(float(processor) > 0 and int(memory) > 5 for *_, processor, memory in rows)


def test_generated_jobs_are_sound(tmp_path: Path) -> None:
    """Up to the most beds nothing stops them, and the number of their decisions is that of their beds: five
    each, and nine of the property."""
    for beds in (1, 10, MOST_BEDS):
        path = workspace(tmp_path) / "job.yaml"
        path.write_text(with_beds(beds), encoding="utf-8")
        checked = check(open_case(path))
        assert not checked.stops
        assert len(checked.decided) == 5 * beds + 9
