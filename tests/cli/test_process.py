"""How the process ends where its surroundings are at fault: a full disk, a closed output, an output of few
signs, a folder that is gone, Ctrl-C at any moment. Never with a traceback."""

from __future__ import annotations

import json
import os
import shlex
import subprocess
import sys
from pathlib import Path

import pytest

from scopegen.render.seal import seal_holds
from tests.cli.program import LONG, PROGRAM, environment, piped
from tests.jobs import example, laid

FULL = "What there is to say cannot be written: No space left on device.\n"
PAPER = ("write", "agreement", "job.yaml", "--as", "html")
# Ctrl-C while a module is imported: the signal comes from the process itself, just before.
INTERRUPTED_IN = """
import os, signal, sys
module, words = sys.argv[1], sys.argv[2:]
class Finder:
    def find_spec(self, name, path=None, target=None):
        if name == module:
            sys.meta_path.remove(self)
            os.kill(os.getpid(), signal.SIGINT)
sys.meta_path.insert(0, Finder())
signal.signal(signal.SIGINT, signal.default_int_handler)  # whoever runs the tests may be deaf to it
from scopegen.cli import main
sys.argv = ["scopegen", *words]
main()
"""
INTERRUPTED_AS_IT_IS_PUT = """
import os, signal, sys
from scopegen.cli import main
replace = os.replace
def replaced(draft, target):
    replace(draft, target)
    if target.suffix == ".html":
        os.kill(os.getpid(), signal.SIGINT)
os.replace = replaced
sys.argv[1:1] = ["write", "agreement", "--at-once", "1", "--as", "html"]
main()
"""


