"""What stands for a clause that is no longer used, and for work in a price chart: of the same decision, with
the same ways to decide; a job that would take another is stopped."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.findings import Level
from scopegen.proofs import proofread
from tests.proofs.workspaces import stock_of
from tests.rules.laid_over import checked, opened

HAUL = "debris.haul-away"


def retired(*pairs: tuple[str, str], season: int = 2027) -> str:
    """Clauses that are no longer used, each with what stands for it."""
    files = (
        f"{name.replace('.', '/')}.yaml: '{{clause: {name}, no_longer: {{season: {season}, because: ours,"
        f" instead: {instead}}}}}'"
        for name, instead in pairs
    )
    return f"{{clauses: {{{', '.join(files)}}}}}"


def stopping(folder: Path, fragment: str) -> dict[str, tuple[str, str]]:
    found = checked(folder, fragment).findings
    return {
        each.rule: (each.message.removeprefix("Front bed: "), each.fix)
        for each in found
        if each.level is Level.STOPS
    }


def proofs(folder: Path, fragment: str) -> dict[str, str]:
    rules = ("stands-for-another", "stands-without-wording", "instead-of-nothing")
    return {each.rule: each.message for each in proofread(stock_of(folder, fragment)) if each.rule in rules}


def test_an_edge_is_not_sold_as_hauling(tmp_path: Path) -> None:
    """The clause has wording for `included`, and no job takes it for an edge."""
    fragment = retired(("edging.recut", HAUL))
    assert stopping(tmp_path, fragment) == {
        "clause-decides": (
            "the clause 'debris.haul-away', which stands for 'edging.recut' from season 2027 on, decides"
            " 'debris', not 'edging'",
            "name a clause of 'edging' in the price chart, or under 'instead:' in the clause's file",
        )
    }
    case = opened(tmp_path, fragment)
    assert case.chosen is not None
    assert "edging" not in {said.decision for said in case.chosen.said}
    assert proofs(tmp_path, fragment) == {
        "stands-for-another": "'debris.haul-away' is of 'debris', and is to stand for 'edging.recut', which"
        " is of 'edging'"
    }


@pytest.mark.parametrize("way", ["excluded", "customer", "add-on"])
def test_in_no_way_of_deciding(tmp_path: Path, way: str) -> None:
    part = "by: start, if_not_done: come back, " if way == "customer" else ""
    edging = f"{{decided: {way}, {part}work: recut-edge}}"
    fragment = f"{{job: {{beds: [{{edging: {edging}}}]}}, {retired(('edging.recut', HAUL))[1:]}"
    assert "clause-decides" in stopping(tmp_path, fragment)


@pytest.mark.parametrize(
    ("section", "key", "named", "told"),
    [
        ("work", "recut-edge", HAUL, "the clause 'debris.haul-away' decides 'debris', not 'edging'"),
        ("work", "recut-edge", "terms.color",
         "the clause 'terms.color' decides nothing, and so not 'edging'"),
        ("materials", "hardwood", "extra.hourly",
         "the clause 'extra.hourly' decides 'extra', not 'material'"),
    ],
)  # fmt: skip
def test_a_chart_that_names_another_decision(
    tmp_path: Path, section: str, key: str, named: str, told: str
) -> None:
    fragment = f"chart: {{{section}: {{{key}: {{clause: {named}}}}}}}"
    assert stopping(tmp_path, fragment) == {
        "clause-decides": (told, f"name a clause of '{told.split(chr(39))[-2]}' in the price chart")
    }
    assert f"and names the clause '{named}'" in proofs(tmp_path, fragment)["stands-for-another"]


@pytest.mark.parametrize(("named", "fine"), [("extra.hourly", True), ("extra.hedge-trim", False)])
def test_work_by_the_hour_in_a_bed(tmp_path: Path, named: str, fine: bool) -> None:
    """A clause that prints the work's own name says of any work what it is; one on hedges does not."""
    fragment = f"chart: {{work: {{recut-edge: {{clause: {named}}}}}}}"
    assert ("clause-decides" not in stopping(tmp_path, fragment)) is fine
    assert ("stands-for-another" not in proofs(tmp_path, fragment)) is fine
    instead = retired(("edging.recut", named))
    assert ("clause-decides" not in stopping(tmp_path, instead)) is fine
    assert ("stands-for-another" not in proofs(tmp_path, instead)) is fine


@pytest.mark.parametrize(
    ("pairs", "message"),
    [
        ([("edging.recut", "edging.recut")], "'edging.recut' is to stand for itself"),
        ([("edging.recut", "edging.new-edge"), ("edging.new-edge", "edging.recut")],
         "'edging.recut' is to stand for itself, since 'edging.new-edge' is no longer used either and leads"
         " back to it"),
    ],
)  # fmt: skip
def test_what_stands_for_itself(tmp_path: Path, pairs: list[tuple[str, str]], message: str) -> None:
    """At once, or round about; no job has wording from it."""
    fragment = retired(*pairs)
    assert proofs(tmp_path, fragment)["stands-for-another"] == message
    message, _ = stopping(tmp_path, fragment)["unknown-clause"]
    assert "is no longer used from season 2027 on, and none stands for it" in message


def test_a_chain_ends_at_what_stands_last(tmp_path: Path) -> None:
    """Each link is of the right decision but the last."""
    fragment = retired(("edging.recut", "edging.new-edge"), ("edging.new-edge", HAUL))
    assert "is to stand for 'edging." in proofs(tmp_path, fragment)["stands-for-another"]
    assert "clause-decides" in stopping(tmp_path, fragment)
    fragment = retired(("edging.recut", "edging.new-edge"), ("edging.new-edge", "edging.metal-edging"))
    assert proofs(tmp_path, fragment) == {}
    assert "clause-decides" not in stopping(tmp_path, fragment)


def test_a_sentence_on_what_follows_is_no_term(tmp_path: Path) -> None:
    """What follows from an exclusion is said by a sentence of that folder alone."""
    edging = "{decided: excluded, work: recut-edge}"
    over = retired(("outcomes.asked-later", "terms.color"))
    fragment = f"{{job: {{beds: [{{edging: {edging}}}]}}, {over[1:]}"
    message, _ = stopping(tmp_path, fragment)["clause-decides"]
    assert message == (
        "the clause 'terms.color' stands for 'outcomes.asked-later', and is none of the folder outcomes"
    )
    assert "is of 'terms', and is to stand for" in proofs(tmp_path, fragment)["stands-for-another"]


@pytest.mark.parametrize(
    ("instead", "message"),
    [
        ("edging.general", "'edging.general' is to stand for 'edging.recut', and has no wording for included,"
         " add-on, no-charge"),
        ("edging.ours", "'edging.ours' is to stand for 'edging.recut', and has no wording yet in 2027"),
        ("edging.metal-edging", ""),
    ],
)  # fmt: skip
def test_ways_that_are_lost_are_told(tmp_path: Path, instead: str, message: str) -> None:
    (tmp_path / "clauses" / "edging").mkdir(parents=True)
    (tmp_path / "clauses" / "edging" / "ours.yaml").write_text(
        "clause: edging.ours\ndecides: edging\ntitle: {en: Ours, es: Nuestro}\nways: [included]\nwording:\n"
        "  - season: 2028\n    en: {included: Ours.}\n    es: {included: Nuestro.}\n"
    )
    told = {"stands-without-wording": message} if message else {}
    assert proofs(tmp_path, retired(("edging.recut", instead))) == told
