"""What is asked of the clause library as a whole: one module a family, each proof in an explicit tuple."""

from scopegen.findings import Finding, in_file_order
from scopegen.proofs import blanks, conditions, kept, opposites, versions, ways, wording
from scopegen.proofs.proof import Proof, Stock

PROOFS: tuple[Proof, ...] = (
    *blanks.PROOFS,
    *ways.PROOFS,
    *versions.PROOFS,
    *conditions.PROOFS,
    *wording.PROOFS,
    *opposites.PROOFS,
    *kept.PROOFS,
)


def proofread(stock: Stock) -> tuple[Finding, ...]:
    """Every finding about a stock: what reading found, then what each proof finds."""
    found = [*stock.library.findings, *(finding for proof in PROOFS for finding in proof.find(stock))]
    return in_file_order(found)


__all__ = ["PROOFS", "Proof", "Stock", "proofread"]
