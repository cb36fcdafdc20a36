"""An invented agreement with every kind of block, in any number of beds."""

from __future__ import annotations

from datetime import date
from typing import Literal

from scopegen.papers.document import (
    Blank,
    Blanks,
    Cell,
    Choice,
    Choices,
    Column,
    Document,
    Fact,
    Facts,
    Glance,
    Items,
    Masthead,
    Paragraph,
    Row,
    Section,
    Signatures,
    Signer,
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
STATEMENT = (
    "You, the buyer, may cancel this transaction at any time prior to midnight of the third business day "
    "after the date of this transaction. See the attached notice of cancellation form for an explanation "
    "of this right."
)  # 16 CFR 429.1(a)
TERM_TITLES = (
    "When we come",
    "Weather",
    "Who may be on site",
    "Plants that we move",
    "What the ground hides",
    "Water and power",
    "Payment",
    "Insurance",
    "Warranty of the work",
    "If we disagree",
    "Changes",
    "Photographs",
)


def bed_name(number: int) -> str:
    round_, place = divmod(number, len(BED_NAMES))
    return BED_NAMES[place] if not round_ else f"{BED_NAMES[place]} {round_ + 1}"


def agreement(
    beds: int = 10,
    page_size: Literal["letter", "A4"] = "letter",
    draft: str = "",
    title: str = "Bed work at 18 Heron Bend",
) -> Document:
    """The sample. A draft leaves a place to write in wherever the word of a cell is not decided."""
    return Document(
        kind="agreement",
        title=title,
        subtitle="Agreement 2027-014 between Alder & Finch Bed Works and Rosalind Quayle",
        language="en-US",
        page_size=page_size,
        masthead=Masthead(
            "Alder & Finch Bed Works",
            ("402 Mill Lane, Tarnbrook, CT 06999", "(203) 555-0148 · office@alderfinch.example.org", "HIC.0000000"),
        ),
        running_head="Alder & Finch Bed Works · Agreement 2027-014 · 18 Heron Bend",
        page_of="Page {page} of {pages}",
        dated=date(2027, 3, 1),
        sections=(front(beds, bool(draft)), work(bool(draft)), left_out(), before(), add_ons(), price(), terms(),
                  signing(), notice(1), notice(2)),
        draft=draft,
    )


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
    opening = (Paragraph("This is a draft. It offers nothing until the open places are filled in.", "strong"),)
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


def work(draft: bool) -> Section:
    open_ = Paragraph("Who takes the old stone away, and by when?", "open", "Old rose bed")
    quantities = Table(
        "Material, with the area and depth that it is bought by",
        (Column("Material", width="wide"), Column("Area", True), Column("Depth as laid", True), Column("Quantity", True)),
        (
            Row((Cell("Shredded hardwood mulch", ("brown, no dye",)), Cell("1,240 ft²"), Cell("3″"), Cell("12 yd³"))),
            Row((Cell("River stone, 1½″", ("washed",)), Cell("310 ft²"), Cell("2½″"), Cell("3.5 tons"))),
            Row((Cell("Leaf compost"), Cell("180 ft²"), Cell("1″"), Cell("0.75 yd³"))),
        ),
        show_caption=True,
    )
    return Section(
        "work",
        "The work",
        (
            Paragraph("We do the work below in the beds named beside it, and in no others.", "lead"),
            Section(
                "prep",
                "Bed prep",
                (
                    Paragraph(
                        "We pull weeds by hand with their roots, cut back what grows over the edge, and rake the bed level. "
                        "We do not spray. Roots thicker than a thumb stay in the ground, since pulling them would lift "
                        "the shrubs that you keep.",
                        lead_in="Front walk, left of the steps; Mailbox island; Maple ring",
                    ),
                    Paragraph(
                        "We take off the top two inches of old mulch and spread it thin behind the garage.",
                        lead_in="Driveway strip",
                    ),
                ),
                "1.1",
            ),
            Section(
                "edging",
                "Edging",
                (
                    Paragraph(
                        "We cut a spade edge 4 inches deep along the 84 feet where the bed meets the lawn. The cut sods "
                        "go into the trailer with the other spoil.",
                        lead_in="Old rose bed; Back patio, half circle",
                    ),
                    *((open_,) if draft else ()),
                    Items(
                        (
                            Paragraph("A spade edge is cut by hand; it is not a border that is put in."),
                            Paragraph("It softens in about a season and can then be cut again.", lead_in="How long it lasts."),
                            Paragraph("Against paving, steel or stone there is nothing to cut."),
                        )
                    ),
                ),
                "1.2",
            ),
            Section("material", "Material", (quantities,), "1.3"),
            Paragraph(
                "Call before you dig: 811 marks public lines only. Private lines to a shed, a lamp or a pool are "
                "yours to show us. Where a local code asks for more, the code decides.",
                "caution",
                "Buried lines",
            ),
            Paragraph("Quantities are measured on February 24, 2027, with a wheel and a tape.", "small"),
        ),
        "1",
    )


def left_out() -> Section:
    return Section(
        "not-included",
        "Not in this price",
        (
            Paragraph("These were looked at and left out. We name them so that nobody expects them."),
            Items(
                (
                    Paragraph("New plants, and moving the plants that are there."),
                    Paragraph("The stone that lies under the mulch in the Old rose bed. It stays where it is."),
                    Paragraph("Stumps and roots of trees."),
                    Paragraph("Repairs of the sprinkler lines, other than those that we cut."),
                )
            ),
        ),
        "2",
    )


def before() -> Section:
    return Section(
        "yours",
        "Yours to do before we start",
        (
            Paragraph("Move the bench, the pots and the hoses off the beds.", lead_in="By April 11"),
            Paragraph("Mark the heads of the sprinklers with the flags that we leave you.", lead_in="By April 11"),
            Paragraph("Keep the dog inside while the gate is open.", lead_in="While we work"),
        ),
        "3",
    )


def add_ons() -> Section:
    return Section(
        "add-ons",
        "Add-ons",
        (
            Paragraph("Tick what you want and put your initials beside it. What has no initials is not ordered."),
            Choices(
                (
                    Choice("Spade edge at the Mailbox island", "84 feet, 4 inches deep, sods taken away.", "$294.00"),
                    Choice("Compost under the mulch", "One inch in the Kitchen-window herb bed, worked in.", "$112.50"),
                    Choice(
                        "Take away the old stone",
                        "About 2 tons from the Old rose bed, dug out by hand, with one trip to the dump. The price "
                        "holds up to 2½ tons; beyond that we ask you first.",
                        "$1,036.00",
                    ),
                    Choice("Weeds are left in the Driveway strip", "We offered to pull them and you chose not to."),
                ),
                "Tick",
                "Initials",
                "Price",
            ),
        ),
        "4",
    )


def price() -> Section:
    def line(name: str, quantity: str, unit: str, amount: str, *notes: str, role: str = "plain") -> Row:
        return Row((Cell(name, notes), Cell(quantity), Cell(unit), Cell(amount)), role)  # type: ignore[arg-type]

    table = Table(
        "The price, line by line",
        (Column("What", width="wide"), Column("Quantity", True), Column("Unit price", True), Column("Amount", True)),
        (
            line("Shredded hardwood mulch, spread", "12 yd³", "$118.00", "$1,416.00"),
            line("River stone, spread", "3.5 tons", "$164.00", "$574.00"),
            line("Bed prep", "34 h", "$62.00", "$2,108.00", "three people"),
            line("Spade edge", "412 ft", "$3.50", "$1,442.00"),
            line("Hauling", "5 trips", "$210.00", "$1,050.00", "with the fees of the dump"),
            line("Pruning the yew", "1", "$85.00", "$85.00"),
            line("No charge this time: pruning the yew", "", "", "−$85.00", "part of no later price", role="less"),
            line("Before tax", "", "", "$6,590.00", role="subtotal"),
            line("Sales tax 6.35 %", "", "", "$418.47"),
            line("Price", "", "", "$7,008.47", role="total"),
        ),
        "price",
    )
    payments = Table(
        "Payments",
        (Column("When", width="wide"), Column("Amount", True)),
        (
            Row((Cell("When you sign"), Cell("$1,752.12"))),
            Row((Cell("When the material is spread"), Cell("$3,504.24"))),
            Row((Cell("When the work is done and you have looked at it"), Cell("$1,752.11"))),
        ),
        "price",
        show_caption=True,
    )
    return Section(
        "price",
        "The price",
        (
            table,
            payments,
            Paragraph(
                "If we find what nobody could see, we stop there, show you, and go on only with a change order that "
                "both of us sign. Up to $150.00 we may go on without asking; we then tell you the same day.",
                lead_in="What nobody could see",
            ),
        ),
        "5",
    )


def terms() -> Section:
    text = (
        "We come on the day that stands on the first page. If we cannot, we call you the day before and agree on "
        "another. You need not be at home, but the gate has to be open and the water on.",
        "Rain stops the work when the ground gets so wet that walking on it would harm it. The days lost are added "
        "to the end. You owe nothing for a day on which we did not work.",
        "Our people carry a card with the name of the firm. Nobody else works on your ground for us without your "
        "knowing. We carry liability insurance; ask us for the certificate.",
    )
    blocks = [Paragraph(text[i % 3], lead_in=title) for i, title in enumerate(TERM_TITLES)]
    return Section("terms", "Terms", tuple(blocks), "6", "terms")


def signing() -> Section:
    lines = (Blank("Signature"), Blank("Date", size="short"))
    return Section(
        "signing",
        "Signatures",
        (
            Paragraph("Both of us have read this agreement. Each keeps a signed copy."),
            Blanks((Blank("Agreement", "2027-014", "short"), Blank("Add-ons ordered, in all", size="short"),
                    Blank("Anything else that we agreed on"))),
            Signatures(
                (
                    Signer("Customer", "Rosalind Quayle", lines),
                    Signer("Contractor", "Matthias Finch, for Alder & Finch Bed Works", lines),
                ),
                STATEMENT,
            ),
        ),
        "7",
        "signing",
    )


def notice(copy: int) -> Section:
    """The form of 16 CFR 429.1(b), shortened; the rule asks for it in duplicate."""
    return Section(
        f"notice-{copy}",
        "Notice of Cancellation",
        (
            Paragraph(f"Copy {copy} of 2", "small"),
            Blanks((Blank("Date of transaction", "March 1, 2027", "short"),)),
            Paragraph(
                "You may CANCEL this transaction, without any Penalty or Obligation, within THREE BUSINESS DAYS from "
                "the above date.",
                "statement",
            ),
            Paragraph(
                "If you cancel, any property traded in, any payments made by you under the contract or sale, and any "
                "negotiable instrument executed by you will be returned within TEN BUSINESS DAYS following receipt by "
                "the seller of your cancellation notice, and any security interest arising out of the transaction "
                "will be cancelled.",
                "statement",
            ),
            Paragraph(
                "To cancel this transaction, mail or deliver a signed and dated copy of this Cancellation Notice or "
                "any other written notice, or send a telegram, to Alder & Finch Bed Works, at 402 Mill Lane, "
                "Tarnbrook, CT 06999 not later than midnight of March 4, 2027.",
                "statement",
            ),
            Paragraph("I hereby cancel this transaction.", "statement"),
            Blanks((Blank("Date", size="short"), Blank("Buyer’s signature"))),
        ),
        role="notice",
    )
