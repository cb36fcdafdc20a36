"""What the agreement says of estimates, choices, visits, several properties, business customers and stone."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.papers.agreement import compose
from scopegen.papers.document import Choices, Document, Facts, Glance, Paragraph, Signatures, Table, walk
from scopegen.papers.frame import frame_of
from scopegen.words import lexicon
from tests.jobs import EXAMPLES, agreement, section, words_of
from tests.price.test_limits import TRIM
from tests.price.test_lots import LADDER, THEIRS, VISITS
from tests.price.test_sites import TWO
from tests.rules.laid_over import opened


def paper(folder: Path, over: str) -> Document:
    return compose(frame_of(opened(folder, over), lexicon("en")))


def table(document: Document, key: str) -> dict[str, list[str]]:
    """A section's first table, by its first column; notes after a slash."""
    found = next(block for block in section(document, key) if isinstance(block, Table))
    return {
        row.cells[0].text: [" / ".join([cell.text, *cell.notes]) for cell in row.cells[1:]]
        for row in found.rows
    }


def test_estimate_is_called_one_and_says_the_most(tmp_path: Path) -> None:
    """An hour rate with a limit makes the price an estimate, on the first page and at the total."""
    document = paper(tmp_path, TRIM % ", not_over: 250.00")
    (glance,) = [block for _, block in walk(document) if isinstance(block, Glance)]
    label, figure, note = glance.entries[0]
    rows = table(document, "price")
    assert label == "Estimate" and rows["Estimate"][-1] == figure
    most = rows["The most that it may come to without a change order"][-1]
    assert f"at most {most}" in note
    assert rows["Trim shrubs"] == ["about 3 h", "$60.00", "$180.00"]
    assert "Total" not in rows


def test_fixed_price_is_a_total(tmp_path: Path) -> None:
    """Without such work there is no word of an estimate."""
    document = paper(tmp_path, TRIM % "")
    rows = table(document, "price")
    assert "Total" in rows and "Estimate" not in rows
    assert rows["Trim shrubs"] == ["3 h", "$60.00", "$180.00"]


def test_by_measure_says_about_and_how_it_is_counted(tmp_path: Path) -> None:
    """The quantity is about; the sentence under the table says what is paid for."""
    document = paper(tmp_path, "job: {price_basis: by measure, tolerance: 10 %}")
    assert table(document, "price")["Hardwood mulch"] == ["about 1 yd³", "$100.00", "$100.00"]
    assert "You pay for what is delivered, in steps of 0.5 yd³." in words_of(
        section(document, "work-material")
    )


CHOICES = (
    "job: {beds: [{edging: [{decided: add-on, work: recut-edge, choose_one: the edge},"
    " {decided: add-on, work: new-edge, choose_one: the edge}],"
    " bed_prep: [{decided: included, work: hand-weed}, {decided: add-on, work: weed-preventer}]}]}\n"
    "company: {applicator_license: AP-555}"
)


def test_choices_that_exclude_each_other_stand_under_one_heading(tmp_path: Path) -> None:
    """First what goes with anything, then the group, each of its choices by its work's name."""
    blocks = section(paper(tmp_path, CHOICES), "add-ons")
    kinds = [
        [choice.title for choice in block.entries] if isinstance(block, Choices) else block.text
        for block in blocks
        if isinstance(block, (Choices, Paragraph))
    ]
    assert kinds[1:4] == [
        ["Weed preventer, Front bed"],
        "The edge: choose one at the most",
        ["Recut a spade edge, Front bed", "Cut a new spade edge, Front bed"],
    ]


def test_materials_that_exclude_each_other_stand_by_their_names(tmp_path: Path) -> None:
    """Two mulches have one clause: its title would tell neither."""
    one = "{decided: add-on, use: %s, depth: 2 in, choose_one: the mulch}"
    over = f"job: {{beds: [{{material: [{one % 'hardwood'}, {one % 'pine-bark'}]}}]}}"
    (choices,) = [block for block in section(paper(tmp_path, over), "add-ons") if isinstance(block, Choices)]
    assert [choice.title for choice in choices.entries] == [
        "Hardwood mulch, Front bed",
        "Pine bark, Front bed",
    ]


