"""Conditions of clauses: each is asked, and can hold in a season and with a price chart that there is."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from scopegen.clauses.clause import Limits
from scopegen.clauses.conditions import bounds
from scopegen.clauses.in_force import OWN
from scopegen.findings import Level
from scopegen.proofs.proof import Proof, Stock, files_of
from scopegen.rules.rule import Fault
from scopegen.understand import nearest

ASKED_IN = ("terms", "cautions")  # folders whose clauses are chosen by their conditions
_TRUCK = (
    "clauses: {terms/our-truck.yaml: '{clause: terms.our-truck, title: {en: Truck, es: Camioneta}, when:"
    " {%s}, wording: [{season: 2027, en: {says: The truck stands in the drive.}, es: {says: La camioneta"
    " queda en la entrada.}}]}'}"
)
_WALK = (
    "clauses: {%s: '{clause: %s, title: {en: Walk, es: Paseo}, when: {has: [deposit]}, wording: [{season:"
    " 2027, en: {says: We walk the beds with you.}, es: {says: Vemos los arriates con usted.}}]}'}"
)


def _never_met(stock: Stock) -> Iterator[Fault]:
    """A season that is asked for, and that no wording of the clause serves."""
    for clause, _, source in files_of(stock.library):
        asked = clause.when.get("season")
        if not isinstance(asked, Limits) or not clause.wording:
            continue
        first = min(version.season for version in clause.wording)
        gone = [each.no_longer.season for each in stock.library.held[clause.clause].files if each.no_longer]
        low, high = bounds("season", asked)
        place = source.place(("when", "season"), key=True)
        if high is not None and high < first:
            message = f"the season is at most {high} here, and the first wording is of season {first}"
            yield Fault(message, "mend the limit, or the season of the wording", place)
        elif gone and low >= min(gone):
            message = (
                f"the season is at least {low} here, and the clause is no longer used from {min(gone)} on"
            )
            yield Fault(message, "mend the limit, or take out 'no_longer'", place)


def _never_asked(stock: Stock) -> Iterator[Fault]:
    for clause, _, source in files_of(stock.library):
        folder = clause.clause.partition(".")[0]
        if clause.when and folder not in ASKED_IN:
            message = f"no condition is asked of a clause in the folder {folder}: it prints without"
            fix = "take 'when' out; what depends on a condition is a clause of the folder terms or cautions"
            yield Fault(message, fix, source.place(("when",), key=True))


def _charted(stock: Stock) -> Mapping[str, frozenset[str]]:
    """What the price charts of a workspace have, by the condition that asks for it."""
    charts = [chart for _, chart in stock.charts]
    entries = [each for chart in charts for each in (*chart.work.values(), *chart.materials.values())]
    return {
        "works": frozenset(key for chart in charts for key in chart.work),
        "cautions": frozenset(caution for each in entries for caution in each.cautions),
        "kinds": frozenset(each.kind for chart in charts for each in chart.materials.values()),
    }


_WHAT = {
    "works": "has work", "cautions": "names the caution", "kinds": "has material of the kind",
}  # fmt: skip


def _in_no_chart(stock: Stock) -> Iterator[Fault]:
    if not stock.charts:
        return
    charted = _charted(stock)
    for clause, whose, source in files_of(stock.library):
        for key, asked in clause.when.items() if whose == OWN else ():
            if key not in charted or isinstance(asked, Limits):
                continue
            if key == "kinds" and charted[key] & {*asked}:
                continue  # a kind is no slip, and another one of them is there
            for index, name in enumerate(asked):
                if name not in charted[key]:
                    fix = nearest(name, tuple(sorted(charted[key]))) or _NAME_ONE
                    yield Fault(
                        f"no price chart {_WHAT[key]} '{name}'", fix, source.place(("when", key, index))
                    )


_NAME_ONE = "name one that a price chart has, or add it there"

PROOFS = (
    Proof(
        "condition-never-met", Level.STOPS,
        "The season that a clause asks for is one that it has wording for.",
        "Otherwise the clause is on no paper, and nobody sees that it is missing.",
        _TRUCK % "season: {under: 2030}", _TRUCK % "season: {under: 2020}",
        _never_met,
    ),
    Proof(
        "condition-never-asked", Level.STOPS,
        "Only terms and cautions have conditions.",
        "The clause of a decision prints where a job decides so. A condition on it is never asked, and looks"
        " as if it kept the clause off some papers.",
        _WALK % ("terms/walk.yaml", "terms.walk"), _WALK % ("outcomes/walk.yaml", "outcomes.walk"),
        _never_asked,
    ),
    Proof(
        "condition-in-no-chart", Level.WARNS,
        "Work, cautions and kinds of material that your own clauses ask for are in a price chart.",
        "A slip in such a name keeps the clause off every paper. What ships is not asked: it knows of more"
        " than any one contractor does.",
        _TRUCK % "works: [recut-edge]", _TRUCK % "works: [recut-edg]",
        _in_no_chart,
    ),
)  # fmt: skip
