"""The work in sentences, what is not in the price, what is the customer's, the add-ons, the terms."""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction

from scopegen.chart import Material
from scopegen.clauses import Said, Term
from scopegen.clauses.choose import TOLD
from scopegen.clauses.outcomes import is_yours
from scopegen.job import SITE_DECISIONS
from scopegen.papers.document import (
    Block,
    Cell,
    Choice,
    Choices,
    Column,
    Items,
    Paragraph,
    Row,
    Section,
    Table,
)
from scopegen.papers.frame import Frame, capital
from scopegen.price import Line, Offer
from scopegen.price.lots import Lot, lot_of
from scopegen.price.material import bulk
from scopegen.quantities import show

IN_PRICE = ("included", "no-charge")


def work_section(frame: Frame) -> Section:
    """What we do for the price, decision by decision."""
    say = frame.say
    intro = "intro_estimate" if frame.priced.at_most else "intro"
    blocks: list[Block | Section] = [Paragraph(say(f"agreement.work.{intro}"))]
    done = frame.chosen.of(*IN_PRICE)
    for decision in TOLD:
        if decision in SITE_DECISIONS:
            continue
        told = [_told(frame, said) for said in done if said.decision == decision]
        extra = _material_table(frame) if decision == "material" else []
        if told or extra:
            blocks.append(Section(f"work-{decision}", say(f"decision.{decision}"), (*told, *extra)))
    site = [
        _told(frame, said, say(f"decision.{said.decision}"))
        for said in done
        if said.decision in SITE_DECISIONS
    ]
    if site:
        blocks.append(Section("work-site", say("agreement.work.site"), tuple(site)))
    return Section("work", say("agreement.work.title"), tuple(blocks))


def _told(frame: Frame, said: Said, title: str = "") -> Paragraph:
    lead = title or said.title
    if said.how == "no-charge":
        lead = f"{lead}, {frame.say('decided.no-charge')}"
    return Paragraph(said.whole_text, lead_in=lead)


def _material_table(frame: Frame) -> list[Block]:
    say, units = frame.say, frame.job.units
    laid: dict[tuple[int, str, bool, Fraction], tuple[Fraction, Fraction]] = {}
    for spread in frame.measured.spreads:
        if spread.share.how in IN_PRICE and spread.volume:
            key = (spread.share.bed, spread.material, is_yours(spread.share.part), spread.depth)
            area, volume = laid.get(key, (Fraction(0), Fraction(0)))
            laid[key] = (area + spread.area, volume + spread.volume)
    rows = []
    for (bed, material, yours, depth), (area, volume) in laid.items():
        name = frame.chart.materials[material].name
        measured = area > 0  # a bed that was told by its volume has no area and no depth
        cells = (
            frame.measured.beds[bed].name,
            capital(say("agreement.scope.yours", material=name) if yours else name),
            show.area(area, units, column=True) if measured else "",
            show.depth(depth, units) if measured else frame.say("agreement.work.as_told"),
            show.volume(volume, units),
        )
        rows.append(Row(tuple(Cell(text) for text in cells)))
    if not rows:
        return []
    figures = [Column(say(f"agreement.work.{key}"), figures=True) for key in ("area", "depth", "volume")]
    table = Table(
        say("agreement.work.materials_caption"),
        (Column(say("agreement.work.bed")), Column(say("agreement.work.material"), width="wide"), *figures),
        tuple(rows),
        show_caption=True,
    )
    return [
        table,
        *(_sold(frame, line) for line in frame.priced.lines if line.sells_material),
    ]


def _sold(frame: Frame, line: Line) -> Paragraph:
    """How the sold amount comes from the measured one, with the visit, the waste and the weight of stone."""
    say, material = frame.say, frame.chart.materials[line.key]
    values = {
        "material": capital(material.name),
        "measured": show.measure(line.measured or line.quantity, material.unit),
        "sold": show.measure(line.quantity, material.unit),
        "step": show.measure(material.sold_in.of(material.unit), material.unit),
        "forgives": show.percent(material.forgives),
    }
    how = "sold_forgives" if material.forgives else "sold_as"
    how = "sold_by_measure" if frame.job.price_basis == "by measure" else how
    told = [say("agreement.work.on_visit", visit=line.visit)] if line.visit else []
    told.append(say(f"agreement.work.{how}", **values))
    there = _laid_for(frame, line) - (line.volume or Fraction(0))
    if there > 0:
        told.append(say("agreement.work.on_hand", volume=show.volume(there, frame.job.units)))
    if material.waste:
        told.append(say("agreement.work.waste", share=show.percent(material.waste)))
    if material.kind == "stone":
        told += _weighed(frame, material, line)
    return Paragraph(" ".join(told), "small")


def _laid_for(frame: Frame, line: Line) -> Fraction:
    """How much of a material is laid at the line's visit for its price, in yd3, whether it is bought or lies
    on the property already."""
    lot = Lot(line.key, line.visit)
    spreads = (each for each in frame.measured.spreads if each.share.how == line.decided)
    return sum((each.volume for each in spreads if lot_of(frame.job, each) == lot), Fraction(0))


