"""Files named after what is wrong with them: each has one finding, at its place, and never a traceback."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner
from ruamel.yaml import YAML

from scopegen.cli.commands import scopegen
from scopegen.findings import Level
from scopegen.load import Unreadable, load, parse

BROKEN = Path(__file__).parent / "broken"
SAID = YAML(typ="safe", pure=True).load((BROKEN / "findings.yaml").read_text(encoding="utf-8"))


def test_every_broken_file_is_named() -> None:
    """No sample lies in the folder without what is said about it, and none is missing."""
    assert {path.stem for path in BROKEN.glob("*.yaml")} - {"findings"} == set(SAID)
    assert len(SAID) > 30


@pytest.mark.parametrize("name", sorted(SAID))
def test_broken_file_has_its_finding(name: str) -> None:
    """Rule, message, what to do, line and column."""
    with pytest.raises(Unreadable) as unreadable:
        load(BROKEN / f"{name}.yaml", "job.yaml")
    found = unreadable.value.finding
    assert found.level is Level.STOPS
    assert SAID[name] == {
        "at": f"{found.place.line}:{found.place.column}",
        "rule": found.rule,
        "message": found.message,
        "fix": found.fix,
    }


@pytest.mark.parametrize("name", sorted(SAID))
def test_broken_file_ends_the_command_with_a_sentence(name: str) -> None:
    """`check` prints the one finding and ends with 2."""
    result = CliRunner().invoke(scopegen, ["check", str(BROKEN / f"{name}.yaml")])
    assert result.exit_code == 2
    assert isinstance(result.exception, SystemExit)
    assert result.stderr.count("stops: ") == 1
    assert result.stderr.endswith(f"    To do: {SAID[name]['fix']}\n")


def test_line_with_invalid_utf_8_is_shown() -> None:
    """What could be read of the line stands under the finding, the mark under the first bad byte."""
    with pytest.raises(Unreadable) as unreadable:
        load(BROKEN / "latin-1-after-an-accent.yaml", "job.yaml")
    assert unreadable.value.finding.as_text().splitlines()[1:3] == [
        "    name: café caf?".replace("?", "\ufffd"),
        "                  ^",
    ]


def test_empty_value_stands_at_its_key() -> None:
    """What is said about an empty value points at its own line, not at the next one."""
    source = parse("site:\n  plants:\n  access: ~\njob:\n", "job.yaml")
    place = source.place(("site", "plants"))
    assert (place.line, place.column) == (2, 3)
    place = source.place(("job",))
    assert (place.line, place.column) == (4, 1)


@pytest.mark.parametrize(
    "text",
    [
        "job: beds # all of them\n",
        "job: 'beds' #2 in the book\n",
        "beds: #2 of them\n  - a\n",
        "job: beds#2\n",
        "job: 'gate #2'\n",
    ],
)
def test_comment_that_takes_nothing_along_is_one(text: str) -> None:
    """A comment after a whole text, and a number sign that YAML keeps, are no fault."""
    assert parse(text, "job.yaml").data


def test_sign_that_nobody_sees_is_not_every_unusual_sign() -> None:
    """Accents, dashes, inch marks, fractions and no-break spaces are read."""
    assert parse("job: “Niño’s” bed – 12½″\u00a0wide\n", "job.yaml").data
