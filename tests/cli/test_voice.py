"""What the program prints, and where: plain through a pipe, and no commands for the terminal."""

from __future__ import annotations

import json
import os
import re
from collections.abc import Iterator
from pathlib import Path

import click
import pytest

from scopegen.cli.commands import scopegen
from scopegen.cli.voice import visible
from tests.cli.program import on_terminal, piped
from tests.jobs import changed, example, laid

COLORS = re.compile(r"\x1b\[[\d;]*m")  # SGR, ECMA-48 8.3.117
HOSTILE = "a\x1b[31mred\x07\x9b2J\u202egpj\nlines"  # ESC, BEL, the one-byte CSI, right to left, a line break


def leaves(command: click.Command, path: tuple[str, ...] = ()) -> Iterator[tuple[str, click.Command]]:
    if isinstance(command, click.Group):
        for name, inside in command.commands.items():
            yield from leaves(inside, (*path, name))
    else:
        yield " ".join(path), command


def test_all_commands_take_the_same_options_at_the_same_place() -> None:
    """After the command, --quiet and --no-color."""
    seen = 0
    for name, command in leaves(scopegen):
        options = {word for parameter in command.params for word in parameter.opts}
        assert {"-q", "--quiet", "--no-color"} <= options, name
        seen += 1
    assert seen >= 8


def test_price_is_bold_on_a_terminal_and_plain_elsewhere(tmp_path: Path) -> None:
    """Through a pipe, with --no-color and with NO_COLOR there is no escape code at all."""
    laid(tmp_path, example())
    drawn = on_terminal("price", "job.yaml", folder=tmp_path)
    assert drawn.code == 0 and COLORS.search(drawn.shown)
    for words, more in ((("--no-color",), {}), ((), {"NO_COLOR": "1"})):
        plain = on_terminal("price", "job.yaml", *words, folder=tmp_path, **more)
        assert plain.shown == COLORS.sub("", drawn.shown)
    assert "\x1b" not in piped("price", "job.yaml", folder=tmp_path, FORCE_COLOR="1").stdout


def test_check_says_the_same_on_a_terminal_as_through_a_pipe(tmp_path: Path) -> None:
    """Nothing is said by color alone, and no line is cut or folded."""
    laid(tmp_path, example("quarry-lane"))
    shown = on_terminal("check", "job.yaml", folder=tmp_path, columns=40)
    assert shown.shown == piped("check", "job.yaml", folder=tmp_path).stdout
    assert "\x1b" not in shown.shown and shown.code == 1


def test_piped_table_is_as_wide_as_it_needs(tmp_path: Path) -> None:
    """A long name stays in its line with its amount, where a terminal of 80 columns folds it."""
    name = "Rain garden " * 12 + "bed"
    laid(tmp_path, changed(example(), ("Entry corner", name)))
    assert re.search(rf"^{name} +[\d.,]+ ", piped("price", "job.yaml", folder=tmp_path).stdout, re.M)
    assert name not in on_terminal("price", "job.yaml", folder=tmp_path).shown


def test_hostile_name_brings_no_command_to_the_terminal(tmp_path: Path) -> None:
    """A file's name is shown with its hidden signs as codes: in what is written, refused and mistyped."""
    try:
        laid(tmp_path, example()).rename(tmp_path / f"{HOSTILE}.yaml")
    except OSError as error:  # a file system that does not take such a name has nothing to show
        pytest.fail(f"the test needs a file system that takes any name: {error}")
    job, seen = f"{HOSTILE}.yaml", r"a\x1b[31mred\x07\x9b2J\u202egpj\nlines"
    for words, code in (
        (("write", "agreement", job, "--as", "html"), 0),
        (("write", "agreement", ".", "--as", "html"), 0),
        (("write", "agreement", ".", "-o", f"{HOSTILE}.pdf"), 3),
        (("write", "agreement", job, "-o", f"{HOSTILE}/paper.pdf"), 3),
        (("check", job, "nowhere.yaml"), 2),
        (("price", job, job), 2),
        (("explain", HOSTILE), 2),
        (("start", f"{HOSTILE}/folder"), 3),
        (("open", job), 2),
    ):
        shown = on_terminal(*words, "--no-color", folder=tmp_path)
        assert shown.code == code, shown.shown
        bar = re.sub(r"\x1b\[(\?25[lh]|2K|\d*A|1G)", "", shown.shown)  # the progress bar's own
        assert seen in bar
        assert not re.search("[\x1b\x07\x9b\u202e]", bar), (words, bar)


def test_hostile_name_in_json_is_what_it_is(tmp_path: Path) -> None:
    """JSON gives another program the true name, its hidden signs escaped (RFC 8259, 7)."""
    (tmp_path / f"{HOSTILE}.yaml").write_text("job: [\n", encoding="utf-8")
    said = piped("check", ".", "--json", folder=tmp_path).stdout
    assert not re.search("[\x1b\x07\x9b\u202e]", said)
    assert json.loads(said)[0]["job"] == f"{HOSTILE}.yaml"


def test_name_that_is_no_text_is_refused_and_shown(tmp_path: Path) -> None:
    """A name whose bytes are no UTF-8, as Linux allows it, is printed with its bytes as codes."""
    laid(tmp_path, example())
    os.rename(tmp_path / "job.yaml", bytes(tmp_path) + b"/caf\xe9.yaml")
    for words in (("check", "."), ("write", "agreement", ".", "--as", "html")):
        ended = piped(*words, folder=tmp_path)
        assert ended.returncode == 2
        assert "the name of caf\\udce9.yaml is not UTF-8 text" in ended.stdout + ended.stderr
        assert "Traceback" not in ended.stderr


def test_visible_leaves_what_can_be_seen() -> None:
    """Letters of any script, accents of their own, and spaces of any width stay."""
    text = "Peña\u00a0\u2009庭 e\u0301 😀"
    assert visible(text) == text
    assert visible("a\tb\nc", breaks="\n") == "a\\tb\nc"


def test_quiet_says_nothing_on_success(tmp_path: Path) -> None:
    """What was asked for is printed all the same, and so is what stops."""
    laid(tmp_path, example())
    wrote = piped("write", "agreement", "job.yaml", "--as", "html", "--quiet", folder=tmp_path)
    assert (wrote.returncode, wrote.stdout + wrote.stderr) == (0, "")
    assert (tmp_path / "job-agreement.html").exists()
    assert "Total" in piped("price", "job.yaml", "-q", folder=tmp_path).stdout
    laid(tmp_path, example("quarry-lane"))
    refused = piped("write", "agreement", "job.yaml", "-q", folder=tmp_path)
    assert refused.returncode == 1 and "nobody decided edging" in refused.stderr
