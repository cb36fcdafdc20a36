"""One page for each finding that `check` can have, by a rule or by reading, family by family."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from dataclasses import dataclass

from scopegen.findings import Level
from scopegen.manual.pieces import Piece, as_it_stands, pieces_of
from scopegen.proofs import PROOFS, Proof
from scopegen.rules import RULES, Rule
from scopegen.rules.reading import READING, ReadingRule

MEANS = {
    Level.STOPS: "the agreement is not written until it is mended",
    Level.WARNS: "the agreement is written all the same; look at it before you sign",
    Level.NOTES: "for your information; nothing waits for it",
}
PROOF_MEANS = {
    Level.STOPS: "`scopegen clauses check` ends with exit code 1; no agreement waits for it",
    Level.WARNS: "look at it before the next agreement; nothing waits for it",
    Level.NOTES: MEANS[Level.NOTES],
}


@dataclass(frozen=True, slots=True)
class Page:
    """What there is to say about one rule."""

    rule: Rule | ReadingRule | Proof

    @property
    def id(self) -> str:
        """The name that a finding prints in brackets."""
        return self.rule.id

    @property
    def means(self) -> str:
        """What its level comes to: a proof is of the library, and holds up no agreement by itself."""
        return (PROOF_MEANS if isinstance(self.rule, Proof) else MEANS)[self.rule.level]

    @property
    def passes(self) -> tuple[Piece, ...]:
        """An example that passes, file by file; empty where no lines can show it."""
        return self._pieces(self.rule.passes)

    @property
    def fails(self) -> tuple[Piece, ...]:
        """An example that fails, file by file."""
        return self._pieces(self.rule.fails)

    def _pieces(self, example: str) -> tuple[Piece, ...]:
        if isinstance(self.rule, ReadingRule) and not self.rule.laid:
            return as_it_stands(example)
        return pieces_of(example)


PAGES: tuple[Page, ...] = tuple(Page(rule) for rule in (*RULES, *READING, *PROOFS))


def page_of(rule: str) -> Page | None:
    """The page of a rule, by its id as a finding prints it."""
    wanted = rule.strip().strip("[]").lower()
    return next((page for page in PAGES if page.id == wanted), None)


def near(rule: str, most: int = 4) -> tuple[str, ...]:
    """The ids that a mistyped one may have meant: those that look like it, then those that share a word."""
    wanted = rule.strip().strip("[]").lower().replace("_", "-").replace(" ", "-")
    known = [page.id for page in PAGES]
    alike: Iterable[str] = difflib.get_close_matches(wanted, known, n=most, cutoff=0.6)
    words = {word for word in wanted.split("-") if len(word) > 3}
    sharing = [name for name in known if words & set(name.split("-"))]
    return tuple(dict.fromkeys((*alike, *sharing)))[:most]