def test_visits_are_listed_with_what_is_done_and_paid(tmp_path: Path) -> None:
    """The table of visits, the payments, and the lines of material and hauling name them."""
    document = paper(tmp_path, VISITS)
    rows = table(document, "visits")
    assert rows["spring"][0] == "between April 12 and April 16, 2027"
    assert "Hardwood mulch" in rows["fall"][1] and "Haul away" in rows["fall"][1]
    assert list(table(document, "payments")) == ["When you sign, spring", "On completion, fall"]
    notes = [
        cell.notes
        for block in section(document, "price")
        if isinstance(block, Table)
        for row in block.rows
        for cell in row.cells[:1]
        if cell.text == "Hardwood mulch"
    ]
    assert notes == [("A", "spring"), ("B", "fall")]
    told = [
        row.cells[0].notes[0]
        for block in section(document, "price")
        if isinstance(block, Table)
        for row in block.rows
        if row.cells[0].text.startswith("Haul away")
    ]
    assert told == ["spring", "fall"]


def test_each_property_has_its_sum_and_its_signature(tmp_path: Path) -> None:
    """The sums are the total, the split of the hauling is stated, and both owners sign."""
    document = paper(tmp_path, TWO.replace("MORE", ""))
    rows = table(document, "sites")
    total = table(document, "price")["Total"][-1]
    sums = [float(row[-1].removeprefix("$")) for row in rows.values()]
    assert f"${sum(sums):.2f}" == total
    assert "Hauling is split as agreed: No. 1 60 % and No. 3 40 %." in words_of(section(document, "sites"))
    (signatures,) = [block for block in section(document, "sign") if isinstance(block, Signatures)]
    assert [signer.name for signer in signatures.signers][:2] == ["Pat Sample", "Lee Sample"]
    assert signatures.signers[1].role == "Customer, No. 3"


BUSINESS = (
    "job: {purpose: business, customer: {bill_to: [Sample Offices, PO Box 00], po_number: PO-555,"
    " tax_exempt: {certificate: EX-55501}, signs_as: manager}}"
)


def test_business_customer_sees_bill_order_and_exemption(tmp_path: Path) -> None:
    """On the first page, and the exemption in the price."""
    document = paper(tmp_path, BUSINESS)
    (facts,) = [block for _, block in walk(document) if isinstance(block, Facts)]
    assert {fact.label: fact.lines for fact in facts.entries}["Bill to"] == (
        "Sample Offices", "PO Box 00", "Purchase order PO-555", "Tax exempt, certificate EX-55501",
    )  # fmt: skip
    assert table(document, "price")["Tax exempt, certificate EX-55501"][-1] == "$0.00"
    assert not any("cancel" in key for key in [each.key for each in document.sections])


def test_exemption_from_one_tax_names_it(tmp_path: Path) -> None:
    """The other one stands as it is."""
    over = "job: {customer: {tax_exempt: {certificate: EX-1, kinds: [services]}}}"
    rows = table(paper(tmp_path, over), "price")
    assert rows["Exempt from Tax on services, certificate EX-1"][-1] == "$0.00"
    assert rows["Tax on goods, 6 % on $100.00"][-1] == "$6.00"


def test_spreading_alone_is_named_as_such(tmp_path: Path) -> None:
    """The customer's own mulch is no delivery and no material that we sell."""
    rows = table(paper(tmp_path, THEIRS), "price")
    assert rows["Spreading alone, Hardwood mulch"] == ["0.5 yd³", "$48.00", "$24.00"]
    assert not [label for label in rows if label.startswith("Delivery")]


def test_price_held_for_colors_together_prints_no_single_price(tmp_path: Path) -> None:
    """33.33 is no price for one unit."""
    ladder = LADDER % "60.00"
    document = paper(
        tmp_path,
        "job: {beds: [{name: A, shape: {rectangle: {length: 10 ft, width: 6 ft}}},"
        " {name: B, material: {use: pine-bark, depth: 2 in}}]}\n"
        f"chart: {{materials: {{hardwood: {{{ladder}}}, pine-bark: {{{ladder}}}}}}}",
    )
    assert table(document, "price")["Hardwood mulch"] == ["0.5 yd³", "price of the colors together", "$33.33"]


