"""One fault, one finding: what is broken or open brings nothing else that stops; what is inherited is found
bed by bed at its one line; what is open is open in the tally too."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopegen import measure
from scopegen.findings import Level
from scopegen.job import DECISIONS
from scopegen.rules import RULES
from tests.rules.laid_over import checked

TREE_RING = (
    "{decides: extra, name: Cut a tree ring, price: {per: ft, amount: 2.00},"
    " spoil: {depth: 4 in, width: 2 in, profile: wedge, stream: sod}, clause: extra.hourly}"
)


def stopping(folder: Path, fragment: str) -> set[str]:
    return {finding.rule for finding in checked(folder, fragment).findings if finding.level is Level.STOPS}


@pytest.mark.parametrize(
    ("fragment", "rule"),
    [
        ("job: {every_bed: nothing of the kind}", "not-a-group"),
        ("job: {beds: nothing of the kind}", "not-a-list"),
        ("job: {site: nothing of the kind}", "not-a-group"),
        ("job: {beds: [{edging: recut-edge}]}", "value"),
        ("job: {beds: [{debris: {decided: perhaps}}]}", "unknown-word"),
        ("job: {beds: [{material: {use: hardwood, depth: '2'}}]}", "value"),
        ("job: {beds: [{shape: {rectangle: {length: 20 ft}}}]}", "missing-key"),
        ("job: {beds: [{found: {edge: fluffy}}]}", "unknown-word"),
        ("job: {extras: [{work: shrub-trim, decided: perhaps}]}", "unknown-word"),
        ("job: {walked: yesterday}", "value"),
        ("job: {dated: (left out)}", "missing-key"),
        ("job: {start: soon}", "value"),
        ("job: {offer_stands: a while}", "value"),
        ("job: {season: (left out)}", "missing-key"),
        ("job: {payments: in shells}", "value"),
        ("chart: {work: {recut-edge: {price: {per: ft, amount: cheap}}}}", "value"),
        ("chart: {materials: {hardwood: {price: cheap}}}", "value"),
        ("chart: {streams: none}", "value"),
        ("chart: {worker_hour: (left out)}", "missing-key"),
        ("chart: {job: {minimum: little}}", "value"),
        ("company: {applicator_license: (left out), signs: (left out)}", "missing-key"),
    ],
)
def test_what_is_broken_is_found_once(fragment: str, rule: str, tmp_path: Path) -> None:
    """Reading says what is not sound; no rule takes it for undecided, unknown or contradicting."""
    assert stopping(tmp_path, fragment) == {rule}


@pytest.mark.parametrize("decision", DECISIONS)
def test_what_is_open_is_found_once(decision: str, tmp_path: Path) -> None:
    """An open decision contradicts nothing yet."""
    name = f"open-{decision.replace('_', '-')}"
    assert stopping(tmp_path, f"job: {{beds: [{{{decision}: open}}]}}") == {name}


def test_part_with_a_slip_in_its_name_is_found_once(tmp_path: Path) -> None:
    """Who takes the debris is unclear until the part is named rightly, not untaken."""
    debris = (
        "[{decided: included, work: haul-away, on: noth}, {decided: included, work: haul-away, on: south}]"
    )
    over = f"job: {{beds: [{{parts: {{north: 40 ft2, south: rest}}, debris: {debris}}}]}}"
    assert stopping(tmp_path, over) == {"unknown-part"}


@pytest.mark.parametrize(
    ("debris", "rules"),
    [
        ("{decided: included, work: haul-away}", set()),
        ("open", {"open-debris"}),
        ("{decided: not-needed, because: there is none}", {"spoil-untaken"}),
    ],
)
def test_spoil_of_work_beside_the_beds_is_taken_by_somebody(
    debris: str, rules: set[str], tmp_path: Path
) -> None:
    """Extras make spoil as beds do."""
    bed = (
        "bed_prep: {decided: excluded}, edging: {decided: excluded},"
        f" substrate: {{decided: not-needed, because: it is loose}}, debris: {debris}"
    )
    over = (
        f"job: {{beds: [{{{bed}}}], extras: [{{work: tree-ring, along: 12 ft, decided: included}}]}}\n"
        f"chart: {{work: {{tree-ring: {TREE_RING}}}}}"
    )
    assert stopping(tmp_path, over) == rules


def test_what_is_inherited_is_found_bed_by_bed_at_its_line(tmp_path: Path) -> None:
    """Each bed is named, and each finding points at the one line under every_bed."""
    over = (
        "job: {every_bed: {bed_prep: {decided: elsewhere}, edging: open},"
        " beds: [{bed_prep: (left out), edging: (left out)},"
        " {name: Back bed, bed_prep: (left out), edging: (left out)}]}"
    )
    result = checked(tmp_path, over)
    lines = (tmp_path / "job.yaml").read_text(encoding="utf-8").splitlines()
    told = [
        (f.rule, f.bed, lines[f.place.line - 1].strip()) for f in result.findings if f.level is Level.STOPS
    ]
    assert sorted(told) == [
        ("needs-who", "Back bed", "bed_prep:"),
        ("needs-who", "Front bed", "bed_prep:"),
        ("open-edging", "Back bed", "edging: open"),
        ("open-edging", "Front bed", "edging: open"),
    ]
    said = {f.place.line for f in result.findings if f.level is Level.STOPS}
    assert said < set(range(1, lines.index("beds:") + 1))


@pytest.mark.parametrize(
    ("edging", "line"),
    [
        ("open", "edging: open"),
        ("[{decided: included, work: recut-edge, along: 20 ft}, {along: rest}]", "- along: rest"),
        ("[{decided: included, work: recut-edge, along: 20 ft}]", "edging:"),
        ("(left out)", "- name: Front bed"),
    ],
)
def test_what_is_open_stands_in_the_tally_where_the_finding_points(
    edging: str, line: str, tmp_path: Path
) -> None:
    """Said open, a part without a decision, a part that is missing, and nothing at all."""
    result = checked(tmp_path, f"job: {{beds: [{{edging: {edging}}}]}}")
    (finding,) = result.findings
    (entry,) = result.open
    assert (entry.bed, entry.decision, entry.place) == ("Front bed", "edging", finding.place)
    assert (finding.bed, finding.decision) == ("Front bed", "edging")
    assert finding.place.text.strip() == line
    assert ("Front bed", "edging") not in {(each.bed, each.decision) for each in result.decided}
    assert len(result.decided) + len(result.open) == 5 + 9  # five of one bed, nine of the site


def test_every_trouble_of_measuring_has_its_rule() -> None:
    """No word that measuring can say is left unreported."""
    folder = Path(str(measure.__file__)).parent
    said = {
        name
        for path in folder.glob("*.py")
        for name in re.findall(r'\bsay\(\s*"([a-z-]+)"', path.read_text(encoding="utf-8"))
    }
    assert len(said) >= 12
    assert said <= {rule.id for rule in RULES}


def test_customers_own_extra_can_fall_back_to_us(tmp_path: Path) -> None:
    """Work beside the beds has a price in the chart, so 'we do it' is no empty promise."""
    over = (
        "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: customer, by: start,"
        " if_not_done: we do it}]}"
    )
    assert stopping(tmp_path, over) == set()


def test_work_that_may_be_found_needs_its_license_too(tmp_path: Path) -> None:
    """Weed preventer that comes up in the middle of the job is spread under a license all the same."""
    over = "job: {if_found: [{what: seedlings, work: weed-preventer, call_first: yes}]}"
    assert stopping(tmp_path, over) == {"no-applicator-license"}


@pytest.mark.parametrize("way", ["included", "add-on", "no-charge"])
def test_edge_spoil_has_a_width(way: str, tmp_path: Path) -> None:
    """An edge's spoil without a width would be the whole bed's, four inches deep."""
    over = (
        f"job: {{beds: [{{edging: {{decided: {way}, work: recut-edge}}}}]}}\n"
        "chart: {work: {recut-edge: {spoil: {width: (left out), profile: (left out)}}}}"
    )
    assert stopping(tmp_path, over) == {"spoil-does-not-fit"}