def by_script(script: str, *words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """A run inside a script that does something to it."""
    command = [sys.executable, "-c", script, *words]
    return subprocess.run(
        command, cwd=folder, env=environment(), capture_output=True, text=True, timeout=LONG
    )


def by_shell(streams: str, *words: str, folder: Path, **more: str) -> subprocess.CompletedProcess[str]:
    """A run with its streams as a shell leads them."""
    command = f"{shlex.join([*PROGRAM, *words])} {streams}"
    return subprocess.run(
        ["sh", "-c", command],
        cwd=folder,
        env=environment(**more),
        capture_output=True,
        text=True,
        timeout=LONG,
    )


@pytest.mark.parametrize(
    ("words", "streams", "unbuffered", "said"),
    [
        (("check", "job.yaml"), "> /dev/full", "", FULL),
        (("check", "job.yaml"), "> /dev/full", "1", FULL),
        (("check", "job.yaml"), "> /dev/full 2>&1", "", ""),
        (("price", "job.yaml"), "> /dev/full", "", FULL),
        (("price", "job.yaml", "--json"), "> /dev/full", "1", FULL),
        (("explain", "edge-not-needed"), "> /dev/full", "", FULL),
        (("--version",), "> /dev/full", "", FULL),
        (("--help",), "> /dev/full", "", FULL),
        (PAPER, "> /dev/full", "", FULL),
    ],
)
def test_output_on_a_full_disk(
    tmp_path: Path, words: tuple[str, ...], streams: str, unbuffered: str, said: str
) -> None:
    """One line on the error output and exit code 3; where that is full too, the exit code alone."""
    laid(tmp_path, example())
    ended = by_shell(streams, *words, folder=tmp_path, PYTHONUNBUFFERED=unbuffered)
    assert (ended.returncode, ended.stderr) == (3, said)
    assert (tmp_path / "job-agreement.html").exists() == (words == PAPER)


@pytest.mark.parametrize("streams", [">&-", ">&- 2>&-", "<&- >&- 2>&-"])
def test_closed_output(tmp_path: Path, streams: str) -> None:
    """Nobody reads, and the papers are written all the same; each command ends as it would."""
    laid(tmp_path, example())
    (tmp_path / "other.yaml").write_text(example("tern-court"), encoding="utf-8")
    for words, code in (
        (("check", "job.yaml"), 0),
        (("price", "job.yaml"), 0),
        (("check", "nowhere.yaml"), 2),
        ((*PAPER, "other.yaml", "-o", "papers"), 0),
    ):
        ended = by_shell(streams, *words, folder=tmp_path)
        assert ended.returncode == code, ended
        assert "Traceback" not in ended.stderr
    papers = sorted((tmp_path / "papers").iterdir())
    assert [each.name for each in papers] == ["job-agreement.html", "other-agreement.html"]
    assert all(seal_holds(each.read_bytes()) for each in papers)


@pytest.mark.parametrize(
    "surroundings",
    [
        {"PYTHONIOENCODING": "ascii"},
        {"PYTHONIOENCODING": "cp1252"},
        {"LC_ALL": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"},
    ],
    ids=lambda told: next(iter(told.values())),
)
def test_output_of_few_signs(tmp_path: Path, surroundings: dict[str, str]) -> None:
    """A sign that the output cannot take is written as its code; JSON stays JSON, with every sign."""
    laid(tmp_path, example("garza-lane").replace("Arriate de la entrada", "Arriate Ễ de la entrada"))
    for words in (
        ("check",),
        ("price",),
        ("price", "--working"),
        ("price", "--by", "bed"),
        ("price", "--json"),
    ):
        ended = subprocess.run(
            [*PROGRAM, words[0], "job.yaml", *words[1:]],
            cwd=tmp_path,
            env=environment(**surroundings),
            capture_output=True,
            timeout=LONG,
        )
        assert (ended.returncode, ended.stderr) == (0, b""), ended.stderr.decode()
        said = ended.stdout.decode("cp1252" if "cp1252" in surroundings.values() else "ascii")
        if words == ("price", "--json"):
            whole = piped("price", "job.yaml", "--json", folder=tmp_path, PYTHONIOENCODING="utf-8").stdout
            assert "Ễ" in whole and json.loads(said) == json.loads(whole)
        elif words[0] == "price":
            assert "Arriate \\u1ec4 de" in said


def test_no_room_to_draw_in(tmp_path: Path) -> None:
    """Drawing lays its fonts into temporary files; where these find no room, it is said what is missing."""
    laid(tmp_path, example())
    program = f"ulimit -f 100; exec {shlex.join([*PROGRAM, 'write', 'agreement', 'job.yaml'])}"
    ended = subprocess.run(
        ["sh", "-c", program],
        cwd=tmp_path,
        env=environment(TMPDIR=str(tmp_path)),
        capture_output=True,
        text=True,
        timeout=LONG,
    )
    said = f"the PDF cannot be drawn: File too large. Drawing needs some megabytes in {tmp_path}.\n"
    assert (ended.returncode, ended.stdout, ended.stderr) == (3, "", said)
    assert not [*tmp_path.glob("*.pdf")]


@pytest.mark.parametrize(
    "words", [("check", "job.yaml"), ("write", "agreement", "job.yaml"), ("start", "new")], ids=" ".join
)
def test_folder_that_is_gone(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Whoever deleted the folder that the shell is in is told so."""
    there = tmp_path / "there"
    there.mkdir()
    program = f'rmdir "$PWD" && exec {shlex.join([*PROGRAM, *words])}'
    ended = subprocess.run(
        ["sh", "-c", program], cwd=there, env=environment(), capture_output=True, text=True, timeout=LONG
    )
    said = "The folder that you are in is gone. Change into one that is there, and try again.\n"
    assert (ended.returncode, ended.stdout, ended.stderr) == (3, "", said)


@pytest.mark.parametrize(
    "module",
    ["scopegen.cli.commands", "click", "ruamel.yaml", "pydantic_core", "shapely", "numpy._core.multiarray"],
)
def test_ctrl_c_while_something_is_imported(tmp_path: Path, module: str) -> None:
    """One word and exit code 130, also where the library that is imported takes it for a fault of its own."""
    laid(tmp_path, example())
    words = ["write", "agreement", "job.yaml", "--as", "html"]
    ended = by_script(INTERRUPTED_IN, module, *words, folder=tmp_path)
    assert (ended.returncode, ended.stdout, ended.stderr) == (130, "", "Interrupted.\n")


def test_ctrl_c_while_a_paper_is_made(tmp_path: Path) -> None:
    """Of several papers too, made in one process."""
    laid(tmp_path, example())
    (tmp_path / "other.yaml").write_text(example("tern-court"), encoding="utf-8")
    words = ["write", "agreement", "job.yaml", "other.yaml", "--at-once", "1", "--as", "html", "-o", "papers"]
    ended = by_script(INTERRUPTED_IN, "numpy._core.multiarray", *words, folder=tmp_path)
    assert ended.returncode == 130
    assert ended.stderr == "Interrupted: 0 of 2 papers are written, each whole.\n"
    assert not os.path.exists(tmp_path / "papers")


def test_ctrl_c_while_a_paper_is_put_in_its_place(tmp_path: Path) -> None:
    """It is there, so it is counted."""
    laid(tmp_path, example())
    (tmp_path / "other.yaml").write_text(example("tern-court"), encoding="utf-8")
    ended = by_script(INTERRUPTED_AS_IT_IS_PUT, "job.yaml", "other.yaml", "-o", "papers", folder=tmp_path)
    assert ended.returncode == 130
    assert ended.stderr == "Interrupted: 1 of 2 papers are written, each whole.\n"
    assert os.listdir(tmp_path / "papers") == ["job-agreement.html"]
