"""`scopegen clauses show` beside a job's paper; near names of clauses; where clauses were read."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result

from scopegen.build import open_case
from scopegen.clauses import read_library
from scopegen.cli.commands import scopegen
from scopegen.library_folder import library_folder
from scopegen.papers.document import walk
from scopegen.report.shown import meant, show_json
from scopegen.season import opened
from tests.jobs import agreement, changed, example, laid, words_of
from tests.season.charts import source

RECUT = (
    "clause: edging.recut\nreplaces: parts\nwording:\n  - season: 2028\n    en:\n"
    "      included: We recut {{ length }} along {{ beds }}, and no more.\n"
)


def run(*words: object) -> Result:
    return CliRunner().invoke(scopegen, ["clauses", *map(str, words)])


@pytest.fixture
def job(tmp_path: Path) -> Path:
    """A job of 2027 in a folder that has gone on: a newer chart, and newer wording of its own."""
    job = laid(tmp_path, example())
    chart = (tmp_path / "prices-2027.yaml").read_text(encoding="utf-8")
    later = opened(source(chart), chart, 2029).text
    (tmp_path / "prices-2029.yaml").write_text(later, encoding="utf-8")
    path = tmp_path / "clauses" / "edging" / "recut.yaml"
    path.parent.mkdir(parents=True)
    path.write_text(RECUT, encoding="utf-8")
    return job


def shown(*words: object) -> dict[str, dict[str, object]]:
    """The texts of a clause, by their way."""
    said = json.loads(run("show", *words, "--json").stdout)
    return {text["way"]: text for text in said["texts"]}


@pytest.mark.parametrize("name", ["heron-bend", "garza-lane", "cedar-row"])
def test_every_clause_is_shown_as_the_paper_has_it(name: str, tmp_path: Path) -> None:
    """Whatever a decision, a term or a caution of a job prints stands on its paper word by word, in its
    season and its language, with the beds that it is said of."""
    job = laid(tmp_path, example(name))
    case, looked_at = open_case(job), 0
    assert case.chosen is not None
    blocks = tuple(block for _, block in walk(agreement(job)))
    paper = " ".join(words_of(blocks).split())
    library, asked = read_library(library_folder()), meant(case, job.name, None, None, 2029)

    def texts_of(clause: str) -> dict[str, Any]:
        return {text["way"]: text for text in show_json(library, clause, asked)["texts"]}

    for clause in sorted({said.clause for said in case.chosen.said}):
        texts = texts_of(clause)
        for said in case.chosen.said:
            if said.clause == clause:
                beds = ", ".join(str(case.bed_name(bed)) for bed in said.beds) or said.work
                assert {"of": beds, "text": said.whole_text} in texts[said.how]["on_paper"]
                assert said.text in paper
                assert texts[said.how]["version"] == said.version
                looked_at += 1
    for term in (*case.chosen.terms, *case.chosen.cautions):
        assert texts_of(term.clause)["says"]["on_paper"] == [{"of": "", "text": term.text}]
    assert looked_at > 12


def test_a_job_has_its_own_season_and_language_unless_another_is_asked_for(job: Path) -> None:
    """Not those of the newest chart; wording of another season is filled from the job, and said to be so."""
    text = run("show", "edging.recut", "--job", job).stdout
    assert f"  for {job}: season 2027, in 'en'\n" in text
    assert "included (version 2027, ships), on its paper for Front walk, Entry corner\n" in text
    assert "and no more" not in text
    later = run("show", "edging.recut", "--job", job, "--season", 2029).stdout
    assert f"season 2029, in 'en'; the paper of {job} is of season 2027, in 'en'\n" in later
    assert "on its paper" not in later and "and no more" in later
    assert "(version 2028, yours), filled with the values of Front walk, Entry corner (included)\n" in later
    spanish = run("show", "edging.recut", "--job", job, "--language", "es").stdout
    assert "filled with samples\n" in spanish and "Front walk" not in spanish
    job.write_text(changed(example(), ("language: en", "language: es")), encoding="utf-8")
    own = run("show", "edging.recut", "--job", job).stdout
    assert own.startswith("edging.recut: Borde cortado a pala") and "in 'es'\n" in own


def test_a_way_that_the_job_does_not_use_says_what_fills_it(job: Path) -> None:
    """The values of one part that has the clause, and samples where that has none; without a job, nothing."""
    text = run("show", "edging.recut", "--job", job).stdout
    part = "the values of Front walk, Entry corner (included)"
    assert f"  excluded (version 2027, ships), not on its paper, filled with {part}\n" in text
    assert f"  customer (version 2027, ships), not on its paper, filled with {part} and samples\n" in text
    assert " no later than [2 days before we start]." in " ".join(text.split())
    texts = shown("edging.recut", "--job", job)
    assert texts["customer"]["on_paper"] == [] and texts["included"]["filled_from"] == []
    assert texts["customer"]["filled_from"] == [part, "samples"]
    assert "filled with" not in run("show", "edging.recut", "--in", job.parent).stdout


def test_what_follows_a_decision_is_shown_as_the_paper_has_it(job: Path) -> None:
    """A clause of the outcomes, for each part that leads to it; a sentence that heads choices only where
    there are some."""
    case = open_case(job)
    assert case.chosen is not None
    gifts = [said for said in case.chosen.said if said.how == "no-charge"]
    paragraphs = shown("outcomes.no-charge", "--job", job)["says"]["on_paper"]
    assert [each["text"] for each in paragraphs] == [said.follows[-1] for said in gifts] != []  # type: ignore[index,attr-defined]
    assert shown("outcomes.choose-one", "--job", job)["says"]["on_paper"] == []
    (back,) = shown("outcomes.come-back", "--job", job)["says"]["on_paper"]  # type: ignore[misc]
    assert back["of"] == "movables-and-pets"
    assert shown("outcomes.add-on", "--job", job)["says"]["on_paper"] != []


def test_a_folder_beside_a_job_is_refused(job: Path) -> None:
    """The job's own folder is meant, and an option is never passed over."""
    result = run("show", "edging.recut", "--job", job, "--in", job.parent)
    assert result.exit_code == 2 and "Leave --in out, or --job." in result.stderr


