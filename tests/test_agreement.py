"""What the agreement says and leaves out."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from scopegen.papers.document import Choices, Paragraph, Signatures, Table, text_of, walk
from tests.jobs import EXAMPLES, agreement, changed, example, keys, laid, section, words_of
from tests.plain_language import Passage, Role, count, failed_tests

HERON = EXAMPLES / "heron-bend.yaml"
# 16 CFR 429.1(a), as prescribed: https://www.ecfr.gov/current/title-16/chapter-I/subchapter-D/part-429
STATEMENT = (
    "You, the buyer, may cancel this transaction at any time prior to midnight of the third business day"
    " after the date of this transaction. See the attached notice of cancellation form for an explanation"
    " of this right."
)


def test_statement_stands_with_the_signatures() -> None:
    """The prescribed statement is in immediate proximity to the buyer's signature: 16 CFR 429.1(a)."""
    (block,) = [block for block in section(agreement(HERON), "sign") if isinstance(block, Signatures)]
    assert block.statement == STATEMENT


def test_notice_is_there_in_duplicate_after_everything_else() -> None:
    """Two copies, on the last pages, so that tearing both off leaves the agreement whole: 16 CFR 429.1(b)."""
    assert keys(agreement(HERON))[-4:] == [
        "drawings",
        "working",
        "notice-us-federal-cooling-off-1",
        "notice-us-federal-cooling-off-2",
    ]


@pytest.mark.parametrize("place", ["customer's home", "remotely", "a fair"])
def test_notice_where_the_rule_reaches(tmp_path: Path, place: str) -> None:
    """At home, at a fair, and at a distance after a walk of the property, the notice is given."""
    path = laid(tmp_path, changed(example(), ("signed_at: customer's home", f"signed_at: {place}")))
    assert "notice-us-federal-cooling-off-1" in keys(agreement(path))


@pytest.mark.parametrize(
    "pair",
    [
        ("signed_at: customer's home", "signed_at: our office"),
        ("language: en", "language: en\npurpose: business"),
    ],
)
def test_no_notice_where_the_rule_does_not_reach(tmp_path: Path, pair: tuple[str, str]) -> None:
    """Signed at the contractor's own place, or bought for a business: no notice, and no statement."""
    document = agreement(laid(tmp_path, changed(example(), pair)))
    assert not [key for key in keys(document) if key.startswith("notice")]
    (block,) = [block for block in section(document, "sign") if isinstance(block, Signatures)]
    assert block.statement == ""


def test_days_of_the_notice_are_filled_for_a_day_of_signing() -> None:
    """Signed on Friday, March 26, 2027, the third business day is Tuesday, March 30: Saturday counts, Sunday
    does not (16 CFR 429.0(f))."""
    document = agreement(HERON, signed_on=date(2027, 3, 26))
    for number in (1, 2):
        text = words_of(section(document, f"notice-us-federal-cooling-off-{number}"))
        assert "Date of transaction March 26, 2027" in text
        assert "not later than midnight of March 30, 2027." in text
    assert "last-days" not in keys(document)


def test_last_days_are_listed_for_each_day_of_the_offer() -> None:
    """Without a day of signing there is a row for each of the offer's 22 days, March 19 to April 9."""
    (table,) = [block for block in section(agreement(HERON), "last-days") if isinstance(block, Table)]
    cells = [cell.text for row in table.rows for cell in row.cells if cell.text]
    pairs = dict(zip(cells[::2], cells[1::2], strict=True))
    assert len(pairs) == 22
    assert pairs["Fri, Mar 19"] == "Tue, Mar 23"
    assert pairs["Fri, Apr 9"] == "Tue, Apr 13"


def test_last_days_stop_at_thirty_one(tmp_path: Path) -> None:
    """An offer of a year has no table of a year."""
    path = laid(tmp_path, changed(example(), ("offer_stands: 21 days", "offer_stands: 52 weeks")))
    (table,) = [block for block in section(agreement(path), "last-days") if isinstance(block, Table)]
    assert len([cell for row in table.rows for cell in row.cells if cell.text]) == 62


def test_draft_cannot_be_signed() -> None:
    """A draft has no place to sign and no notice; it lists what is open, with lines to write on."""
    document = agreement(EXAMPLES / "quarry-lane.yaml", draft=True)
    assert document.draft == "DRAFT"
    assert "sign" not in keys(document)
    assert not [key for key in keys(document) if key.startswith("notice")]
    text = words_of(section(document, "open"))
    for named in ("Garage side: Bed prep", "Garage side: Edging", "Property: Drains and slope"):
        assert named in text
    assert "5 decisions are open" in words_of(section(document, "front"))


