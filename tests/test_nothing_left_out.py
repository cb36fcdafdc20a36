"""Nothing left out: whatever an example leaves undecided is found, by bed, decision and line; no finding on
another decision goes missing; and once decided, the word stands in that cell of the paper."""

from __future__ import annotations

import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen import build
from scopegen.check import check
from scopegen.cli.commands import scopegen
from scopegen.findings import Finding
from scopegen.job import DECISIONS, SITE_DECISIONS
from tests.tagged import Rows, tables

EXAMPLES = Path(__file__).parents[1] / "example_scopes"
JOB = EXAMPLES / "heron-bend.yaml"
TEXT = JOB.read_text(encoding="utf-8")
BY_THE_PRICE = {"minimum-applies"}  # what the whole price comes to changes with every decision
RULE = {decision: f"open-{decision.replace('_', '-')}" for decision in DECISIONS} | dict.fromkeys(
    SITE_DECISIONS, "open-site"
)
BEDS = ["Front walk", "Entry corner", "Side fence", "Maple ring", "Back patio", "Street strip"]


@dataclass(frozen=True)
class Block:
    """A key's lines in the text, from 0, the last one excluded."""

    first: int
    last: int


def block(key: str, lines: list[str], begin: int, end: int, indent: int) -> Block | None:
    """Where a key of this indentation stands between two lines, with all that belongs to it."""
    for i in range(begin, end):
        if re.match(rf"{' ' * indent}{re.escape(key)}:(\s|$)", lines[i]):
            j = i + 1
            while j < end and (not lines[j].strip() or len(lines[j]) - len(lines[j].lstrip()) > indent):
                j += 1
            return Block(i, j)
    return None


def bed_lines(lines: list[str], bed: str) -> tuple[int, int]:
    """The lines of a bed, from its name line."""
    begin = next(i for i, line in enumerate(lines) if line == f"  - name: {bed}")
    end = next(i for i in range(begin + 1, len(lines)) if re.match(r"  - name: |\S", lines[i]))
    return begin, end


def top(lines: list[str], key: str) -> tuple[int, int]:
    """The lines of a key of the job itself."""
    found = block(key, lines, 0, len(lines), 0)
    assert found is not None
    return found.first, found.last


def findings(folder: Path, text: str) -> set[Finding]:
    for name in ("company.yaml", "prices-2027.yaml"):
        (folder / name).write_text((EXAMPLES / name).read_text(encoding="utf-8"), encoding="utf-8")
    path = folder / "job.yaml"
    path.write_text(text, encoding="utf-8")
    return {finding for finding in check(build.open_case(path)).findings if finding.rule not in BY_THE_PRICE}


def without_place(found: set[Finding]) -> set[tuple[str, str, str | None, str | None]]:
    return {(f.rule, f.message, f.bed, f.decision) for f in found}


def assert_only_open(folder: Path, lines: list[str], expected: set[tuple[str, str | None, str, int]]) -> None:
    """These lines leave exactly this open, as (rule, bed, decision, line); no finding on another decision is
    lost, and no agreement is written."""
    before, after = findings(folder, TEXT), findings(folder, "\n".join(lines))
    opened = {(bed, decision) for _, bed, decision, _ in expected}
    assert {f for f in without_place(before) if f[2:] not in opened} <= without_place(after)
    new = {
        (f.rule, f.bed, f.decision, f.place.line)
        for f in after
        if (f.rule, f.message, f.bed, f.decision) not in without_place(before)
    }
    assert new == expected
    paper = folder / "paper.pdf"
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(folder / "job.yaml"), "-o", str(paper)])
    assert result.exit_code == 1
    assert not paper.exists()


OPENED = ["{key}: open", "{key}:", "{key}: {{decided: open}}", "{key}: [{{decided: open}}]"]