def test_a_job_that_cannot_be_worded_is_refused(job: Path) -> None:
    """Its paper says nothing yet."""
    job.write_text(changed(example(), ("season: 2027", "season: 2031")), encoding="utf-8")
    result = run("show", "edging.recut", "--job", job)
    assert result.exit_code == 1 and "cannot be chosen yet" in result.stderr and not result.stdout


NEAR = {
    "recut": "did you mean 'edging.recut'?",
    "Recutt": "did you mean 'edging.recut'?",
    "edging/recut.yaml": "did you mean 'edging.recut'?",
    "edging.recutt": "did you mean 'edging.recut'?",
    "new edge": "did you mean 'edging.new-edge'?",
    "brick": "did you mean 'edging.stone-or-brick'?",
    "access": "did you mean 'site.access' or 'terms.access'?",
    "zzz": "There is no clause 'zzz'. `scopegen clauses list`",
}


@pytest.mark.parametrize("name", NEAR)
def test_near_names_are_offered_wherever_a_clause_is_named(name: str, job: Path) -> None:
    """The whole name, or the part behind the dot, in every command that takes one; nothing is written."""
    before = sorted(job.parent.rglob("*"))
    for words in (
        ["clauses", "show", name],
        ["clauses", "used", name],
        ["clauses", "compare", "2027", "2028", name],
        ["clauses", "edit", name, "--season", "2030"],
        ["season", "open", "2030", "--clause", name],
    ):
        result = CliRunner().invoke(scopegen, [*words, "--in", str(job.parent)])
        assert (result.exit_code, result.stdout) == (2, ""), words
        assert NEAR[name] in result.stderr, words
    assert sorted(job.parent.rglob("*")) == before


def test_a_clause_whose_file_is_not_sound_is_there(job: Path) -> None:
    """It is told from one that is not: the finding stands in place of other names."""
    (job.parent / "clauses" / "edging" / "brick.yaml").write_text("clause: edging.brick\n", encoding="utf-8")
    result = run("show", "edging.brick", "--in", job.parent)
    assert result.exit_code == 2
    assert "the clause has no wording" in result.stderr and "did you mean" not in result.stderr


def test_which_clauses_were_read_is_said(job: Path, tmp_path_factory: pytest.TempPathFactory) -> None:
    """The folder with how many files, or that no workspace was found, and where one is near."""
    own = job.parent / "clauses"
    line = f"Read: what ships, and 1 file of your own in {own}.\n"
    for words in (["check"], ["list"]):
        result = run(*words, "--in", job.parent)
        assert line in result.stdout and not result.stderr
        assert json.loads(run(*words, "--in", own, "--json").stdout)["own_clauses_in"] == str(own)
    away = tmp_path_factory.mktemp("away")
    missing = f"There is no company.yaml in {away} or above it: what ships alone is read"
    for words in (["check"], ["list"], ["show", "terms.color"], ["compare", "2027", "2028"]):
        result = run(*words, "--in", away)
        assert result.exit_code == 0
        assert result.stderr.startswith(missing) and result.stderr.count("\n") == 1
    said = run("check", "--json", "--in", away)
    assert json.loads(said.stdout)["own_clauses_in"] is None and missing in said.stderr
    assert not run("check", "--in", away, "--quiet").stderr
    (away / "ours").mkdir()
    (away / "ours" / "company.yaml").write_text("name: Example Beds\n", encoding="utf-8")
    assert f"One is in {away / 'ours'}: name it with --in." in run("check", "--in", away).stderr
