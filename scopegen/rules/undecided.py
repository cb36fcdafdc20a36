"""Open decisions: what every bed and every job raises has to be decided by somebody."""

from __future__ import annotations

from collections.abc import Iterator

from scopegen.answers import Answer
from scopegen.case import Case
from scopegen.findings import Level
from scopegen.job import SITE_DECISIONS, WAYS
from scopegen.rules.decisions import SPOKEN, open_answers, place_of
from scopegen.rules.pieces import bed_fault
from scopegen.rules.rule import TRADE, Fault, Rule

FAMILY = "open decisions"
# The site's questions have no price of their own.
SITE_WAYS = ("included", "excluded", "customer", "elsewhere", "not-needed")


def _open(case: Case, *decisions: str) -> Iterator[Fault]:
    for answer in open_answers(case, *decisions):
        piecewise = len(answer.parts) > 1
        message = f"nobody decided {'a part of ' if piecewise else ''}{SPOKEN[answer.decision]}"
        yield bed_fault(case, answer.bed, message, _fix(answer), place_of(case, answer), answer.decision)


def _fix(answer: Answer) -> str:
    if len(answer.parts) > 1:
        return f"give that part a 'decided: …' with one of: {', '.join(WAYS)}"
    if answer.decision == "material":
        return f"write 'material: {{use: …, depth: …}}', or 'decided: …' with one of: {', '.join(WAYS)}"
    ways = SITE_WAYS if answer.decision in SITE_DECISIONS else WAYS
    return f"write '{answer.decision}: {{decided: …}}' with one of: {', '.join(ways)}"


def _open_extras(case: Case) -> Iterator[Fault]:
    for index, part in enumerate(case.job.extras):
        if part.open:
            name = part.work or "this work"
            yield Fault(
                f"nobody decided '{name}' beside the beds",
                "add 'decided: included', 'decided: add-on' or 'decided: excluded'",
                case.place(("extras", index)),
                None,
                "extra",
            )


BED_PREP = Rule(
    "open-bed-prep", FAMILY, Level.STOPS,
    "Somebody decided the bed prep of every bed.",
    "Weeds, leaves and old growth are cleared by somebody or stay. Where the paper is silent, the crew clears"
    " them unpaid, and next season it is expected.",
    "job: {beds: [{bed_prep: {decided: not-needed, because: the bed is clean}}]}",
    "job: {beds: [{bed_prep: open}]}",
    lambda case: _open(case, "bed_prep"), TRADE,
)  # fmt: skip
EDGING = Rule(
    "open-edging", FAMILY, Level.STOPS,
    "Somebody decided the edging of every bed.",
    "An edge is cut by the foot, and a new one costs several times a recut. An edge that nobody mentioned is"
    " the most common piece of work that is done for nothing.",
    "job: {beds: [{edging: {decided: excluded, declined: yes}}]}",
    "job: {beds: [{edging: open}]}",
    lambda case: _open(case, "edging"), TRADE,
)  # fmt: skip
DEBRIS = Rule(
    "open-debris", FAMILY, Level.STOPS,
    "Somebody decided who takes away what comes out of every bed.",
    "Sod, weeds and old mulch fill a truck, and the dump charges for them. Silence means that the contractor"
    " drives.",
    "job: {every_bed: {debris: {decided: elsewhere, who: the lawn service}}}",
    "job: {beds: [{debris: open}]}",
    lambda case: _open(case, "debris"), TRADE,
)  # fmt: skip
SUBSTRATE = Rule(
    "open-substrate", FAMILY, Level.STOPS,
    "Somebody decided what happens to the ground underneath, on every bed.",
    "Old mulch, fabric and turf under new material decide how deep it lies and how long it lasts. Taking them"
    " out is work that nobody sees afterwards.",
    "job: {beds: [{substrate: {decided: not-needed, because: the old mulch is loose}}]}",
    "job: {beds: [{substrate: open}]}",
    lambda case: _open(case, "substrate"), TRADE,
)  # fmt: skip
MATERIAL = Rule(
    "open-material", FAMILY, Level.STOPS,
    "Somebody decided the material of every bed, or that it gets none.",
    "A bed without a word on material leaves open whether it is covered at all. Where none is wanted, a"
    " reason"
    " says so.",
    "job: {beds: [{material: {decided: not-needed, because: it is deep enough}}]}",
    "job: {beds: [{material: open}]}",
    lambda case: _open(case, "material"), TRADE,
)  # fmt: skip
SITE = Rule(
    "open-site", FAMILY, Level.STOPS,
    "Somebody decided each question that the site raises.",
    "Buried lines, the way in, irrigation, plants, pets, clean-up and leftover material are nobody's until"
    " somebody is named. Each has cost somebody a day's work.",
    "job: {site: {irrigation-and-lighting: {decided: not-needed, because: there is none}}}",
    "job: {site: {irrigation-and-lighting: open}}",
    lambda case: _open(case, *SITE_DECISIONS), TRADE,
)  # fmt: skip
EXTRA = Rule(
    "open-extra", FAMILY, Level.STOPS,
    "Somebody decided each piece of work beside the beds.",
    "Work that stands in the job description without a decision is neither sold nor refused.",
    "job: {extras: [{work: shrub-trim, worker_hours: 2 h, decided: add-on}]}",
    "job: {extras: [{work: shrub-trim, worker_hours: 2 h}]}",
    _open_extras, TRADE,
)  # fmt: skip

RULES = (MATERIAL, BED_PREP, EDGING, DEBRIS, SUBSTRATE, SITE, EXTRA)
