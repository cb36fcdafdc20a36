"""Completion in the shells."""

from __future__ import annotations

import shlex
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.manual import PAGES
from tests.cli.program import environment

# Fills in what bash gives a completion function (Bash Reference Manual, "Bash Variables"), calls it, and
# prints what it offers. compopt can only be called by a completion, so it says what it was asked for.
ASKED = """
compopt() {{ local IFS=' '; echo "compopt $*"; }}
complete() {{ local IFS=' '; echo "complete $*"; }}
source ./completion.bash
COMP_WORDS=({words})
COMP_CWORD={number}
_scopegen_completion scopegen
printf '%s\\n' "${{COMPREPLY[@]}}"
"""


def script(shell: str) -> str:
    result = CliRunner().invoke(scopegen, ["completion", shell])
    assert (result.exit_code, result.stderr) == (0, "")
    return result.stdout


def offered(folder: Path, *words: str) -> list[str]:
    """What bash offers after these words."""
    (folder / "completion.bash").write_text(script("bash"), encoding="utf-8")
    program = folder / "bin" / "scopegen"
    program.parent.mkdir(exist_ok=True)
    program.write_text(f'#!/bin/sh\nexec {shlex.quote(sys.executable)} -m scopegen "$@"\n', encoding="utf-8")
    program.chmod(0o755)
    asked = ASKED.format(words=" ".join(map(shlex.quote, words)), number=len(words) - 1)
    path = f"{program.parent}:/usr/bin:/bin"
    ended = subprocess.run(
        ["bash", "--norc", "-c", asked],
        cwd=folder,
        env=environment(PATH=path),
        capture_output=True,
        text=True,
        timeout=90,
    )
    assert (ended.returncode, ended.stderr) == (0, "")
    return ended.stdout.split("\n")[:-1]


def test_bash_completes_commands_and_options(tmp_path: Path) -> None:
    """The script hangs itself to the program's name; commands, papers and options are offered."""
    assert offered(tmp_path, "scopegen", "")[0] == "complete -o nosort -F _scopegen_completion scopegen"
    assert {"check", "price", "write", "explain"} <= set(offered(tmp_path, "scopegen", ""))
    assert "agreement" in offered(tmp_path, "scopegen", "write", "a")
    options = offered(tmp_path, "scopegen", "write", "agreement", "--")
    assert {"--watch", "--at-once", "--quiet", "--no-color", "--draft"} <= set(options)


def test_bash_completes_the_names_of_rules(tmp_path: Path) -> None:
    """All that begin so, and no others."""
    wanted = [page.id for page in PAGES if page.id.startswith("open-")]
    assert len(wanted) > 3
    assert offered(tmp_path, "scopegen", "explain", "open-")[1:] == wanted


@pytest.mark.parametrize("words", [("check", ""), ("price", ""), ("write", "agreement", ""), ("open", "")])
def test_bash_completes_files(tmp_path: Path, words: tuple[str, ...]) -> None:
    """Where a JOB stands bash offers files of its own."""
    assert "compopt -o default" in offered(tmp_path, "scopegen", *words)


@pytest.mark.parametrize(
    ("shell", "first", "hung"),
    [
        ("zsh", "#compdef scopegen", "compdef _scopegen_completion scopegen"),
        ("fish", "function _scopegen_completion;", "complete --no-files --command scopegen"),
    ],
)
def test_scripts_of_other_shells(shell: str, first: str, hung: str) -> None:
    """They ask the program for words in their own way, and hang themselves to its name."""
    said = script(shell)
    assert said.startswith(first) and hung in said and f"_SCOPEGEN_COMPLETE={shell}_complete" in said
