"""The values that a clause's blanks are filled with, as text with their units."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from scopegen.chart import Chart, UnitPrice
from scopegen.chart.material import SOLD_BY
from scopegen.company import Company
from scopegen.job import Job, MaterialPart, OnHand, Part
from scopegen.load import Path_
from scopegen.measure import Measured, Share
from scopegen.price import Priced
from scopegen.price.lines import hour_limit
from scopegen.quantities import show
from scopegen.quantities.rounding import cents
from scopegen.words import Lexicon
from scopegen.words.phrases import by_phrase, counted, last_offer_day, start_phrase


def price_phrase(price: UnitPrice, words: Lexicon) -> str:
    """A price for one unit, with its minimum: `$4.60 a foot, at least $120.00`."""
    unit = f"{words.money(price.amount)} {words.say(f'per.{price.per}')}"
    return words.say("at_least", price=unit, minimum=words.money(price.minimum)) if price.minimum else unit


class Blanks:
    """Fills in for one job. Values that a job lacks are empty text; a clause asks for them with `if`."""

    def __init__(
        self,
        job: Job,
        chart: Chart,
        company: Company | None,
        measured: Measured,
        priced: Priced,
        words: Lexicon,
    ) -> None:
        self.job, self.chart, self.company, self.measured, self.priced, self.words = (
            job,
            chart,
            company,
            measured,
            priced,
            words,
        )
        self._paper = self._of_paper()

    def paper(self) -> dict[str, str]:
        """Blanks that are the same in every text of the paper."""
        return self._paper

    def _of_paper(self) -> dict[str, str]:
        job, words, company = self.job, self.words, self.company
        terms = company.terms if company else None
        charge = terms.late_payment.charge if terms else None
        payments = self.priced.payments
        return {
            "company": (company and company.name) or "",
            "company_phone": (company and company.phone) or "",
            "company_address": ", ".join((company and company.address) or ()),
            "license": (company and company.license) or "",
            "insurance": (company and company.insurance) or "",
            "applicator_license": (company and company.applicator_license) or "",
            "customer": (job.customer and job.customer.name) or "",
            "property": (job.customer and job.customer.property) or "",
            "walked": words.day(job.walked) if job.walked else "",
            "dated": words.day(job.dated) if job.dated else "",
            "offer_until": words.day(last) if (last := last_offer_day(job)) else "",
            "start": start_phrase(job, words),
            "total": words.money(self.priced.total),
            "deposit": words.money(payments[0].amount) if len(payments) > 1 else "",
            "hour_price": words.money(self.chart.worker_hour) if self.chart.worker_hour else "",
            "late_after": counted(words, "days", terms.late_payment.after) if terms else "",
            "late_charge": words.say("a_month", percent=show.percent(charge)) if charge else "",
            "stands_for": counted(words, "days", terms.stands_for) if terms else "",
            "tell_within": counted(words, "days", terms.tell_within) if terms else "",
            "start_notice": counted(words, "days", terms.start_notice) if terms else "",
            "fee": words.money(self.chart.job.come_back)
            if self.chart.job and self.chart.job.come_back
            else "",
            **self._of_buyer(),
            **self._of_basis(),
        }

    def _of_buyer(self) -> dict[str, str]:
        """Who is billed, and how the order and an exemption are named."""
        buyer = self.job.customer
        exempt = buyer.tax_exempt if buyer else None
        return {
            "bill_to": ", ".join((buyer and buyer.bill_to) or ()),
            "po_number": (buyer and buyer.po_number) or "",
            "certificate": exempt.certificate if exempt else "",
        }

    def _of_basis(self) -> dict[str, str]:
        """What the price rests on, beside what it comes to."""
        job, words = self.job, self.words
        by_measure = job.price_basis == "by measure" and job.tolerance is not None
        return {
            "tolerance": show.percent(job.tolerance) if by_measure and job.tolerance else "",
            "at_most": words.money(self.priced.at_most) if self.priced.at_most is not None else "",
            "visits": words.list(visit.name for visit in job.visits),
            "on_hand": words.list(self._pile(pile) for pile in job.on_hand),
        }

    def _pile(self, pile: OnHand) -> str:
        """A pile that is the customer's already: `2 yd³ of bark mulch (behind the shed)`."""
        material = self.chart.materials.get(pile.use)
        unit = material.unit if material and SOLD_BY[material.unit] == pile.amount.unit else pile.amount.unit
        return self.words.say(
            "pile",
            amount=show.measure(pile.amount.of(unit), unit),
            material=material.name if material else pile.use,
            spot=pile.spot,
        )

    def decision(
        self, decision: str, part: Part, shares: Sequence[Share], path: Path_, *, beds: str
    ) -> dict[str, str]:
        """Blanks of one decision's text, with those of the sentences that follow it."""
        work = self.chart.work.get(part.work or "")
        spoil = work.spoil if work else None
        length = (
            sum((share.length or Fraction(0) for share in shares), Fraction(0)) or part.along or Fraction(0)
        )
        area = sum((share.area for share in shares), Fraction(0)) or part.area
        units = self.job.units
        offer = self.priced.offer_at(path)
        return {
            "beds": beds,
            "work": work.name if work else "",
            "length": show.run(length, units),
            "area": show.area(area, units) if area else "",  # a bed told by its volume has none
            "cut_depth": show.depth(spoil.depth, units) if spoil and spoil.width and spoil.depth else "",
            "cut_width": show.depth(spoil.width, units) if spoil and spoil.width else "",
            "strip_width": show.depth(spoil.plus_strip.width, units) if spoil and spoil.plus_strip else "",
            "spot": part.spot or "",
            "visit": self.visit(part, shares),
            "choose": part.choose_one or "",
            **self._hours(part, max(len(shares), 1)),
            "by": by_phrase(part.by, self.words) if part.by else "",
            "who": part.who or "",
            "because": part.because or "",
            "price": self.words.money(offer.before_tax if offer.decided == "no-charge" else offer.price)
            if offer
            else "",
            "unit_price": self.unit_price(part),
            **self._material(part, shares),
        }

    def _hours(self, part: Part, times: int) -> dict[str, str]:
        """The hours of as many beds, with what they cost where they are charged as worked."""
        hours, work, money = (
            (part.worker_hours or 0) * times,
            self.chart.work.get(part.work or ""),
            self.words.money,
        )
        limit = hour_limit(work, part, Fraction(hours, times)) if work and hours else None
        blanks = {
            "worker_hours": counted(self.words, "hours", hours) if hours else "",
            "estimate": "",
            "limit": "",
        }
        if work is None or limit is None or not isinstance(work.price, UnitPrice):
            return blanks
        estimate = cents(hours * Fraction(work.price.amount))
        return {**blanks, "estimate": money(estimate), "limit": money(max(limit * times, estimate))}

    def visit(self, part: Part, shares: Sequence[Share]) -> str:
        """The visit that all of it is done at, where the job has several."""
        at = {part.visit or self.job.beds[share.bed].visit or "" for share in shares} or {part.visit or ""}
        return at.pop() if len(at) == 1 and self.job.visits else ""

    def _material(self, part: Part, shares: Sequence[Share]) -> dict[str, str]:
        material = self.chart.materials.get(part.use or "") if isinstance(part, MaterialPart) else None
        depth = part.depth if isinstance(part, MaterialPart) else None
        up_to = part.top_up_to if isinstance(part, MaterialPart) else None
        paths = {(share.bed, share.path) for share in shares}
        beds = dict.fromkeys(share.bed for share in shares)
        spreads = [spread for bed in beds for spread in self.measured.beds[bed].spreads]
        laid = [s for s in spreads if (s.share.bed, s.share.path) in paths and s.volume]
        volume = sum((spread.volume for spread in laid), Fraction(0))
        area = sum((spread.area for spread in laid), Fraction(0))
        return {
            "material": material.name if material else "",
            "depth": show.depth(depth, self.job.units) if depth else "",
            "up_to": show.depth(up_to, self.job.units) if up_to else "",
            "quantity": show.volume(volume, self.job.units) if material else "",
            "wet": show.percent(material.wet) if material and material.wet else "",
            "waste": show.percent(material.waste) if material and material.waste else "",
            **(
                {"area": show.area(area, self.job.units)} if area else {}
            ),  # where it is laid, not the beds whole
        }

    def unit_price(self, part: Part) -> str:
        """A work's price for one unit: `$1.45 a foot`."""
        work = self.chart.work.get(part.work or "")
        if work is None or not isinstance(work.price, UnitPrice):
            return ""
        return price_phrase(work.price, self.words)

    def beds(self, decision: str, shares: Sequence[Share], *, sized: bool) -> str:
        """The beds by name, with the part of a bed where it is not the whole; `all beds` where it is all.

        `sized`: the text itself says how much it is, so that one bed's part needs no size beside its name.
        """
        names = []
        for share in shares:
            bed = self.measured.beds[share.bed].name
            part = (
                ""
                if share.whole
                else share.name or ("" if sized and len(shares) == 1 else self._size(decision, share))
            )
            names.append(self.words.say("beds.part", bed=bed, part=part) if part else bed)
        if len(names) > 2 and len({share.bed for share in shares if share.whole}) == len(self.measured.beds):
            return self.words.say("beds.all")
        return self.words.list(dict.fromkeys(names))

    def site_beds(self, decision: str, bed: int | None) -> str:
        """The beds that a site decision is about: one, or all, or all that do not answer it themselves."""
        if bed is not None:
            return self.measured.beds[bed].name
        own = any(decision.replace("-", "_") in each.site.model_fields_set for each in self.job.beds)
        return self.words.say("beds.others" if own else "beds.site")

    def _size(self, decision: str, share: Share) -> str:
        if decision == "edging":
            return show.run(share.length or Fraction(0), self.job.units)
        return show.area(share.area, self.job.units)
