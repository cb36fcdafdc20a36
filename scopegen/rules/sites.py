"""Several properties with one truck: each bed belongs to one of them, and their shares make the whole."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from scopegen.case import Case
from scopegen.findings import Level
from scopegen.quantities.show import percent
from scopegen.rules.pieces import bed_fault, job_fault
from scopegen.rules.rule import TRADE, Fault, Rule
from scopegen.understand import nearest

FAMILY = "several properties"


def _beds(case: Case) -> tuple[str, ...] | None:
    """The names of the beds; None where one of them is not known."""
    names = tuple(bed.name for bed in case.job.beds)
    return None if ("beds",) in case.broken or not all(names) else names


def _unknown_bed(case: Case) -> Iterator[Fault]:
    beds = _beds(case)
    for number, site in enumerate(case.job.sites if beds is not None else ()):
        for index, name in enumerate(site.beds):
            if name not in (beds or ()):
                yield job_fault(
                    case,
                    f"the property '{site.name}' has a bed '{name}', which is not among the job's beds",
                    nearest(name, beds or ()) or f"known there: {', '.join(beds or ())}",
                    "sites", number, "beds", index,
                )  # fmt: skip


def _without_site(case: Case) -> Iterator[Fault]:
    if not case.job.sites or ("sites",) in case.broken:
        return
    named = {name for site in case.job.sites for name in site.beds}
    if named - set(_beds(case) or ()):
        return  # the bed may be the one whose name is mistyped there
    for index, bed in enumerate(case.job.beds):
        if bed.name and bed.name not in named:
            yield bed_fault(
                case, index,
                "the bed belongs to none of the properties",
                f"name it under 'beds' of one of: {', '.join(site.name for site in case.job.sites)}",
                case.place(("beds", index, "name"), key=True),
            )  # fmt: skip


def _in_two(case: Case) -> Iterator[Fault]:
    first: dict[str, str] = {}
    for number, site in enumerate(case.job.sites):
        for index, name in enumerate(site.beds):
            if name in first:
                where = f"twice to '{site.name}'" if first[name] == site.name else f"to '{first[name]}' too"
                yield job_fault(
                    case,
                    f"the bed '{name}' belongs {where}",
                    "name each bed once, where it lies",
                    "sites", number, "beds", index,
                )  # fmt: skip
            first.setdefault(name, site.name)


def _hauling(case: Case) -> Iterator[Fault]:
    total = sum((site.hauling for site in case.job.sites), Fraction(0))
    if case.job.sites and total != 1:
        yield job_fault(
            case,
            f"the properties' shares of the hauling come to {percent(total)}",
            "let them come to 100 %",
            "sites",
            key=True,
        )


def _sites(front: str, back: str, *, share: str = "40 %") -> str:
    return (
        f"sites: [{{name: No. 1, property: 1 Ruler Road, bill_to: Pat Sample, beds: {front}, hauling: 60 %}},"
        f" {{name: No. 3, property: 3 Ruler Road, bill_to: Lee Muster, beds: {back}, hauling: {share}}}]"
    )


BEDS = "beds: [{name: Front bed}, {name: Back bed}]"
PASSES = f"job: {{{BEDS}, {_sites('Front bed', 'Back bed')}}}"
UNKNOWN_BED = Rule(
    "site-unknown-bed", FAMILY, Level.STOPS,
    "Every bed of a property is a bed of the job.",
    "A bed under a name that is nowhere is paid by nobody.",
    PASSES, f"job: {{{BEDS}, {_sites('Front bed', '[Back bed, Bak bed]')}}}",
    _unknown_bed,
)  # fmt: skip
WITHOUT_SITE = Rule(
    "bed-without-site", FAMILY, Level.STOPS,
    "Where a job serves several properties, each bed belongs to one.",
    "Its work would be shared by all, and each neighbor would pay for another's bed.",
    PASSES, f"job: {{beds: [{{name: Front bed}}, {{name: Back bed}}, {{name: Side bed}}],"
    f" {_sites('Front bed', 'Back bed')}}}",
    _without_site,
)  # fmt: skip
IN_TWO = Rule(
    "bed-in-two-sites", FAMILY, Level.STOPS,
    "A bed belongs to one property.",
    "Named twice, it would be billed twice.",
    PASSES, f"job: {{{BEDS}, {_sites('Front bed', '[Back bed, Front bed]')}}}",
    _in_two,
)  # fmt: skip
HAULING = Rule(
    "hauling-shares", FAMILY, Level.STOPS,
    "The properties' shares of the hauling make the whole.",
    "The truck goes once for all of them. What the shares leave open is paid by nobody, and what they exceed"
    " is paid twice.",
    PASSES, f"job: {{{BEDS}, {_sites('Front bed', 'Back bed', share='30 %')}}}",
    _hauling, TRADE,
)  # fmt: skip

RULES = (UNKNOWN_BED, WITHOUT_SITE, IN_TWO, HAULING)
