"""`scopegen start`: what is laid out is sound, whatever the day, and overwrites nothing."""

from __future__ import annotations

import json
import os
import re
from datetime import date
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from jsonschema import Draft202012Validator

from scopegen.build import open_case
from scopegen.check import check
from scopegen.cli.commands import scopegen
from scopegen.job import DECISIONS
from scopegen.starter import dated_in, files_of, first_season, lay_out, season_at
from tests.hostile.bounded import bounded
from tests.test_schema import as_an_editor_reads


def run(*words: str) -> Result:
    return CliRunner().invoke(scopegen, list(words))


def test_first_paper_can_be_seen_at_once(tmp_path: Path) -> None:
    """Start, check, price, write: each ends well, as the last lines of `start` say."""
    folder = tmp_path / "my jobs"
    started = run("start", str(folder), "--season", "2028")
    assert started.exit_code == 0
    assert [path.name for path in sorted(folder.iterdir())] == [
        "clauses",
        "company.yaml",
        "first-job.yaml",
        "prices-2028.yaml",
        "schemas",
    ]
    job = str(folder / "first-job.yaml")
    checked = run("check", job)
    assert checked.exit_code == 0, checked.output
    assert "0 open." in checked.stdout
    assert run("price", job).exit_code == 0
    assert run("write", "agreement", job, "--as", "html").exit_code == 0
    assert (folder / "first-job-agreement.html").stat().st_size > 10_000
    assert f"scopegen check '{job}'" in started.stdout


@pytest.mark.parametrize(
    ("season", "today"),
    [
        (2027, date(2026, 11, 25)),
        (2027, date(2027, 1, 1)),
        (2027, date(2027, 12, 31)),
        (2028, date(2028, 2, 29)),
        (2033, date(2027, 7, 4)),
    ],
)
def test_first_job_is_sound_on_any_day(tmp_path: Path, season: int, today: date) -> None:
    """Nothing is found in it but what stands at its minimum, on the turn of the year and on a leap day
    neither."""
    lay_out(tmp_path / "new", files_of(season, dated_in(season, today)))
    case = open_case(tmp_path / "new" / "first-job.yaml")
    assert {finding.rule for finding in check(case).findings} <= {"minimum-applies"}
    assert (case.job.season, case.chart.season) == (season, season)
    assert case.job.dated == (today if season - today.year < 2 else date(season, 3, 1))


@pytest.mark.parametrize(
    ("today", "season"),
    [
        (date(2027, 9, 30), 2027),
        (date(2027, 10, 1), 2028),
        (date(2028, 1, 1), 2028),
        (date(2026, 5, 1), 2027),  # before the clauses that ship begin
    ],
)
def test_season_is_the_one_that_prices_are_made_for(today: date, season: int) -> None:
    """This year's, from October on the next one's, and none that has no wording."""
    assert season_at(today, first_season()) == season