def test_bed_told_by_its_volume_has_no_area_on_paper(tmp_path: Path) -> None:
    """Its row in the table of material says so, and the scope table has the volume."""
    from tests.measure.test_told_and_grown import told

    document = paper(tmp_path, told())
    assert table(document, "work-material")["Front bed"] == ["Hardwood mulch", "", "as told", "3.00 yd³"]
    scope = next(block for block in section(document, "scope") if isinstance(block, Table))
    assert scope.rows[0].cells[0].notes == ("3.00 yd³, by eye",)


def test_commercial_site_signed_at_the_office_has_no_notice() -> None:
    """Neither the statement beside the signature nor the form in duplicate: it is no household sale."""
    document = agreement(EXAMPLES / "tern-court.yaml")
    assert not [each.key for each in document.sections if each.key.startswith("notice")]
    (signatures,) = [block for block in section(document, "sign") if isinstance(block, Signatures)]
    assert signatures.statement == ""


def test_stone_job_signed_at_home_has_its_notice() -> None:
    """16 CFR 429.0(a): $25 or more, at the buyer's residence."""
    document = agreement(EXAMPLES / "cedar-row.yaml")
    assert len([each for each in document.sections if each.key.startswith("notice")]) == 2


@pytest.mark.parametrize("name", ["cedar-row", "tern-court", "heron-bend", "garza-lane", "heron-bend-2028"])
def test_office_sees_hours_orders_and_the_lowest_price(name: str) -> None:
    """In the terminal, and nothing of it on the customer's paper."""
    result = CliRunner().invoke(scopegen, ["price", str(EXAMPLES / f"{name}.yaml")])
    for said in ("To order", "19 times in 20", "runs short", "The lowest price that pays is"):
        assert said in " ".join(result.stdout.split())
    document = agreement(EXAMPLES / f"{name}.yaml")
    told = words_of(tuple(block for _, block in walk(document)))
    assert "lowest price" not in told and "runs short" not in told and "profit" not in told


@pytest.mark.parametrize(("amount", "there"), [("0.25", "0.25 yd³"), ("0.5", "0.50 yd³")])
def test_what_lies_there_already_is_told_where_the_rest_is_sold(
    tmp_path: Path, amount: str, there: str
) -> None:
    """What is bought and what lies there are together what the table of material lays."""
    over = (
        f"job: {{on_hand: {{use: hardwood, amount: {amount} yd3, spot: behind the shed}}}}\n"
        "chart: {materials: {hardwood: {spread_only: 48.00}}}"
    )
    said = words_of(section(paper(tmp_path, over), "work"))
    assert f"{there} more comes from what lies there already." in said
    assert "lies there already" not in words_of(section(paper(tmp_path / "none", ""), "work"))


@pytest.mark.parametrize(("role", "asked"), [("owner", 0), ("tenant", 0), ("manager", 1), ("association", 1)])
def test_who_signs_for_an_office_prints_their_name(tmp_path: Path, role: str, asked: int) -> None:
    """A customer who is no person signs by somebody, whose name stands nowhere else."""
    document = paper(tmp_path, f"job: {{customer: {{signs_as: {role}}}}}")
    (signatures,) = [block for block in section(document, "sign") if isinstance(block, Signatures)]
    customer, contractor = signatures.signers
    assert [line.label for line in customer.lines].count("Printed name") == asked
    assert "Printed name" not in [line.label for line in contractor.lines]


def test_draft_of_what_is_decided_lists_nothing_open(tmp_path: Path) -> None:
    """No heading stands over nothing; where a decision is open, it is listed."""
    decided = compose(frame_of(opened(tmp_path / "decided"), lexicon("en"), draft=True))
    assert not [section for section, _ in walk(decided) if section.key == "open"]
    still = opened(tmp_path / "open", "job: {beds: [{substrate: {decided: open}}]}")
    assert section(compose(frame_of(still, lexicon("en"), draft=True)), "open")