@pytest.mark.parametrize("bed", BEDS)
@pytest.mark.parametrize("decision", DECISIONS)
@pytest.mark.parametrize("opened", OPENED[:2])
def test_bed_decision_opened(tmp_path: Path, bed: str, decision: str, opened: str) -> None:
    """A decision that is set to `open`, or left empty, is found at its own line; said by the bed or not."""
    lines = TEXT.split("\n")
    begin, end = bed_lines(lines, bed)
    found = block(decision, lines, begin, end, 4) or Block(end, end)
    while lines[found.first - 1] == "" and found.first == found.last:
        found = Block(found.first - 1, found.first - 1)
    lines[found.first : found.last] = ["    " + opened.format(key=decision)]
    assert_only_open(tmp_path, lines, {(RULE[decision], bed, decision, found.first + 1)})


@pytest.mark.parametrize("decision", ["edging"])
@pytest.mark.parametrize("bed", BEDS)
def test_bed_decision_deleted(tmp_path: Path, bed: str, decision: str) -> None:
    """A decision that no line says is found at the bed's name."""
    lines = TEXT.split("\n")
    begin, end = bed_lines(lines, bed)
    found = block(decision, lines, begin, end, 4)
    assert found is not None
    del lines[found.first : found.last]
    assert_only_open(tmp_path, lines, {(RULE[decision], bed, decision, begin + 1)})


INHERITED = ["material", "bed_prep", "debris", "substrate"]


def inheriting(lines: list[str], decision: str) -> list[str]:
    return [bed for bed in BEDS if block(decision, lines, *bed_lines(lines, bed), 4) is None]


@pytest.mark.parametrize("decision", INHERITED)
def test_inherited_decision_deleted(tmp_path: Path, decision: str) -> None:
    """Taken out of `every_bed`, a decision is open in each bed that had it from there, at the bed's name."""
    lines = TEXT.split("\n")
    found = block(decision, lines, *top(lines, "every_bed"), 2)
    assert found is not None
    beds = inheriting(lines, decision)
    assert beds
    del lines[found.first : found.last]
    expected = {(RULE[decision], bed, decision, bed_lines(lines, bed)[0] + 1) for bed in beds}
    assert_only_open(tmp_path, lines, expected)


@pytest.mark.parametrize("decision", INHERITED)
@pytest.mark.parametrize("opened", OPENED)
def test_inherited_decision_opened(tmp_path: Path, decision: str, opened: str) -> None:
    """Opened in `every_bed`, it is open in each bed that has it from there, at the line of `every_bed`."""
    lines = TEXT.split("\n")
    found = block(decision, lines, *top(lines, "every_bed"), 2)
    assert found is not None
    lines[found.first : found.last] = ["  " + opened.format(key=decision)]
    expected = {(RULE[decision], bed, decision, found.first + 1) for bed in inheriting(lines, decision)}
    assert_only_open(tmp_path, lines, expected)


@pytest.mark.parametrize("decision", SITE_DECISIONS)
@pytest.mark.parametrize("opened", [None, *OPENED[:2]])
def test_site_decision_left_open(tmp_path: Path, decision: str, opened: str | None) -> None:
    """A site decision is found too: deleted, at the `site` key; opened, at its own line."""
    lines = TEXT.split("\n")
    begin, end = top(lines, "site")
    found = block(decision, lines, begin, end, 2)
    assert found is not None
    lines[found.first : found.last] = [] if opened is None else ["  " + opened.format(key=decision)]
    line = begin + 1 if opened is None else found.first + 1
    assert_only_open(tmp_path, lines, {("open-site", None, decision, line)})


SHORTENED = [
    (
        "Front walk",
        "edging",
        "{decided: add-on, work: new-edge, along: rest}",
        "{decided: add-on, work: new-edge, along: 20 ft}",
    ),
    ("Side fence", "substrate", "area: rest, because", "area: 30 ft2, because"),
    ("Back patio", "substrate", "      - {decided: included, work: rake-and-top-up, on: sunny end}", None),
    ("Front walk", "edging", "      - {decided: add-on, work: new-edge, along: rest}", None),
]


