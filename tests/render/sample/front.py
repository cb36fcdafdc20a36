"""The first page: who, where, the large figures, the scope table."""

from __future__ import annotations

from scopegen.papers.document import (
    Cell,
    Column,
    Fact,
    Facts,
    Glance,
    Paragraph,
    Row,
    Section,
    Table,
)

BED_NAMES = (
    "Front walk, left of the steps",
    "Mailbox island",
    "Foundation bed under the picture window",
    "Driveway strip",
    "Old rose bed",
    "Maple ring",
    "Side yard along the neighbor’s fence and the air-conditioner pad",
    "Back patio, half circle",
    "Kitchen-window herb bed",
    "Chrysanthemum-and-pachysandra-groundcover bed",
)
WORDS = (
    ("Included", ("shredded hardwood, 3″", "240 ft²")),
    ("Included", ("pull by hand",)),
    ("Add-on", ("spade edge, 84 ft",)),
    ("Done by others", ("Ortega Tree Service",)),
    ("Fine as it is", ()),
    ("Not in this price", ("old stone stays",)),
    ("You do it", ("by April 9; otherwise we do it for $85.00",)),
    ("No charge this time", ()),
    ("Included", ()),
)


def bed_name(number: int) -> str:
    round_, place = divmod(number, len(BED_NAMES))
    return BED_NAMES[place] if not round_ else f"{BED_NAMES[place]} {round_ + 1}"


def front(beds: int, draft: bool) -> Section:
    facts = Facts(
        (
            Fact("Customer", ("Rosalind Quayle", "(203) 555-0172", "rosalind.quayle@example.org")),
            Fact("Where the work is", ("18 Heron Bend", "Tarnbrook, CT 06999")),
            Fact("Contractor", ("Alder & Finch Bed Works", "Matthias Finch")),
            Fact("Dated", ("March 1, 2027",)),
            Fact("Good until", ("March 31, 2027",)),
            Fact("Looked at on", ("February 24, 2027",)),
        )
    )
    glance = Glance(
        (
            ("Price", "$12,480.65", "with tax, without add-ons"),
            ("Deposit", "$3,120.16", "due when you sign"),
            ("Start", "April 12", "about four days of work"),
        )
    )
    opening = (
        Paragraph("This is a draft. It offers nothing until the open places are filled in.", "strong"),
    )
    return Section(
        "front",
        "At a glance",
        (
            *(opening if draft else ()),
            facts,
            glance,
            Paragraph(
                "Each row is a bed, each column a decision. What is not named here is not part of the price.",
                lead_in="What is decided",
            ),
            scope_table(beds, draft),
        ),
        role="front",
    )


def scope_table(beds: int, draft: bool) -> Table:
    columns = ("Bed", "Material", "Bed prep", "Edging", "Debris", "Ground underneath")
    rows = []
    for bed in range(beds):
        cells = [Cell(bed_name(bed))]
        for place in range(5):
            word, notes = WORDS[(bed * 4 + place * 2) % len(WORDS)]
            open_ = draft and (bed + 2 * place) % 6 == 0
            cells.append(Cell("Open", blank=True) if open_ else Cell(word, notes))
        rows.append(Row(tuple(cells)))
    return Table("What is decided, bed by bed", tuple(Column(c) for c in columns), tuple(rows), "scope")
