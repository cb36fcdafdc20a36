"""Wording: every decision has a text in the clause library, and what a clause calls for is said."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.case import Case
from scopegen.clauses import Wording
from scopegen.clauses.in_force import OWN
from scopegen.findings import Level, Place
from scopegen.job import SITE_DECISIONS
from scopegen.load import Path_
from scopegen.plain_words import promised
from scopegen.rules.decisions import SPOKEN
from scopegen.rules.pieces import (
    Piece,
    bed_fault,
    chart_fault,
    fault_at,
    job_fault,
    material_of,
    pieces,
    pieces_of,
    work_of,
)
from scopegen.rules.rule import Fault, Rule

FAMILY = "wording"
_LEFT = ("excluded", "not-needed")
_GUARANTEE = (
    "clauses: {terms/long-guarantee.yaml: '{clause: terms.long-guarantee, title: {en: Two seasons},"
    " calls_for: [%s], wording: [{season: 2027, en: {says: We come back for two seasons.}}]}'}"
)
_CLEAN_UP = (
    "{job: {site: {clean-up: {decided: excluded}}}, clauses: {site/clean-up.yaml: '{clause: site.clean-up,"
    " decides: clean-up, title: {en: Clean-up}, ways: [excluded], needs: [], wording: [{season: 2027, en:"
    " {excluded: %s}}]}'}}"
)


def _troubles(case: Case, *kinds: str) -> Iterator[Fault]:
    for trouble in case.chosen.troubles if case.chosen else ():
        if trouble.rule not in kinds:
            continue
        place = _text_place(case, *trouble.at) if trouble.at else case.place(trouble.path, key=True)
        yield bed_fault(case, trouble.bed, trouble.message, trouble.fix, place, trouble.decision)


def _text_place(case: Case, clause: str, wording: Wording) -> Place:
    """Where a text stands in its file."""
    assert case.library is not None
    return (case.library.own if wording.whose == OWN else case.library.shipped)[clause].place(wording.path)


def _calls_for(case: Case) -> Iterator[Fault]:
    if case.in_force is None:
        return
    for piece in pieces(case):
        clause = case.in_force.clauses.get(_clause_of(case, piece))
        for called in clause.calls_for if clause and piece.priced else ():
            if called in SITE_DECISIONS:
                yield from _left_unsaid(case, piece, called)


def _named(case: Case) -> Iterator[tuple[str, Path_]]:
    """Every clause that this paper has, with the place that asks for it; terms and cautions have none."""
    if case.chosen is None:
        return
    yield from ((said.clause, said.path) for said in case.chosen.said)
    yield from ((term.clause, ()) for term in (*case.chosen.terms, *case.chosen.cautions))


def _companions(case: Case) -> Iterator[Fault]:
    """Clauses that another clause cannot be without, or cannot be with."""
    here = dict(reversed(list(_named(case))))
    for name, path in here.items():
        clause = case.in_force.clauses.get(name) if case.in_force else None
        for called in clause.calls_for if clause else ():
            if "." in called and called not in here:
                message = (
                    f"the clause '{name}' calls for the clause '{called}', which this paper does not have"
                )
                yield _at_clause(
                    case, name, path, message, f"decide or condition '{called}' so that it is in"
                )
        for forbidden in clause.forbids if clause else ():
            if forbidden in here:
                message = f"the clauses '{name}' and '{forbidden}' say what cannot both hold"
                yield _at_clause(
                    case, name, path or here[forbidden], message, "decide one of the two otherwise"
                )


def _at_clause(case: Case, name: str, path: Path_, message: str, fix: str) -> Fault:
    """At the decision that brings the clause; for a term in its file."""
    source = case.library.source(name) if case.library else None
    place = case.place(path, key=True) if path or source is None else source.place(("clause",))
    return Fault(message, fix, place)


def _left_unsaid(case: Case, piece: Piece, called: str) -> Iterator[Fault]:
    own = list(pieces_of(case, piece.bed, called)) if piece.bed is not None else []
    for other in own or pieces_of(case, None, called):
        if other.how in _LEFT:
            yield fault_at(
                case, piece,
                f"'{piece.part.work}' calls for {SPOKEN[called]}, which is"
                f" {'excluded' if other.how == 'excluded' else 'not needed'} here",
                f"decide '{called}' as included, customer or elsewhere",
                "work",
            )  # fmt: skip


def _promises(case: Case) -> Iterator[Fault]:
    for used in case.chosen.texts if case.chosen else ():
        found = promised(used.wording.text, case.job.language) if used.way == "excluded" else ""
        if found:
            yield Fault(
                f"the clause '{used.clause}' promises what it leaves out: '{found}'",
                "say what is left out and what that leads to, and nothing that you do",
                _text_place(case, used.clause, used.wording),
            )


def _clause_of(case: Case, piece: Piece) -> str:
    entry = material_of(case, piece) or work_of(case, piece)
    return case.in_force.standing_for(entry.clause) if entry and case.in_force else ""


def _unknown_caution(case: Case) -> Iterator[Fault]:
    if case.chart is None or case.in_force is None:
        return
    known = {clause.clause.removeprefix("cautions.") for clause in case.in_force.folder("cautions")}
    for section in ("materials", "work"):
        for key, entry in getattr(case.chart, section).items():
            for index, caution in enumerate(entry.cautions):
                if caution not in known:
                    message = f"'{key}' names the caution '{caution}', which the clause library does not have"
                    yield chart_fault(
                        case,
                        message,
                        f"name one of: {', '.join(sorted(known))}",
                        section,
                        key,
                        "cautions",
                        index,
                    )


def _law_language(case: Case) -> Iterator[Fault]:
    for title in case.unworded_laws:
        yield job_fault(
            case,
            f"the law asks for wording that is not there in '{case.job.language}': {title}",
            "write the paper in a language that it has, or have it translated by a lawyer",
            "language",
        )  # fmt: skip


UNKNOWN_CLAUSE = Rule(
    "unknown-clause", FAMILY, Level.STOPS,
    "Every clause that the price chart names is in the clause library.",
    "Work without wording would have a price and no sentence that says what it is.",
    "chart: {work: {recut-edge: {clause: edging.recut}}}",
    "chart: {work: {recut-edge: {clause: edging.recutt}}}",
    lambda case: _troubles(case, "unknown-clause"),
)  # fmt: skip
NO_WORDING = Rule(
    "no-wording", FAMILY, Level.STOPS,
    "The clause has a text for the way that was decided, in the paper's language and season.",
    "A clause lists the ways that it has words for. Another way would leave a decision in the table and"
    " nowhere"
    " in the sentences.",
    "job: {site: {leftover: {decided: included}}}",
    "job: {site: {buried-lines: {decided: add-on}}}",
    lambda case: _troubles(case, "no-wording", "no-version"),
)  # fmt: skip
DECIDES = Rule(
    "clause-decides", FAMILY, Level.STOPS,
    "The clause of a decision decides just that.",
    "A clause of another decision can have wording for the way that was decided, and fill well: work on an"
    " edge would be sold as hauling. That may come from a slip in the price chart, or from `instead:` where a"
    " clause is no longer used. Only a clause of `extra` that prints the work's own name, such as"
    " extra.hourly, serves any work.",
    "chart: {work: {recut-edge: {clause: edging.recut}}}",
    "chart: {work: {recut-edge: {clause: debris.haul-away}}}",
    lambda case: _troubles(case, "clause-decides"),
)  # fmt: skip
UNFILLABLE = Rule(
    "unfillable", FAMILY, Level.STOPS,
    "Every blank of every chosen text can be filled.",
    "A text with an empty blank, or one that tries more than blanks and simple conditions, is not printed.",
    "job: {site: {clean-up: {decided: included}}}",
    "clauses: {site/clean-up.yaml: '{clause: site.clean-up, decides: clean-up, title: {en: Clean-up}, ways:"
    " [included],"
    " needs: [], wording: [{season: 2027, en: {included: \"We sweep {{ no_such_blank }}.\"}}]}'}",
    lambda case: _troubles(case, "unfillable"),
)  # fmt: skip
CALLS_FOR = Rule(
    "calls-for", FAMILY, Level.STOPS,
    "What a clause calls for among the site decisions is neither excluded nor waved off.",
    "Cutting an edge calls for the buried lines to be located by somebody. Every state has its own excavation"
    " damage prevention law, and several reach hand digging by a paid contractor.",
    "job: {site: {buried-lines: {decided: included}}}",
    "job: {site: {buried-lines: {decided: excluded}}}",
    _calls_for,
    "49 CFR 196.103; National Conference of State Legislatures on state excavation damage prevention laws;"
    " Code of Virginia 56-265.15:1",
)  # fmt: skip
COMPANIONS = Rule(
    "clause-companions", FAMILY, Level.STOPS,
    "Clauses that need each other are on the paper together, and none that shut each other out.",
    "A clause says in `calls_for` which other it cannot be without, and in `forbids` which it cannot be with:"
    " debris that goes to the dump cannot also stay on the property.",
    _GUARANTEE % "terms.weeds-and-wear",
    _GUARANTEE % "terms.choose-one",
    _companions,
)  # fmt: skip
PROMISED = Rule(
    "excluded-promises", FAMILY, Level.WARNS,
    "What is not in the price is left out in words that promise nothing.",
    "'We will come back for it' under 'not in this price' is what the customer will read out loud. `scopegen"
    " clauses check` looks at all clauses, this at those of the job.",
    _CLEAN_UP % "Nobody sweeps.",
    _CLEAN_UP % "We will sweep in fall.",
    _promises,
)  # fmt: skip
UNKNOWN_CAUTION = Rule(
    "unknown-caution", FAMILY, Level.STOPS,
    "Every caution that the price chart names is in the clause library.",
    "A caution that is not there would not be printed, and nobody would notice.",
    "chart: {work: {recut-edge: {cautions: [digging]}}}",
    "chart: {work: {recut-edge: {cautions: [diging]}}}",
    _unknown_caution,
)  # fmt: skip
LAW_LANGUAGE = Rule(
    "law-language", FAMILY, Level.STOPS,
    "A notice that the law asks for is there in the language of the paper.",
    "The federal cooling-off rule asks for the notice in the language of the contract.",
    "job: {signed_at: our office}",
    "{job: {signed_at: a fair}, laws: {without: en}}",
    _law_language, "16 CFR 429.1(a) and (b)",
)  # fmt: skip

RULES = (
    UNKNOWN_CLAUSE,
    NO_WORDING,
    DECIDES,
    UNFILLABLE,
    CALLS_FOR,
    COMPANIONS,
    PROMISED,
    UNKNOWN_CAUTION,
    LAW_LANGUAGE,
)
