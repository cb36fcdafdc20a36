"""`scopegen explain`: every finding that can occur has a page, and the page is true."""

from __future__ import annotations

import ast
import json
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from ruamel.yaml import YAML

from scopegen.build import open_case
from scopegen.check import check
from scopegen.cli.commands import scopegen
from scopegen.findings import Level
from scopegen.load import Unreadable
from scopegen.manual import MEANS, PAGES, Page, near, page_of
from scopegen.manual.pieces import LEFT_OUT, pieces_of
from scopegen.proofs import PROOFS, Proof
from scopegen.report.manual import page_text
from scopegen.rules import RULES
from scopegen.rules.reading import READING, ReadingRule
from tests.jobs import EXAMPLES
from tests.rules.laid_over import checked

PACKAGE = Path(__file__).parents[1] / "scopegen"
# Calls that make a finding, and where their rule's id stands: its position, or its keyword.
MAKES = {
    "unreadable": 0,
    "_unreadable": 0,
    "Finding": 0,
    "finding": 0,
    "Complaint": 1,
    "_say": 1,
    "complaint": 2,
}
PASSED_ON = {"rule", "self.id", "context['rule']", "said.rule"}  # an id that was made elsewhere
LAID = [rule for rule in READING if rule.laid]
AS_A_FILE = [rule for rule in READING if rule.fails and not rule.laid]


def run(*words: str) -> Result:
    return CliRunner().invoke(scopegen, list(words))


def ids_in_the_code() -> set[str]:
    """Every literal rule id that a call in the program gives a finding."""
    found = set()
    for path in PACKAGE.rglob("*.py"):
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
            if not isinstance(node, ast.Call):
                continue
            name = getattr(node.func, "attr", getattr(node.func, "id", ""))
            if name not in MAKES:
                continue
            said = [keyword.value for keyword in node.keywords if keyword.arg == "rule"]
            said += node.args[MAKES[name] : MAKES[name] + 1]
            if not said and name == "complaint":
                found.add("value")  # what a complaint is where it does not say
            for each in said[:1]:
                if isinstance(each, ast.Constant):
                    found.add(each.value)
                else:
                    assert ast.unparse(each) in PASSED_ON, f"{path}:{node.lineno}"
    return found


def test_whatever_can_be_found_has_a_page() -> None:
    """No finding prints an id that `explain` does not know, and no page explains what nothing finds."""
    found = ids_in_the_code()
    assert len(found) > 25
    assert found == {rule.id for rule in READING}


def test_every_page_has_a_name_of_its_own() -> None:
    """Ids are not shared, between rules and reading neither, and each is found by its id."""
    names = [page.id for page in PAGES]
    assert len(names) == len(RULES) + len(READING) + len(PROOFS) == len(set(names))
    assert all(page_of(f"[{name}]") == page_of(name.upper()) is not None for name in names)
    assert set(MEANS) == set(Level)


@pytest.mark.parametrize("rule", LAID, ids=[rule.id for rule in LAID])
def test_examples_of_reading_that_are_laid_over_a_job(rule: ReadingRule, tmp_path: Path) -> None:
    """The one that fails has the finding and no other that stops; the one that passes has neither."""
    (tmp_path / "passes").mkdir()
    passing = checked(tmp_path / "passes", rule.passes).findings
    assert [f for f in passing if f.rule == rule.id or f.level is Level.STOPS] == []
    (tmp_path / "fails").mkdir()
    failing = checked(tmp_path / "fails", rule.fails).findings
    assert {f.rule for f in failing if f.level is Level.STOPS or f.rule == rule.id} == {rule.id}
    assert {f.level for f in failing if f.rule == rule.id} == {rule.level}


@pytest.mark.parametrize("rule", AS_A_FILE, ids=[rule.id for rule in AS_A_FILE])
def test_examples_of_reading_that_are_files(rule: ReadingRule, tmp_path: Path) -> None:
    """The lines that fail cannot be read for that reason; the lines that pass can, as far as they go."""
    path = tmp_path / "job.yaml"
    path.write_text(rule.fails, encoding="utf-8")
    with pytest.raises(Unreadable) as unreadable:
        open_case(path)
    assert unreadable.value.finding.rule == rule.id
    path.write_text(f"job: Front beds\n{rule.passes.removeprefix('job: Front beds')}", encoding="utf-8")
    assert rule.id not in {finding.rule for finding in check(open_case(path)).findings}


def plain(text: str) -> Any:
    return YAML(typ="safe", pure=True).load(text)


def without_left_out(value: Any) -> Any:
    """What an example says, less what it leaves out; a group of nothing else is empty."""
    if isinstance(value, dict):
        return {key: without_left_out(inner) for key, inner in value.items() if inner != LEFT_OUT} or None
    return [without_left_out(inner) for inner in value] if isinstance(value, list) else value


