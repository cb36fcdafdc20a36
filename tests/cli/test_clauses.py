"""`scopegen clauses`: what it prints, and what it says to a slip."""

from __future__ import annotations

import io
import json
from pathlib import Path

import pikepdf
import pytest
from click.testing import CliRunner, Result

from scopegen.cli.commands import scopegen
from tests.jobs import EXAMPLES, changed, example, laid
from tests.render.standards import CHECKS

COLOR = (
    "clause: terms.color\nreplaces: parts\nwording:\n  - season: 2028\n    en:\n"
    "      says: Mulch and stone vary in color. Color fades in sun and rain.\n"
)
RECUT = "clause: edging.recut\nno_longer: {season: 2028, because: it was unclear, instead: edging.new-edge}\n"


def run(*words: object) -> Result:
    return CliRunner().invoke(scopegen, ["clauses", *map(str, words)])


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    """A workspace with a sharpened term, a clause that is no longer used, and two jobs."""
    laid(tmp_path, example())
    (tmp_path / "later.yaml").write_text(changed(example("cedar-row")), encoding="utf-8")
    for name, text in (("terms/color", COLOR), ("edging/recut", RECUT)):
        path = tmp_path / "clauses" / f"{name}.yaml"
        path.parent.mkdir(parents=True)
        path.write_text(text, encoding="utf-8")
    return tmp_path


def test_list_says_since_when_and_whose(workspace: Path) -> None:
    """The sharpened term is ours from 2028 on; what is no longer used has its reason."""
    (before,) = [line for line in run("list", "--in", workspace).stdout.splitlines() if "terms.color" in line]
    assert before.split()[:4] == ["terms.color", "Color", "2027", "ships"]
    text = run("list", "--in", workspace, "--season", 2028).stdout
    (after,) = [line for line in text.splitlines() if "terms.color" in line]
    assert after.split()[:4] == ["terms.color", "Color", "2028", "yours"]
    assert "edging.recut: from 2028 on, because it was unclear; instead: edging.new-edge" in text
    said = json.loads(run("list", "--in", workspace, "--season", 2028, "--json").stdout)
    assert said["no_longer_used"] == [
        {"clause": "edging.recut", "since": 2028, "because": "it was unclear", "instead": "edging.new-edge"}
    ]
    (edge,) = [clause for clause in said["clauses"] if clause["clause"] == "terms.color"]
    assert (edge["whose"], edge["since"], edge["taken"]) == (["own"], ["2028"], "always")


def test_list_works_without_a_workspace(tmp_path: Path) -> None:
    """The shipped library alone, for its own newest season."""
    result = run("list", "--in", tmp_path)
    assert result.exit_code == 0
    assert result.stdout.startswith("In force for season 2027")


def test_show_prints_every_way_with_its_blanks_filled(workspace: Path) -> None:
    """From samples, in brackets, and with a job from its values."""
    text = run("show", "edging.new-edge", "--in", workspace).stdout
    for way in ("included", "add-on", "no-charge", "excluded", "customer"):
        assert f"\n  {way} (version 2027, ships)\n" in text
    assert "{{" not in text and "[52 ft]" in text
    filled = run("show", "edging.new-edge", "--job", workspace / "job.yaml").stdout
    assert "37.7 ft" in filled and "Maple ring" in filled
    spanish = run("show", "terms.color", "--in", workspace, "--language", "es").stdout
    assert "El mantillo y la piedra" in spanish or "mantillo" in spanish


def test_show_of_what_is_not_there(workspace: Path) -> None:
    """The nearest names; what is not in force has its reason."""
    result = run("show", "edging.recutt", "--in", workspace)
    assert result.exit_code == 2
    assert result.stderr.startswith("There is no clause 'edging.recutt'; did you mean 'edging.recut'?")
    gone = run("show", "edging.recut", "--in", workspace, "--season", 2028)
    assert gone.stdout == (
        "edging.recut is not in force for season 2028, because it was unclear. Instead: edging.new-edge.\n"
    )
    result = run("show", "terms.color", "--in", workspace, "--language", "de")
    assert result.exit_code == 2
    assert "There is no wording in 'de'. Name one of: en, es." in result.stderr


def test_check_is_clean_and_says_what_it_looked_at(workspace: Path) -> None:
    """What ships and what is laid over it here."""
    result = run("check", "--in", workspace)
    assert result.exit_code == 0
    assert result.stdout.splitlines()[-1] == "Nothing to mend."
    assert " words a sentence" in result.stdout
    said = json.loads(run("check", "--in", workspace, "--json").stdout)
    assert said["findings"] == [] and said["clauses"] > 130 and {"en", "es"} == {*said["averages"]}


def test_check_finds_what_is_wrong_at_its_place(workspace: Path) -> None:
    """File, line and column, the exit code, and where to read more."""
    path = workspace / "clauses" / "terms" / "color.yaml"
    path.write_text(COLOR.replace("Color fades", "Color shall fade"), encoding="utf-8")
    result = run("check", "--in", workspace)
    assert result.exit_code == 0  # it warns
    assert f"{path}:6:13: warns: the text for 'says' says 'shall'" in result.stdout
    path.write_text(COLOR.replace("vary in color", "vary in {{ colour }}"), encoding="utf-8")
    result = run("check", "--in", workspace)
    assert result.exit_code == 1
    assert "has a blank 'colour' that nothing fills" in result.stdout
    assert "`scopegen explain RULE` tells more" in result.stdout
    path.write_text("clause: terms.color\nwording: [\n", encoding="utf-8")
    result = run("check", "--in", workspace)
    assert result.exit_code == 1 and "[yaml]" in result.stdout