def test_excluded_work_promises_nothing() -> None:
    """What is excluded stands under 'Not in this price', with its price for later, not in the work."""
    document = agreement(HERON)
    left = words_of(section(document, "excluded"))
    assert "A new edge along Side fence is not part of this price." in left
    assert "If you ask for it later, it costs $4.60 a foot, at least $120.00." in left
    assert "Side fence" not in words_of(section(document, "work-edging"))


def test_known_work_that_the_job_lacks_is_named() -> None:
    """What the library knows and the job does not have is named as not included."""
    assert "weed killer and weed preventer" in words_of(section(agreement(HERON), "excluded"))


def test_each_add_on_has_box_and_price() -> None:
    """Every add-on of the job is a choice with its price; what was declined has initials only."""
    document = agreement(HERON)
    choices = [
        choice
        for block in section(document, "add-ons")
        if isinstance(block, Choices)
        for choice in block.entries
    ]
    assert [choice.price for choice in choices] == ["$240.33", "$151.20", "$49.31", "$186.00"]
    declined = [
        choice
        for block in section(document, "declined")
        if isinstance(block, Choices)
        for choice in block.entries
    ]
    assert [(choice.title, choice.price) for choice in declined] == [("Edging, Side fence", "")]


def test_add_on_that_clears_ground_brings_its_material() -> None:
    """Old mulch taken out as an add-on leaves a hole of its depth: the price has the mulch that fills it."""
    text = words_of(section(agreement(HERON), "add-ons"))
    assert "The price includes 0.75 yd³ more of twice-ground hardwood mulch" in text


def test_no_charge_is_shown_at_its_regular_price_and_taken_off() -> None:
    """A gift stands on the paper with its worth, and with the words that it is no part of a later price."""
    document = agreement(HERON)
    price = words_of(section(document, "price"))
    assert "Recut a spade edge (Street strip), regular price $54.09" in price
    assert "−$54.09" in price
    assert "no later price includes it" in words_of(section(document, "work"))


def test_beds_with_one_decision_are_named_together() -> None:
    """One sentence for the beds that share a decision and its work."""
    text = words_of(section(agreement(HERON), "work-bed_prep"))
    assert "We pull the weeds in Front walk, Entry corner, Maple ring and Back patio by hand" in text


@pytest.mark.parametrize("name", ["heron-bend", "quarry-lane"])
def test_agreement_passes_the_plain_language_tests(name: str) -> None:
    """Conn. Gen. Stat. 42-152(c)(1) to (5), counted as 42-158 says, over all running text of the agreement;
    prescribed wording is exempt by 42-156."""
    document = agreement(EXAMPLES / f"{name}.yaml", draft=name == "quarry-lane")
    passages = []
    for found, block in walk(document):
        if found.role == "notice":
            continue
        if isinstance(block, Paragraph):
            passages.append(Passage(block.text, Role.PRESCRIBED if block.role == "statement" else Role.TEXT))
        elif isinstance(block, Choices):
            passages += [Passage(choice.text) for choice in block.entries]
        elif not isinstance(block, (Table, Signatures)):
            passages += [Passage(text, Role.FILL_IN) for text in text_of(block)]
    counted = count(passages)
    assert counted.words > 1000
    assert failed_tests(counted) == ()


def test_a_bed_may_answer_a_site_decision_otherwise(tmp_path: Path) -> None:
    """What one bed says goes for that bed, the job's word for the others, and the table has a row of each."""
    old = "    edging: {decided: no-charge, work: recut-edge}\n"
    own = f"{old}    site: {{buried-lines: {{decided: elsewhere, who: the city}}}}\n"
    document = agreement(laid(tmp_path, changed(example(), (old, own))))
    assert "Before we dig in the other beds, we call" in words_of(section(document, "work-site"))
    assert "Street strip is covered by the city" in words_of(section(document, "excluded-elsewhere"))
    tables = [block for block in section(document, "scope-site") if isinstance(block, Table)]
    rows = [row for table in tables for row in table.rows]
    assert [(row.cells[0].text, row.cells[1].text) for row in rows if "Buried" in row.cells[0].text] == [
        ("Buried lines", "included"),
        ("Buried lines (Street strip)", "done by the city"),
    ]


def test_gift_beside_the_beds_names_no_beds(tmp_path: Path) -> None:
    """Work beside the beds that is given away stands in the price table under its own name."""
    path = laid(
        tmp_path, changed(example(), ("decided: add-on, note: The six", "decided: no-charge, note: The six"))
    )
    price = words_of(section(agreement(path), "price"))
    assert "Trim shrubs, regular price $186.00 Trim shrubs, no charge this time −$186.00" in price
