"""The same job gives the same PDF, byte for byte, on any day and machine, in any folder and process."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
from datetime import date, timedelta
from functools import cache
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen

ROOT = Path(__file__).parents[1]
EXAMPLES = ROOT / "example_scopes"
JOBS = {"cedar-row": (), "quarry-lane": ("--draft",)}  # with photographs and a notice; with open decisions

# Loaded by Python before anything else: every clock a year on, and files named otherwise than elsewhere.
ANOTHER_YEAR = """
import datetime, mimetypes, time
ON = 366 * 86400
for name in ("time", "time_ns"):
    asked = getattr(time, name)
    setattr(time, name, lambda asked=asked, on=ON * (10**9 if name == "time_ns" else 1): asked() + on)
for name in ("localtime", "gmtime"):
    asked = getattr(time, name)
    setattr(time, name, lambda seconds=None, asked=asked: asked(time.time() if seconds is None else seconds))

class Later(datetime.datetime):
    @classmethod
    def now(cls, tz=None):
        return cls.fromtimestamp(time.time(), tz)
    @classmethod
    def utcnow(cls):
        return cls.utcfromtimestamp(time.time())
    today = now

class LaterDay(datetime.date):
    @classmethod
    def today(cls):
        return cls.fromtimestamp(time.time())

datetime.datetime, datetime.date = Later, LaterDay
for ending in (".yaml", ".json", ".jpg"):
    mimetypes.add_type("text/of-this-machine", ending)
"""


def written(
    job: str, to: Path, *, folder: Path = EXAMPLES, cwd: Path = ROOT, **variables: str | None
) -> bytes:
    """The agreement as the command writes it in a process of its own. A variable that is None is unset."""
    paper = to / f"{job}.pdf"
    environment = {**os.environ, "PYTHONPATH": str(ROOT)} | variables
    command = [sys.executable, "-m", "scopegen", "write", "agreement", str(folder / f"{job}.yaml")]
    ended = subprocess.run(
        [*command, *JOBS[job], "-o", str(paper)],
        cwd=cwd,
        env={name: value for name, value in environment.items() if value is not None},
        capture_output=True,
        text=True,
    )
    assert ended.returncode == 0 and ended.stderr == "", ended.stderr
    return paper.read_bytes()


@pytest.fixture(scope="module")
def first(tmp_path_factory: pytest.TempPathFactory):
    """Each agreement as it is written at first."""
    return cache(lambda job: written(job, tmp_path_factory.mktemp("first")))


@pytest.fixture
def another_year(tmp_path: Path) -> str:
    """A folder for PYTHONPATH that moves every clock on."""
    (tmp_path / "clock").mkdir()
    (tmp_path / "clock" / "sitecustomize.py").write_text(ANOTHER_YEAR)
    return os.pathsep.join((str(tmp_path / "clock"), str(ROOT)))


@pytest.fixture
def fonts_of_the_machine(tmp_path: Path) -> str:
    """A fontconfig file that knows other fonts: those of the machine, and our own under their own names."""
    import font_source_sans_pro

    own = Path(str(font_source_sans_pro.__file__)).parent
    path = tmp_path / "fonts.conf"
    path.write_text(
        f"<fontconfig><dir>/usr/share/fonts</dir><dir>{own}</dir>"
        f"<cachedir>{tmp_path}/fonts</cachedir></fontconfig>"
    )
    return str(path)


@pytest.mark.parametrize(
    "variables",
    [
        {"PYTHONHASHSEED": "0", "TZ": "Pacific/Auckland", "LC_ALL": "C"},
        {"PYTHONHASHSEED": "4711", "TZ": "America/Anchorage", "LC_ALL": "C.UTF-8", "HOME": None},
        {"HOME": "/nonexistent", "PYTHONUTF8": "0", "LC_ALL": "POSIX", "COLUMNS": "40", "NO_COLOR": "1"},
    ],
    ids=["seed 0, Auckland", "seed 4711, Anchorage, no home", "no such home, narrow"],
)
def test_environment_changes_nothing(first, tmp_path: Path, variables: dict[str, str | None]) -> None:
    """Hash seed, time zone, locale, home and terminal."""
    assert written("cedar-row", tmp_path, **variables) == first("cedar-row")


def test_day_and_names_of_types_change_nothing(first, tmp_path: Path, another_year: str) -> None:
    """A year later, on a machine that has other names for the types of files."""
    asked = "import datetime, mimetypes; print(datetime.date.today(), mimetypes.guess_type('job.yaml')[0])"
    environment = {**os.environ, "PYTHONPATH": another_year}
    said = subprocess.run([sys.executable, "-c", asked], env=environment, capture_output=True, text=True)
    day, media_type = said.stdout.split()
    assert date.fromisoformat(day) - date.today() >= timedelta(days=365), said.stderr
    assert media_type == "text/of-this-machine"
    assert written("cedar-row", tmp_path, PYTHONPATH=another_year) == first("cedar-row")


@pytest.mark.parametrize("variable", ["FONTCONFIG_FILE", "FONTCONFIG_PATH", "FONTCONFIG_SYSROOT", "FC_LANG"])
def test_fonts_of_the_machine_change_nothing(
    first, tmp_path: Path, fonts_of_the_machine: str, variable: str
) -> None:
    """Other fonts, some of them under the names that ours have; a root below which no file of ours lies; and
    another language to look for fonts in."""
    values = {"FONTCONFIG_FILE": fonts_of_the_machine, "FC_LANG": "ja"}
    value = values.get(variable, str(Path(fonts_of_the_machine).parent))
    assert written("quarry-lane", tmp_path, **{variable: value}) == first("quarry-lane")


@pytest.mark.parametrize("job", JOBS)
def test_folder_changes_nothing(first, tmp_path: Path, job: str) -> None:
    """Another working directory, a path from there, and the whole folder somewhere else."""
    copied = tmp_path / "moved" / "a folder of jobs"
    shutil.copytree(EXAMPLES, copied, ignore=shutil.ignore_patterns("paper", "pages"))
    assert written(job, tmp_path, folder=copied, cwd=tmp_path) == first(job)
    assert written(job, tmp_path, folder=Path(), cwd=copied) == first(job)


def test_papers_before_it_change_nothing(first, tmp_path: Path) -> None:
    """Others drawn before it in the same process, and itself a second time."""
    papers = []
    for name in ("tern-court", "cedar-row", "heron-bend", "cedar-row"):
        paper = tmp_path / f"{len(papers)}.pdf"
        ended = CliRunner().invoke(
            scopegen, ["write", "agreement", str(EXAMPLES / f"{name}.yaml"), "-o", str(paper)]
        )
        assert ended.exit_code == 0, ended.output
        papers.append(paper.read_bytes())
    assert papers[1] == papers[3] == first("cedar-row")


def test_another_date_gives_other_bytes(first, tmp_path: Path) -> None:
    """The comparison can fail: what the paper says is in its bytes."""
    paper = tmp_path / "paper.pdf"
    options = ["--dated", "2027-04-09", "-o", str(paper)]
    ended = CliRunner().invoke(scopegen, ["write", "agreement", str(EXAMPLES / "cedar-row.yaml"), *options])
    assert ended.exit_code == 0, ended.output
    assert paper.read_bytes() != first("cedar-row")