@pytest.mark.parametrize("page", PAGES, ids=[page.id for page in PAGES])
def test_example_reads_as_the_rule_has_it(page: Page) -> None:
    """Written out by lines it says what the rule's piece says; a bed has its name beside it."""
    for example in (page.rule.passes, page.rule.fails):
        if not example or isinstance(page.rule, ReadingRule) and not page.rule.laid:
            continue
        for (key, said), piece in zip(plain(example).items(), pieces_of(example), strict=True):
            if key in ("laws", "printed"):
                assert piece.yaml.startswith("# ")
                continue
            for bed in said.get("beds", ()):
                if isinstance(bed, dict):
                    bed.setdefault("name", "Front bed")
            wanted = plain(next(iter(said.values()))) if key == "clauses" else without_left_out(said)
            assert plain(piece.yaml) == wanted
            assert LEFT_OUT not in piece.yaml
            assert piece.yaml.count("is left out") == str(said).count(LEFT_OUT)


@pytest.mark.parametrize("page", PAGES, ids=[page.id for page in PAGES])
def test_page_is_complete_and_fits_a_terminal(page: Page) -> None:
    """What is asked, the level in words, why, both examples or none, and 80 columns at the most."""
    text = page_text(page)
    flat = " ".join(text.split())
    assert page.rule.asks in flat and page.rule.why in flat
    assert page.means in flat and (page.means == MEANS[page.rule.level]) != (
        isinstance(page.rule, Proof) and page.rule.level is not Level.NOTES
    )
    assert ("This passes:" in text) == ("This fails:" in text) == bool(page.rule.fails)
    assert max(map(len, text.splitlines())) <= 80
    assert page.rule.asks.endswith(".") and page.rule.why.endswith(".")


def test_explain_prints_the_page_as_a_person_would_write_it() -> None:
    """The whole page of one rule."""
    result = run("explain", "come-back-fee")
    assert result.exit_code == 0
    assert result.stdout == (
        "come-back-fee: stops\n\n"
        "Where we come back another day, the price chart says what that costs.\n\n"
        "Level: stops, which means: the agreement is not written until it is mended.\n\n"
        "Why: Coming back is a drive and a set-up for a crew. 'Leave the bed' offers it\ntoo.\n\n"
        "This passes:\n\n"
        "  in the job description:\n\n"
        "    beds:\n"
        "      - name: Front bed\n"
        "        bed_prep: {decided: customer, by: start, if_not_done: come back}\n\n"
        "This fails:\n\n"
        "  in the job description:\n\n"
        "    beds:\n"
        "      - name: Front bed\n"
        "        bed_prep: {decided: customer, by: start, if_not_done: come back}\n\n"
        "  in the price chart:\n\n"
        "    job:\n"
        "      # come_back is left out\n"
    )


def test_explain_alone_lists_every_rule_by_family() -> None:
    """Each id with its level and what it asks, within 80 columns."""
    text = run("explain").stdout
    lines = text.splitlines()
    assert max(map(len, lines)) <= 80
    flat = " ".join(text.split())
    for page in PAGES:
        assert f"{page.id} {page.rule.level} {page.rule.asks}" in flat
        assert page.rule.family.capitalize() in lines


def test_explain_in_json() -> None:
    """One rule, and all of them, for another program."""
    one = json.loads(run("explain", "needs-because", "--json").stdout)
    assert (one["rule"], one["level"]) == ("needs-because", "stops")
    assert one["fails"] == [
        {
            "file": "the job description",
            "yaml": "beds:\n  - name: Front bed\n    bed_prep: {decided: not-needed}\n",
        }
    ]
    every = json.loads(run("explain", "--json").stdout)["rules"]
    assert [each["rule"] for each in every] == [page.id for page in PAGES]
    assert one in every


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        ("egde-not-neded", "edge-not-needed"),
        ("unknwon_key", "unknown-key"),
        ("[open-edgeing]", "open-edging"),
        ("fabric", "mulch-on-fabric"),
    ],
)
def test_mistyped_rule_brings_the_nearest(typed: str, meant: str) -> None:
    """A slip of the hand, an underscore, a word of the id: the rule that was meant is named."""
    assert meant in near(typed)
    result = run("explain", typed)
    assert result.exit_code == 2
    assert meant in result.stderr and "`scopegen explain` alone lists every rule." in result.stderr
    assert meant in json.loads(run("explain", typed, "--json").stdout)["near"]


def test_rule_that_is_like_none_brings_the_list() -> None:
    """Nothing near: no guess, and where the list is."""
    result = run("explain", "zzz")
    assert result.exit_code == 2
    assert result.stderr == "There is no rule 'zzz'. `scopegen explain` alone lists every rule.\n"


def test_check_says_where_more_is() -> None:
    """The last line of findings leads to `explain`; where nothing was found there is nothing to tell."""
    last = run("check", str(EXAMPLES / "quarry-lane.yaml")).stdout.splitlines()[-1]
    assert last.startswith("`scopegen explain RULE` tells more; RULE is the word in brackets, such as ")
    named = last.removesuffix(".").split()[-1]
    assert run("explain", named).exit_code == 0


@pytest.mark.parametrize("kind", ["job", "chart", "company", "clause"])
def test_schema_is_printed_as_json(kind: str) -> None:
    """`scopegen schema` prints nothing but the schema."""
    result = run("schema", kind)
    assert result.exit_code == 0
    assert json.loads(result.stdout)["$schema"].endswith("/draft/2020-12/schema")


def test_schema_of_another_kind_is_refused() -> None:
    """The four kinds are named."""
    result = run("schema", "jobs")
    assert result.exit_code == 2
    assert "'job', 'chart', 'company', 'clause'" in result.stderr