def _weighed(frame: Frame, material: Material, line: Line) -> list[str]:
    """What a sold amount of stone weighs, dry and wet."""
    _, dry = bulk(material, line.quantity)
    weights = {"dry": show.weight(dry, frame.job.units)}
    if not material.wet:
        return [frame.say("agreement.work.weighs_dry", **weights)]
    wet = show.weight(dry * (1 + material.wet), frame.job.units)
    return [frame.say("agreement.work.weighs_wet", wet=wet, **weights)]


def excluded_section(frame: Frame) -> Section:
    """Everything that is named as not part of the price."""
    say, chosen = frame.say, frame.chosen
    blocks: list[Block | Section] = []
    excluded = [_left(frame, said) for said in chosen.of("excluded")]
    absent = [
        Paragraph(
            say("agreement.excluded.absent", things=frame.words.list(things)),
            lead_in=say("agreement.excluded.also", decision=say(f"decision.{decision}")),
        )
        for decision, things in chosen.absent
    ]
    blocks += (
        [Paragraph(say("agreement.excluded.intro")), *excluded, *absent]
        if excluded or absent
        else [Paragraph(say("agreement.excluded.none"))]
    )
    for way, title in (("elsewhere", "elsewhere"), ("not-needed", "not_needed")):
        told = tuple(_left(frame, said) for said in chosen.of(way))
        if told:
            blocks.append(Section(f"excluded-{way}", say(f"agreement.excluded.{title}"), told))
    return Section("excluded", say("agreement.excluded.title"), tuple(blocks))


def _left(frame: Frame, said: Said) -> Paragraph:
    decision = frame.say(f"decision.{said.decision}")
    where = frame.beds(said.beds) if said.beds else ""
    return Paragraph(said.whole_text, lead_in=", ".join(filter(None, (decision, where))))


def yours_section(frame: Frame) -> list[Section]:
    """What the customer does, by when, and what happens where it is not done."""
    told = [_left(frame, said) for said in frame.chosen.of("customer")]
    if not told:
        return []
    return [
        Section(
            "yours",
            frame.say("agreement.yours.title"),
            (Paragraph(frame.say("agreement.yours.intro")), *told),
        )
    ]


def add_on_sections(frame: Frame) -> list[Section]:
    """The add-ons, each with a box, initials and a price; then what was offered and declined."""
    say, said_once = frame.say, frame.chosen.sentences
    labels = {key: say(f"agreement.add_ons.{key}") for key in ("box", "initials", "price")}
    sections = []
    offered = _by_group(frame)
    if offered:
        intro = f"{said_once.get('outcomes.add-on', '')} {say('agreement.add_ons.complete')}".strip()
        added = Paragraph(say("agreement.add_ons.added"), "small")
        groups: list[Block | Section] = []
        for group, choices in offered.items():
            if group:
                groups.append(Paragraph(say("agreement.add_ons.choose_one", group=capital(group)), "strong"))
            groups.append(Choices(tuple(choices), **labels))
        blocks = (Paragraph(intro), *groups, added)
        sections.append(Section("add-ons", say("agreement.add_ons.title"), blocks))
    declined = tuple(
        Choice(_left(frame, said).lead_in, said.text) for said in frame.chosen.of("excluded") if said.declined
    )
    if declined:
        blocks = (Paragraph(said_once.get("outcomes.declined", "")), Choices(declined, **labels))
        sections.append(Section("declined", say("agreement.declined.title"), blocks))
    return sections


def _by_group(frame: Frame) -> dict[str, list[Choice]]:
    """The add-ons, first those that go with any other, then each group of which one at the most is chosen."""
    groups: dict[str, list[Choice]] = {}
    for said in frame.chosen.of("add-on"):
        part = frame.part_at(said.path)
        groups.setdefault((part and part.choose_one) or "", []).append(_choice(frame, said))
    return {group: groups[group] for group in sorted(groups, key=lambda group: group != "")}


def _choice(frame: Frame, said: Said) -> Choice:
    offer = frame.priced.offer_at(said.path)
    part = frame.part_at(said.path)
    what = frame.chart.work.get(said.work) or frame.chart.materials.get(getattr(part, "use", None) or "")
    apart = part is not None and part.choose_one and what is not None  # one clause may word several of them
    name = capital(what.name) if apart and what else said.title
    title = ", ".join(filter(None, (name, frame.beds(said.beds) if said.beds else "")))
    more = " ".join(_more_material(frame, offer)) if offer and said.decision != "material" else ""
    text = " ".join(filter(None, (said.whole_text, more)))
    return Choice(title, text, frame.money(offer.price) if offer else "")


def _more_material(frame: Frame, offer: Offer) -> Iterator[str]:
    """What a cleared bed takes on top, so that it ends at the depth that was sold."""
    for line in offer.parts:
        if line.sells_material:
            quantity = show.measure(line.quantity, line.unit)
            yield frame.say("agreement.add_ons.more_material", quantity=quantity, material=line.description)


def terms_sections(frame: Frame) -> list[Section]:
    """The terms, and the cautions."""
    say = frame.say
    terms = Section("terms", say("agreement.terms.title"), tuple(_terms(frame.chosen.terms)), role="terms")
    cautions = tuple(_terms(frame.chosen.cautions, stop="."))
    if not cautions:
        return [terms]
    return [terms, Section("cautions", say("agreement.cautions.title"), (Items(cautions),), role="terms")]


def _terms(terms: Iterable[Term], stop: str = "") -> list[Paragraph]:
    return [Paragraph(term.text, lead_in=f"{term.title}{stop}") for term in terms]
