"""Blanks of clauses: known, given where they stand, and listed."""

from __future__ import annotations

import difflib
from collections.abc import Iterator

from scopegen.clauses.conditions import catalogue
from scopegen.clauses.fill import Unfillable, plain_blanks
from scopegen.findings import Level
from scopegen.proofs.proof import Proof, Stock, Text, files_of, texts_of
from scopegen.rules.rule import Fault

# Which blanks have a value in the texts of a folder; a decision's text has those of the first line.
_GIVEN = {"outcomes": ("paper", "decision", "outcome"), "terms": ("paper",), "cautions": ("paper",)}
_OF_DECISIONS = ("paper", "decision")
_HEDGE = (
    "clauses: {edging/hedge-edge.yaml: '{clause: edging.hedge-edge, decides: edging, title: {en: Hedge edge,"
    " es: Borde de seto}, ways: [included], needs: [%s], wording: [{season: 2027, en: {"
    'included: "We cut along %s."}, es: {included: "Cortamos junto a %s."}}]}\'}'
)


def _hedge(needs: str, blank: str) -> str:
    return _HEDGE % (needs, f"{{{{ {blank} }}}}", f"{{{{ {blank} }}}}")


def _used(text: Text) -> frozenset[str]:
    try:
        return plain_blanks(text.words)
    except Unfillable:
        return frozenset()  # found when the file is read


def _unknown(stock: Stock) -> Iterator[Fault]:
    known = catalogue()["blanks"]
    for text in texts_of(stock.library):
        for name in sorted(_used(text) - known.keys()):
            near = difflib.get_close_matches(name, known, n=1)
            fix = (
                f"did you mean '{near[0]}'?"
                if near
                else "`scopegen clauses blanks` lists those that there are"
            )
            yield Fault(f"the text for '{text.way}' has a blank '{name}' that nothing fills", fix, text.place)


def _never_given(stock: Stock) -> Iterator[Fault]:
    known = catalogue()["blanks"]
    for text in texts_of(stock.library):
        given = _GIVEN.get(text.clause.clause.partition(".")[0], _OF_DECISIONS)
        for name in sorted(_used(text) & known.keys()):
            of = known[name].get("ways")
            if known[name]["given"] not in given or of and text.way not in of:
                message = f"the blank '{name}' is empty in every text for '{text.way}' of this folder"
                yield Fault(message, "take it out of this text", text.place)


def _listed_wrong(stock: Stock) -> Iterator[Fault]:
    by_file: dict[str, set[str]] = {}
    for text in texts_of(stock.library):
        by_file.setdefault(text.source.name, set()).update(_used(text))
    for clause, _, source in files_of(stock.library):
        if not clause.stands_whole:
            continue
        used = by_file.get(source.name, set())
        for index, name in enumerate(clause.needs):
            if name not in used:
                message = f"'needs' lists '{name}', which no text of the clause prints"
                yield Fault(message, "take it off the list", source.place(("needs", index)))
        if missing := sorted(used - {*clause.needs}):
            place = source.place(("needs",), key=True) if clause.needs else source.place(("clause",))
            yield Fault(
                f"'needs' does not list {', '.join(missing)}", "add each blank that the texts print", place
            )


PROOFS = (
    Proof(
        "blank-unknown", Level.STOPS,
        "Every blank of every text is one that jobs fill.",
        "A blank with a slip in it would stop the first agreement that takes the clause, at a customer's"
        " table.",
        _hedge("beds", "beds"), _hedge("bed", "bed"), _unknown,
    ),
    Proof(
        "blank-never-given", Level.STOPS,
        "A blank stands only in texts in which some job has a value for it.",
        "The terms belong to the whole paper: no bed, no depth and no day of the customer's own work is"
        " theirs."
        " Such a blank would leave a hole in the sentence.",
        _hedge("beds, area", "area"), _hedge("unit_price", "unit_price"), _never_given,
    ),
    Proof(
        "blanks-listed", Level.WARNS,
        "'needs' lists every blank of a clause's texts, and no other.",
        "The list says at a glance what a job must have for the clause. A wrong one misleads who writes"
        " the next"
        " version.",
        _hedge("beds", "beds"), _hedge("beds, length", "beds"), _listed_wrong,
    ),
)  # fmt: skip
