"""Terms, signatures, and the notice that is printed twice."""

from __future__ import annotations

from scopegen.papers.document import (
    Blank,
    Blanks,
    Paragraph,
    Section,
    Signatures,
    Signer,
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


def terms() -> Section:
    text = (
        "We come on the day that stands on the first page. If we cannot, we call you the day before and "
        "agree on another. You need not be at home, but the gate has to be open and the water on.",
        "Rain stops the work when the ground gets so wet that walking on it would harm it. The days lost "
        "are added to the end. You owe nothing for a day on which we did not work.",
        "Our people carry a card with the name of the firm. Nobody else works on your ground for us "
        "without your knowing. We carry liability insurance; ask us for the certificate.",
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
            Blanks(
                (
                    Blank("Agreement", "2027-014", "short"),
                    Blank("Add-ons ordered, in all", size="short"),
                    Blank("Anything else that we agreed on"),
                )
            ),
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
    """The form of 16 CFR 429.1(b), which the rule asks for in duplicate."""
    return Section(
        f"notice-{copy}",
        "Notice of Cancellation",
        (
            Paragraph(f"Copy {copy} of 2", "small"),
            Blanks((Blank("Date of transaction", "March 1, 2027", "short"),)),
            Paragraph(
                "You may CANCEL this transaction, without any Penalty or Obligation, within THREE BUSINESS "
                "DAYS from the above date.",
                "statement",
            ),
            Paragraph(
                "If you cancel, any property traded in, any payments made by you under the contract or "
                "sale, and any negotiable instrument executed by you will be returned within TEN BUSINESS "
                "DAYS following receipt by the seller of your cancellation notice, and any security "
                "interest arising out of the transaction will be cancelled.",
                "statement",
            ),
            Paragraph(
                "If you cancel, you must make available to the seller at your residence, in substantially as "
                "good condition as when received, any goods delivered to you under this contract or sale, or "
                "you may, if you wish, comply with the instructions of the seller regarding the return "
                "shipment of the goods at the seller's expense and risk.",
                "statement",
            ),
            Paragraph(
                "If you do make the goods available to the seller and the seller does not pick them up "
                "within 20 days of the date of your Notice of Cancellation, you may retain or dispose of the "
                "goods without any further obligation. If you fail to make the goods available to the "
                "seller, or if you agree to return the goods to the seller and fail to do so, then you "
                "remain liable for performance of all obligations under the contract.",
                "statement",
            ),
            Paragraph(
                "To cancel this transaction, mail or deliver a signed and dated copy of this Cancellation "
                "Notice or any other written notice, or send a telegram, to Alder & Finch Bed Works, at "
                "402 Mill Lane, Tarnbrook, CT 06999 not later than midnight of March 4, 2027.",
                "statement",
            ),
            Paragraph("I hereby cancel this transaction.", "statement"),
            Blanks((Blank("Date", size="short"), Blank("Buyer’s signature"))),
            Paragraph("This form follows a federal rule. It is no legal advice.", "small"),
        ),
        role="notice",
    )
