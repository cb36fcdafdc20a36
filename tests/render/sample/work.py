"""The work in sentences, what is left out, and what the customer does."""

from __future__ import annotations

from scopegen.papers.document import (
    Cell,
    Column,
    Items,
    Paragraph,
    Row,
    Section,
    Table,
)


def work(draft: bool) -> Section:
    open_ = Paragraph("Who takes the old stone away, and by when?", "open", "Old rose bed")
    quantities = Table(
        "Material, with the area and depth that it is bought by",
        (
            Column("Material", width="wide"),
            Column("Area", True),
            Column("Depth as laid", True),
            Column("Quantity", True),
        ),
        (
            Row(
                (
                    Cell("Shredded hardwood mulch", ("brown, no dye",)),
                    Cell("1,240 ft²"),
                    Cell("3″"),
                    Cell("12 yd³"),
                )
            ),
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
                        "We pull weeds by hand with their roots, cut back what grows over the edge, and "
                        "rake the bed level. We do not spray. Roots thicker than a thumb stay in the "
                        "ground, since pulling them would lift the shrubs that you keep.",
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
                        "We cut a spade edge 4 inches deep along the 84 feet where the bed meets the lawn. "
                        "The cut sods go into the trailer with the other spoil.",
                        lead_in="Old rose bed; Back patio, half circle",
                    ),
                    *((open_,) if draft else ()),
                    Items(
                        (
                            Paragraph("A spade edge is cut by hand; it is not a border that is put in."),
                            Paragraph(
                                "It softens in about a season and can then be cut again.",
                                lead_in="How long it lasts.",
                            ),
                            Paragraph("Against paving, steel or stone there is nothing to cut."),
                        )
                    ),
                ),
                "1.2",
            ),
            Section("material", "Material", (quantities,), "1.3"),
            Paragraph(
                "Call before you dig: 811 marks public lines only. Private lines to a shed, a lamp or a "
                "pool are yours to show us. Where a local code asks for more, the code decides.",
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
                    Paragraph(
                        "The stone that lies under the mulch in the Old rose bed. It stays where it is."
                    ),
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
            Paragraph(
                "Mark the heads of the sprinklers with the flags that we leave you.", lead_in="By April 11"
            ),
            Paragraph("Keep the dog inside while the gate is open.", lead_in="While we work"),
        ),
        "3",
    )
