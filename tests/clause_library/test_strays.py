"""Files in `clauses/` that are not read, or that no decision leads to, are found; notes are left alone."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.build import open_case
from scopegen.check import check
from scopegen.clauses import read_library
from scopegen.cli.commands import scopegen
from scopegen.findings import Finding, Level
from scopegen.job import DECISIONS
from scopegen.kept import Kept
from scopegen.library_folder import library_folder
from tests.clause_library.library import FOLDERS
from tests.jobs import EXAMPLES, example, laid

CLAUSE = (
    "clause: {name}\ntitle: {{en: Dogs, es: Perros}}\nwording:\n  - season: 2027\n"
    "    en: {{says: We like dogs.}}\n    es: {{says: Nos gustan los perros.}}\n"
)
RULES = {"clause-not-read", "clause-folder"}


def found(own: Path) -> list[Finding]:
    return list(read_library(library_folder(), own).findings)


def put(own: Path, name: str, clause: str = "terms.dogs") -> Path:
    path = own / name
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(CLAUSE.format(name=clause), encoding="utf-8")
    return path


NOT_READ = {
    "dogs.yaml": ("it lies in no folder", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/dogs.yml": ("ends in .yaml", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/dogs.YAML": ("ends in .yaml", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/dogs.yaml.txt": ("ends in .yaml", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/dogs": ("ends in .yaml", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/dogs.clause": ("ends in .yaml", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/pets/dogs.yaml": ("it lies too deep", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "terms/a/b/c/dogs.yml": ("it lies too deep", "move it to clauses/terms/dogs.yaml, or out of clauses"),
    "law/dogs.yaml": ("pages of the law come with the program", "move it out of clauses"),
}


@pytest.mark.parametrize("name", NOT_READ)
def test_what_is_not_read_is_found_with_where_it_belongs(name: str, tmp_path: Path) -> None:
    """At the file; where the clause is there already, the stray is to go."""
    put(tmp_path / "clauses", name)
    (finding,) = found(tmp_path / "clauses")
    why, fix = NOT_READ[name]
    assert (finding.rule, finding.level) == ("clause-not-read", Level.WARNS)
    assert finding.place.file == f"clauses/{name}"
    assert finding.message.startswith("no clause is read from this file: ") and why in finding.message
    assert finding.fix == fix
    if "law" not in name and name != "terms/dogs.YAML":  # which is the same file on some machines
        put(tmp_path / "clauses", "terms/dogs.yaml")
        (finding,) = found(tmp_path / "clauses")
        assert finding.fix == "clauses/terms/dogs.yaml is there already: move it out of clauses, or delete it"


def test_a_file_that_does_not_name_itself_belongs_where_it_lies(tmp_path: Path) -> None:
    """Such as an empty one."""
    for name in ("edging/recut.yml", "recut.yml"):
        put(tmp_path, name).write_text("# to be written\n", encoding="utf-8")
    assert [(f.place.file, f.fix) for f in found(tmp_path)] == [
        (
            "clauses/recut.yml",
            "move it into the folder of its decision, such as clauses/edging/recut.yaml",
        ),
        ("clauses/edging/recut.yml", "move it to clauses/edging/recut.yaml, or out of clauses"),
    ]


def test_a_folder_full_that_lies_too_deep_is_one_finding(tmp_path: Path) -> None:
    """A copy of last year's folder, say."""
    for name in ("a", "b", "c"):
        put(tmp_path, f"terms/old/{name}.yaml")
    (finding,) = found(tmp_path)
    assert finding.place.file == "clauses/terms/old/a.yaml"
    assert finding.message.endswith(", and so do 2 more there")


def test_a_folder_of_no_decision_is_found_at_its_clauses(tmp_path: Path) -> None:
    """With the folder that was meant, or all that there are; the clause is read all the same."""
    put(tmp_path, "edgings/brick.yaml", "edgings.brick")
    put(tmp_path, "fences/brick.yaml", "fences.brick")
    near, far = found(tmp_path)
    assert {near.rule, far.rule} == {"clause-folder"} and {near.level, far.level} == {Level.WARNS}
    assert near.place.file == "clauses/edgings/brick.yaml"
    assert near.message == "the folder 'edgings' is that of no decision, so no decision leads to this clause"
    assert near.fix == (
        "did you mean 'edging'? Move it to 'clauses/edging/brick.yaml', and write 'clause: edging.brick'"
    )
    assert set(FOLDERS) == set(far.fix.removeprefix("move it to one of: ").split(", "))
    assert {*DECISIONS, "extra"} < set(FOLDERS)
    assert "edgings.brick" in read_library(library_folder(), tmp_path).held


LEFT_ALONE = (
    ".recut.yaml", "terms/.dogs.yaml", "terms/.#dogs.yaml", ".git/config.yaml", "README.md", "README",
    "terms/notes.txt", "terms/why.md", "terms/dogs.yaml~", "terms/dogs.yaml.bak", "terms/dogs.yaml.orig",
    "terms/#dogs.yaml#", "terms/.old/dogs.yaml",
)  # fmt: skip


@pytest.mark.parametrize("name", LEFT_ALONE)
def test_notes_hidden_files_and_copies_of_editors_are_left_alone(name: str, tmp_path: Path) -> None:
    """Even where they hold a clause, word by word."""
    put(tmp_path, name)
    library = read_library(library_folder(), tmp_path)
    assert library.findings == () and "terms.dogs" not in library.held


def test_other_files_are_left_alone_unless_they_name_a_clause(tmp_path: Path) -> None:
    """A picture, a table, a pipe that nobody writes to."""
    import os

    (tmp_path / "terms").mkdir()
    (tmp_path / "terms" / "dog.png").write_bytes(bytes(range(256)) * 4)
    (tmp_path / "terms" / "dogs.csv").write_text("dog,clause: none\n", encoding="utf-8")
    os.mkfifo(tmp_path / "terms" / "pipe")
    assert found(tmp_path) == []


def test_a_link_to_elsewhere_is_not_looked_into(tmp_path: Path) -> None:
    """What it leads to is not the contractor's own."""
    theirs = put(tmp_path / "theirs", "secret")
    own = tmp_path / "home" / "clauses"
    (own / "terms").mkdir(parents=True)
    (own / "terms" / "dogs").symlink_to(theirs)
    assert found(own) == []


def test_a_job_and_the_proofs_show_them_and_nothing_is_stopped(tmp_path: Path) -> None:
    """Both read the same folder; one that is taken away is seen in the same run."""
    job, kept = laid(tmp_path, example()), Kept()
    stray = put(tmp_path / "clauses", "terms/old/dogs.yaml")

    def of_the_job() -> list[str]:
        return [f.place.file for f in check(open_case(job, kept=kept)).findings if f.rule in RULES]

    assert of_the_job() == [str(stray)]
    result = CliRunner().invoke(scopegen, ["clauses", "check", "--in", str(tmp_path), "--json"])
    assert result.exit_code == 0
    assert [f["rule"] for f in json.loads(result.stdout)["findings"]] == ["clause-not-read"]
    stray.unlink()
    assert of_the_job() == []


def test_what_ships_and_the_examples_have_none() -> None:
    """Each of the folders that are known ships."""
    assert {path.name for path in library_folder().iterdir()} == {*FOLDERS, "law"}
    assert [f for f in found(EXAMPLES / "clauses") if f.rule in RULES] == []