def test_what_to_type_next_can_be_typed(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """A folder whose name starts with a dash is no option of the commands that are named."""
    monkeypatch.chdir(tmp_path)
    started = run("start", "--season", "2028", "--", "-x")
    assert started.exit_code == 0
    (job,) = re.findall("^  scopegen check (.*)$", started.stdout, re.MULTILINE)
    assert job == "./-x/first-job.yaml"
    assert run("check", job).exit_code == 0


@pytest.mark.parametrize("season", ["zz", "1999", "2101", "20.5", "-2028", "٢٠٢٨", "99999999999"])
def test_season_that_is_no_year(tmp_path: Path, season: str) -> None:
    """In words that need no programmer."""
    result = run("start", str(tmp_path / "new"), "--season", season)
    assert result.exit_code == 2 and not (tmp_path / "new").exists()
    said = f"Invalid value for '--season': '{season}' is not a year from 2000 to 2100"
    assert said in result.stderr


def test_season_without_wording_is_refused(tmp_path: Path) -> None:
    """The clauses that ship begin with a season; an earlier one would stop at every clause."""
    result = run("start", str(tmp_path / "new"), "--season", str(first_season() - 1))
    assert result.exit_code == 3
    assert f"begin with season {first_season()}" in result.stderr
    assert not (tmp_path / "new").exists()


def test_every_file_is_commented_and_marked_by_no_editor() -> None:
    """Each names its schema, which is there and takes it as it is; most lines say what they are for."""
    texts = files_of(2029, date(2029, 3, 1))
    commented = {}
    for name, text in texts.items():
        if not name.endswith(".yaml"):
            continue
        schema = re.match(r"# yaml-language-server: \$schema=(\S+)\n", text)
        assert schema and schema[1] in texts, name
        validator = Draft202012Validator(json.loads(texts[schema[1]]))
        assert list(validator.iter_errors(as_an_editor_reads(text))) == []
        commented[name] = sum("#" in line for line in text.splitlines())
        assert "2027" not in text
    assert set(commented) == {"company.yaml", "first-job.yaml", "prices-2029.yaml"}
    assert min(commented.values()) > 10


def test_names_and_numbers_are_invented() -> None:
    """Telephone numbers of films (555-01xx), domains that RFC 2606 keeps free, no real ZIP code."""
    texts = [text for name, text in files_of(2027, date(2027, 3, 1)).items() if name.endswith(".yaml")]
    numbers = [found for text in texts for found in re.findall(r"\b\d{3}-\d{4}\b", text)]
    domains = [found for text in texts for found in re.findall(r"@(\S+)", text)]
    assert len(numbers) > 1 and all(number.startswith("555-01") for number in numbers)
    assert len(domains) > 1
    assert all(re.search(r"(^|\.)example(\.com|\.org)?$", domain) for domain in domains)


def test_chart_offers_work_for_every_decision() -> None:
    """Each question that a bed raises can be answered with work or material of the starter chart."""
    chart = as_an_editor_reads(files_of(2027, date(2027, 3, 1))["prices-2027.yaml"])
    decided = [work["decides"] for work in chart["work"].values()]
    assert {*DECISIONS} - {"material"} | {"extra"} == set(decided)
    assert min(decided.count(each) for each in set(decided)) >= 2
    kinds = [material["kind"] for material in chart["materials"].values()]
    assert kinds.count("mulch") >= 2 and {"compost", "stone"} <= set(kinds)


@pytest.mark.parametrize("lying", ["company.yaml", "prices-2028.yaml", "schemas", "holiday.jpg"])
def test_nothing_is_overwritten(tmp_path: Path, lying: str) -> None:
    """What lies there is named and stays as it was, and nothing is written beside it."""
    (tmp_path / lying).write_text("mine", encoding="utf-8")
    result = run("start", str(tmp_path), "--season", "2028")
    assert result.exit_code == 3
    assert result.stderr.startswith(f"{tmp_path / lying} is in the way.")
    assert [path.name for path in tmp_path.iterdir()] == [lying]
    assert (tmp_path / lying).read_text(encoding="utf-8") == "mine"


def test_hidden_files_are_not_in_the_way(tmp_path: Path) -> None:
    """A folder that only a version control or a file browser has marked is empty."""
    (tmp_path / ".git").mkdir()
    assert run("start", str(tmp_path)).exit_code == 0


def test_file_in_place_of_the_folder(tmp_path: Path) -> None:
    """A file of that name is in the way itself."""
    (tmp_path / "jobs").write_text("mine", encoding="utf-8")
    result = run("start", str(tmp_path / "jobs"))
    assert (result.exit_code, (tmp_path / "jobs").read_text(encoding="utf-8")) == (3, "mine")
    assert "is in the way" in result.stderr


def test_folder_above_has_to_be_there(tmp_path: Path) -> None:
    """A mistyped path makes no folders."""
    result = run("start", str(tmp_path / "nowhere" / "jobs"))
    assert result.exit_code == 3
    assert f"There is no folder {tmp_path / 'nowhere'}." in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_folder_that_cannot_be_written(tmp_path: Path) -> None:
    """A link that leads nowhere, and a name that no file can have, end with a sentence."""
    (tmp_path / "loose").symlink_to(tmp_path / "nowhere")
    for name in ("loose", "x" * 300):
        result = run("start", str(tmp_path / name))
        assert result.exit_code == 3, name
        assert isinstance(result.exception, SystemExit), name


@pytest.mark.parametrize("there", [False, True])
def test_a_full_disk_leaves_nothing(tmp_path: Path, there: bool) -> None:
    """No file may grow beyond 10 kB, which the schemas do (setrlimit(2)): nothing is laid out, or all."""
    folder = tmp_path / "new"
    if there:
        (folder / ".git").mkdir(parents=True)
    words = ["start", str(folder), "--season", "2028"]
    _, said = bounded((["explain"], 0), (words, 10_000))
    assert said["code"] == 3
    assert said["out"] == f"{folder} cannot be written: File too large. Nothing was.\n"
    assert [path.name for path in tmp_path.rglob("*")] == (["new", ".git"] if there else [])
    assert run(*words).exit_code == 0
    names = {path.relative_to(folder).as_posix() for path in folder.rglob("*") if path.is_file()}
    assert names == set(files_of(2028, date(2028, 3, 1)))
    assert {path.name for path in folder.iterdir() if path.name.startswith(".")} == (
        {".git"} if there else set()
    )
    umask = os.umask(0)
    os.umask(umask)
    assert folder.stat().st_mode & 0o777 == 0o777 & ~umask
    assert (folder / "company.yaml").stat().st_mode & 0o777 == 0o666 & ~umask
