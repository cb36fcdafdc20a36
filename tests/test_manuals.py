"""The manuals are true: their commands run as written, and what they show is what is there."""

from __future__ import annotations

import re
import shlex
import shutil
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.job import SITE_DECISIONS, WAYS
from scopegen.job.shape import SHAPES

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
DEVELOPERS = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
FAILS = {  # the commands that show findings
    "scopegen check example_scopes/quarry-lane.yaml": 1,
    "scopegen check example_scopes": 1,
    "scopegen write agreement example_scopes -o papers": 1,
}


def commands(text: str) -> list[str]:
    """The commands of a manual's console blocks."""
    blocks = re.findall(r"```console\n(.*?)```", text, re.S)
    return [line[2:] for block in blocks for line in block.splitlines() if line.startswith("$ ")]


def test_readme_opens_with_the_job_in_one_paragraph() -> None:
    """The first thing that a reader meets is what the program is for."""
    title, paragraph = README.split("\n\n")[:2]
    assert title == "# scopegen"
    assert "landscape contractor" in paragraph and "writes the agreement" in paragraph


def test_readme_commands_run_in_order(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Every command of README.md, one after the other, in a copy of the examples."""
    shutil.copytree(
        ROOT / "example_scopes", tmp_path / "example_scopes", ignore=shutil.ignore_patterns("paper")
    )
    monkeypatch.chdir(tmp_path)
    ran = 0
    for command in commands(README):
        words = shlex.split(command)
        assert words[0] == "scopegen", command
        result = CliRunner().invoke(scopegen, words[1:])
        assert result.exit_code == FAILS.get(command, 0), result.output
        ran += 1
    assert ran >= 5
    assert (tmp_path / "heron-bend.pdf").exists()
    assert len(list((tmp_path / "papers").glob("*.pdf"))) == 5
    assert (tmp_path / "my-jobs" / "first-job-agreement.pdf").exists()


def test_pictures_and_folders_that_readme_names_are_there() -> None:
    """No link of README.md leads nowhere."""
    links = re.findall(r"\]\(([^)]+)\)", README)
    assert links
    assert [link for link in links if not (ROOT / link).exists()] == []


def test_readme_names_every_way_site_decision_and_shape() -> None:
    """What can be written in a job is in README.md."""
    for word in (*WAYS, *SITE_DECISIONS):
        assert f"`{word}`" in README, word
    shapes = README[README.index("### Shapes") : README.index("`leave_out:`")]
    assert set(re.findall(r"^\| `(\w+)` \|", shapes, re.M)) == set(SHAPES)


def test_developers_names_every_room() -> None:
    """DEVELOPERS.md knows every module and folder of the program."""
    rooms = {
        path.stem
        for path in (ROOT / "scopegen").iterdir()
        if path.suffix == ".py" or (path / "__init__.py").exists()
    }
    named = set(re.findall(r"`(\w+)/?`", DEVELOPERS))
    assert len(rooms) > 15
    assert rooms - {"__init__", "__main__"} <= named


def test_developers_commands_name_files_that_are_there() -> None:
    """The commands of DEVELOPERS.md that start the tests are the set-up's own."""
    for command in commands(DEVELOPERS):
        known = ("python3 -m scopegen.setup test", ".venv-test/bin/python -m tests.")
        assert command.startswith(known), command
    assert (ROOT / "tests" / "golden" / "__main__.py").exists()


def test_brick_edge_of_readme_works(tmp_path: Path) -> None:
    """The work and the clause that README.md shows reach the agreement as they stand there."""
    from tests.jobs import agreement, changed, example, laid, section, words_of

    work, clause = [
        block for block in re.findall(r"```yaml\n(.*?)```", README, re.S) if "brick-edge" in block
    ]
    (tmp_path / "clauses" / "edging").mkdir(parents=True)
    (tmp_path / "clauses" / "edging" / "brick-edge.yaml").write_text(clause, encoding="utf-8")
    chart = (ROOT / "example_scopes" / "prices-2027.yaml").read_text(encoding="utf-8")
    chart = chart.replace("\nwork:\n", f"\n{work}", 1)
    old = "    edging: {decided: included, work: recut-edge}\n"
    path = laid(tmp_path, changed(example(), (old, old.replace("recut-edge", "brick-edge"))), chart=chart)
    result = CliRunner().invoke(scopegen, ["check", str(path)])
    assert result.exit_code == 0, result.stdout
    document = agreement(path)
    assert "We lay 27 ft of brick edge along Entry corner." in words_of(section(document, "work-edging"))
    assert "$310.50" in words_of(section(document, "price"))  # 27 ft × 11.50