def test_compare_tells_words_apart_in_brackets(workspace: Path) -> None:
    """Word by word, without colour; nothing where nothing changes."""
    text = run("compare", 2027, 2028, "terms.color", "--in", workspace).stdout
    assert "terms.color: Color (changed)" in text
    assert "Mulch and stone vary in [out: color and size from load to" in text
    assert text.endswith("1 clause changes from 2027 to 2028.\n")
    assert run("compare", 2028, 2028, "--in", workspace).stdout == "No wording changes from 2028 to 2028.\n"
    whole = run("compare", 2027, 2028, "--in", workspace).stdout
    assert "edging.recut: Spade edge recut (no longer used)\n  because: it was unclear\n" in whole
    assert "{{" not in whole
    said = json.loads(run("compare", 2027, 2028, "--in", workspace, "--json").stdout)
    assert [change["kind"] for change in said["changes"]] == ["gone", "changed"]


def test_compared_wording_on_paper_keeps_the_standards(workspace: Path) -> None:
    """A tagged PDF in which struck and underlined words are told in brackets too."""
    pdf = workspace / "compared.pdf"
    result = run("compare", 2027, 2028, "--in", workspace, "--pdf", pdf)
    assert result.stdout == f"Wrote {pdf}\n"
    with pikepdf.open(io.BytesIO(pdf.read_bytes())) as opened:
        kept = [check for check in CHECKS if not check.__module__.endswith(".files")]  # nothing is attached
        complaints = {check.__name__: check(opened) for check in kept}
    assert len(complaints) > 20
    assert {name: said for name, said in complaints.items() if said} == {}
    result = run("compare", 2027, 2028, "--in", workspace, "--pdf", workspace / "clauses")
    assert result.exit_code != 0 and "Traceback" not in result.output


def test_used_says_where_and_how(workspace: Path) -> None:
    """Each job with the version, the way and the beds."""
    text = run("used", "edging.recut", "--in", workspace).stdout
    assert "  version 2027: included, Front walk, Entry corner (work: recut-edge)" in text
    assert "  version 2027: no-charge, Street strip (work: recut-edge)" in text
    assert text.endswith("edging.recut is used in 2 jobs.\n")
    none = run("used", "edging.recut", "--in", workspace, "--season", 2031).stdout
    assert none == "No job here uses edging.recut.\n"
    said = json.loads(run("used", "terms.color", "--in", workspace, "--json").stdout)
    assert {use["version"] for use in said["uses"]} == {"2027"} and len(said["uses"]) == 2
    assert run("used", "outcomes.no-charge", "--in", workspace).stdout.count("version 2027") >= 1


def test_used_names_the_jobs_that_it_could_not_read(workspace: Path) -> None:
    """They are passed over aloud."""
    (workspace / "broken.yaml").write_text("job: [\n", encoding="utf-8")
    result = run("used", "terms.color", "--in", workspace)
    assert result.exit_code == 0
    assert f"Not understood, so not looked at: {workspace / 'broken.yaml'}" in result.stderr


def test_why_says_the_condition_of_each_clause(workspace: Path) -> None:
    """Decisions by their work, terms by their condition, and what the job lacks."""
    text = run("why", workspace / "job.yaml").stdout
    assert "  edging.new-edge (2027): edging included for Maple ring (work: new-edge)" in text
    assert "  terms.what-you-buy-fixed (2027): the price rests on this: fixed" in text
    assert "  terms.who (2027): always" in text
    absent = text.split("Known to the library, and in no way part of this job\n")[1]
    assert "  Mulch and stone: compost, new soil\n" in absent
    said = json.loads(run("why", workspace / "job.yaml", "--json").stdout)
    assert said["without_wording"] == [] and said["not_included"]["material"] == ["compost", "new soil"]


def test_why_of_a_job_that_cannot_be_worded(workspace: Path) -> None:
    """The findings that stand in the way."""
    (workspace / "job.yaml").write_text(
        changed(example(), ("season: 2027", "season: 2031")), encoding="utf-8"
    )
    result = run("why", workspace / "job.yaml")
    assert result.exit_code == 1
    assert "cannot be chosen yet" in result.stderr and "prices-2031.yaml" in result.stderr


def test_compared_wording_is_whole_in_its_language() -> None:
    """The samples in the blanks too."""
    text = run("compare", 2027, 2028, "edging.recut", "--in", EXAMPLES, "--language", "es").stdout
    assert "[in: No movemos la línea.]" in text
    assert "Cerca lateral" in text and "Side fence" not in text


def test_a_season_that_is_no_year_is_refused_in_plain_words() -> None:
    """As `start` refuses it, for options and for names."""
    for words in (["list", "--season", "zz"], ["compare", "2027", "zz"], ["used", "--season", "999"]):
        refused = run(*words)
        assert refused.exit_code == 2
        assert f"'{words[-1]}' is not a year from 2000 to 2100" in refused.stderr
