"""Add-ons and the price."""

from __future__ import annotations

from scopegen.papers.document import (
    Cell,
    Choice,
    Choices,
    Column,
    Paragraph,
    Row,
    Section,
    Table,
)


def add_ons() -> Section:
    return Section(
        "add-ons",
        "Add-ons",
        (
            Paragraph(
                "Tick what you want and put your initials beside it. What has no initials is not ordered."
            ),
            Choices(
                (
                    Choice(
                        "Spade edge at the Mailbox island",
                        "84 feet, 4 inches deep, sods taken away.",
                        "$294.00",
                    ),
                    Choice(
                        "Compost under the mulch",
                        "One inch in the Kitchen-window herb bed, worked in.",
                        "$112.50",
                    ),
                    Choice(
                        "Take away the old stone",
                        "About 2 tons from the Old rose bed, dug out by hand, with one trip to the dump. "
                        "The price holds up to 2½ tons; beyond that we ask you first.",
                        "$1,036.00",
                    ),
                    Choice(
                        "Weeds are left in the Driveway strip",
                        "We offered to pull them and you chose not to.",
                    ),
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
        (
            Column("What", width="wide"),
            Column("Quantity", True),
            Column("Unit price", True),
            Column("Amount", True),
        ),
        (
            line("Shredded hardwood mulch, spread", "12 yd³", "$118.00", "$1,416.00"),
            line("River stone, spread", "3.5 tons", "$164.00", "$574.00"),
            line("Bed prep", "34 h", "$62.00", "$2,108.00", "three people"),
            line("Spade edge", "412 ft", "$3.50", "$1,442.00"),
            line("Hauling", "5 trips", "$210.00", "$1,050.00", "with the fees of the dump"),
            line("Pruning the yew", "1", "$85.00", "$85.00"),
            line(
                "No charge this time: pruning the yew",
                "",
                "",
                "−$85.00",
                "part of no later price",
                role="less",
            ),
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
                "If we find what nobody could see, we stop there, show you, and go on only with a change "
                "order that both of us sign. Up to $150.00 we may go on without asking; we then tell you "
                "the same day.",
                lead_in="What nobody could see",
            ),
        ),
        "5",
    )