@pytest.mark.parametrize(("bed", "decision", "said", "shorter"), SHORTENED)
def test_part_shortened(tmp_path: Path, bed: str, decision: str, said: str, shorter: str | None) -> None:
    """A part made shorter leaves ground or edge that nobody decided: found at the decision."""
    lines = TEXT.split("\n")
    begin, end = bed_lines(lines, bed)
    number = next(i for i in range(begin, end) if said in lines[i])
    found = block(decision, lines, begin, end, 4)
    assert found is not None
    lines[number : number + 1] = [] if shorter is None else [lines[number].replace(said, shorter)]
    assert_only_open(tmp_path, lines, {("parts-miss-bed", bed, decision, found.first + 1)})


@pytest.fixture(scope="module")
def paper(tmp_path_factory: pytest.TempPathFactory) -> list[Rows]:
    path = tmp_path_factory.mktemp("paper") / "heron-bend.pdf"
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(JOB), "-o", str(path)])
    assert result.exit_code == 0, result.output
    return tables(path)


# The word of each cell, by hand from the job description.
WORDS = {
    "Front walk": ["included", "included, no charge this time", "included, add-on", "included", "included"],
    "Entry corner": ["included", "included", "included", "included", "included"],
    "Side fence": ["included", "you do it", "not in this price", "included", "included, fine as it is"],
    "Maple ring": ["included", "included", "included", "included", "fine as it is"],
    "Back patio": ["included", "included, add-on", "fine as it is", "included", "add-on, included"],
    "Street strip": [
        "fine as it is",
        "done by the neighborhood association",
        "no charge this time",
        "included",
        "included",
    ],
}
SITE_WORDS = {
    "Buried lines": "included",
    "Access and drop spot": "included",
    "Irrigation and lighting": "you do it",
    "Drains and slope": "fine as it is",
    "Plants to keep": "included",
    "Movables and pets": "you do it",
    "Final clean-up": "included",
    "Leftover material": "included",
    "Care afterwards": "not in this price",
}
HEADS = ["Bed", "Mulch and stone", "Bed prep", "Edging", "Debris", "Ground underneath"]


def squeezed(text: str) -> str:
    return re.sub(r"\s+", "", text)


@pytest.mark.parametrize("bed", BEDS)
def test_word_stands_in_the_cell_of_the_paper(paper: list[Rows], bed: str) -> None:
    """Every bed and decision has in the PDF's table the word that the job gave it."""
    scope = [
        table
        for table in paper
        if [squeezed(cell) for cell in table[0]] == [squeezed(head) for head in HEADS]
    ]
    assert scope
    (row,) = [row for table in scope for row in table[1:] if squeezed(row[0]).startswith(squeezed(bed))]
    assert len(row) == 6
    for cell, word in zip(row[1:], WORDS[bed], strict=True):
        assert squeezed(cell).startswith(squeezed(word)), (cell, word)


@pytest.mark.parametrize("decision", SITE_WORDS)
def test_word_stands_for_the_site_decision(paper: list[Rows], decision: str) -> None:
    """So has every decision for the whole property."""
    (row,) = [row for table in paper for row in table[1:] if squeezed(row[0]) == squeezed(decision)]
    assert squeezed(row[1]) == squeezed(SITE_WORDS[decision])


def test_every_open_decision_of_the_walk_is_named() -> None:
    """`check` names each open decision of the second example."""
    result = CliRunner().invoke(scopegen, ["check", str(EXAMPLES / "quarry-lane.yaml")])
    assert result.exit_code == 1
    for named in (
        "open: Garage side, bed prep",
        "open: Garage side, edging",
        "open: Garage side, substrate",
        "open: the property, irrigation-and-lighting",
        "open: the property, drains-and-slope",
    ):
        assert named in result.output
    assert "19 decisions: 14 decided, 5 open." in result.output
