"""Chooses the wording for every decision of a job, and says why."""

from __future__ import annotations

from collections.abc import Iterable

from scopegen.answers import Answer
from scopegen.chart import Chart, Material, Work
from scopegen.clauses.asked import TOLD, Asked, asked_of
from scopegen.clauses.blanks import Blanks
from scopegen.clauses.conditions import Facts, condition_in_words, holds, met
from scopegen.clauses.facts import facts_of
from scopegen.clauses.fill import Unfillable, fill_with_words
from scopegen.clauses.in_force import OWN, InForce, Ruling, Wording, serves
from scopegen.clauses.outcomes import YOURS, is_yours, outcomes_of
from scopegen.clauses.values import Chosen, ClauseTrouble, Said, Term, Used
from scopegen.company import Company
from scopegen.job import SITE_DECISIONS, Job, MaterialPart, Part
from scopegen.job.decisions import PRICED_WAYS
from scopegen.load import Path_
from scopegen.measure import Measured
from scopegen.price import Priced
from scopegen.words import Lexicon

ALONE = ("outcomes.add-on", "outcomes.declined")  # sentences that open a list of choices


def choose(
    in_force: InForce,
    job: Job,
    chart: Chart,
    company: Company | None,
    answers: tuple[Answer, ...],
    measured: Measured,
    priced: Priced,
    words: Lexicon,
) -> Chosen:
    """The wording of one agreement. What has no wording is left out, with its trouble."""
    blanks = Blanks(job, chart, company, measured, priced, words)
    chooser = _Chooser(in_force, job, chart, blanks, words.language)
    said = tuple(chooser.say(asked) for asked in asked_of(job, answers, measured))
    facts = facts_of(job, chart, company, answers, measured, priced)
    return Chosen(
        tuple(each for each in said if each),
        chooser.stand(in_force.folder("terms"), facts),
        chooser.stand(in_force.folder("cautions"), facts),
        chooser.absent(),
        {name: text for name in ALONE if (text := chooser.alone(name))},
        tuple(chooser.troubles),
        tuple(dict.fromkeys(chooser.texts)),
    )


def _is_later(clause: Ruling) -> bool:
    """A contractor's own that begins in a later season; a caution that the price chart names is missed all
    the same, and so is what ships."""
    return not clause.texts and clause.whose == OWN and "cautions" not in clause.when


def _why(part: Part, decision: str) -> str:
    """What in the job asks for the clause."""
    if isinstance(part, MaterialPart) and part.use:
        return f"material: {part.use}"
    return f"work: {part.work}" if part.work else f"{decision} {part.how}"


def _own_file(clause: str) -> str:
    """Where a contractor writes a clause, below the folder of company.yaml."""
    return f"clauses/{clause.replace('.', '/', 1)}.yaml"


class _Chooser:
    def __init__(self, in_force: InForce, job: Job, chart: Chart, blanks: Blanks, language: str) -> None:
        self.in_force, self.job, self.chart, self.blanks = in_force, job, chart, blanks
        self.language = language
        self.troubles: list[ClauseTrouble] = []
        self.texts: list[Used] = []
        self.used: dict[str, set[str]] = {}  # clause -> ways

    def say(self, asked: Asked) -> Said | None:
        """What is said of one decided part."""
        clause = self._clause(asked)
        if clause is None:
            return None
        part, how = asked.part, str(asked.part.how)
        self.used.setdefault(clause.clause, set()).add(how)
        wording = self._wording(clause, how, asked.path, asked)
        values = self._values(asked, wording.text) if wording else {}
        filled = self._fill(clause, wording, values, asked) if wording else None
        if wording is None or filled is None:
            return None
        outcomes = (
            self._follow(name, values, asked)
            for name in outcomes_of(asked.decision, part, self.chart, at_visit=bool(values.get("visit")))
        )
        return Said(
            decision=asked.decision,
            how=how,
            clause=clause.clause,
            version=wording.version,
            title=self._title(clause, asked),
            beds=asked.beds,
            text=filled,
            follows=tuple(filter(None, outcomes)),
            note=part.note or "",
            work=part.work or "",
            who=part.who or "",
            declined=part.declined,
            path=asked.path,
            why=_why(part, asked.decision),
            values={name: value for name, value in values.items() if value},
        )

    def _values(self, asked: Asked, text: str) -> dict[str, str]:
        """The blanks of one decision's text, and of the sentences that follow it."""
        sized = "{{ length" in text or "{{ area" in text
        if asked.shares:
            beds = self.blanks.beds(asked.decision, asked.shares, sized=sized)
        else:
            beds = self.blanks.site_beds(asked.decision, asked.bed)
        own = self.blanks.decision(asked.decision, asked.part, asked.shares, asked.path, beds=beds)
        return {**self.blanks.paper(), **own}

    def stand(self, clauses: Iterable[Ruling], facts: Facts) -> tuple[Term, ...]:
        """The terms or cautions whose conditions hold, filled."""
        terms = []
        for clause in clauses:
            if not holds(clause.when, facts) or _is_later(clause):
                continue
            wording = self._wording(clause, "says", ())
            filled = self._fill(clause, wording, self.blanks.paper(), None) if wording else None
            if wording and filled:
                why = condition_in_words(met(clause.when, facts))
                terms.append(Term(clause.clause, wording.version, self._title(clause), filled, why))
        return tuple(terms)

    def absent(self) -> tuple[tuple[str, tuple[str, ...]], ...]:
        """What the library knows and the job has in no way at all, by decision, each by its short name."""
        by_decision: dict[str, list[str]] = {}
        for name, clause in sorted(self.in_force.clauses.items()):
            known = clause.name_if_absent.get(self.language)
            if not clause.name_if_absent or name in self.used or not clause.texts:
                continue
            if known is None:
                message = f"the clause '{clause.clause}' has no name_if_absent in '{self.language}'"
                self._trouble("no-wording", message, "write that name in the clause's file", None)
            else:
                by_decision.setdefault(clause.decides or "", []).append(known)
        return tuple((decision, tuple(by_decision[decision])) for decision in TOLD if decision in by_decision)

    def alone(self, name: str) -> str:
        """A sentence that needs no decision to stand; empty where it needs one."""
        clause = self._sentence(name)
        wording = self._wording(clause, "says", ()) if clause and not clause.needs else None
        return (self._fill(clause, wording, self.blanks.paper(), None) or "") if clause and wording else ""

    def _clause(self, asked: Asked) -> Ruling | None:
        """The clause of the work or material; for what names none, the decision's general one."""
        entry = self._entry(asked)
        if entry is None and asked.part.how in PRICED_WAYS and asked.decision not in SITE_DECISIONS:
            return None  # work or material that the chart does not know, which is found already
        general = f"{'site.' if asked.decision in SITE_DECISIONS else ''}{asked.decision}"
        named = [YOURS if is_yours(asked.part) else entry.clause] if entry else []
        # Work that is left out or done by the customer is named by its own clause, never by 'edging' alone.
        if not (entry and asked.part.how in ("excluded", "customer")):
            named.append(general if asked.decision in SITE_DECISIONS else f"{general}.general")
        for name in named:
            clause = self.in_force.clauses.get(self.in_force.standing_for(name))
            # work that stands under another decision than its own is found already
            decisions = {asked.decision, entry.decides if isinstance(entry, Work) else asked.decision}
            if clause and not any(serves(clause, decision) for decision in decisions):
                self._decides_otherwise(name, clause, asked)
                return None
            if clause and asked.part.how in clause.ways:
                return clause
        self._no_clause(named[0], asked)
        return None

    def _entry(self, asked: Asked) -> Work | Material | None:
        part = asked.part
        if isinstance(part, MaterialPart):
            return self.chart.materials.get(part.use or "")
        return self.chart.work.get(part.work or "")

    def _decides_otherwise(self, name: str, clause: Ruling, asked: Asked) -> None:
        """The clause says something else than was asked: its words would be wrong, however well they fill."""
        stands = f"'{clause.clause}'"
        if clause.clause != name:
            stands += f", which stands for '{name}' from season {self.in_force.retired[name].season} on,"
        decides = f"'{clause.decides}', not" if clause.decides else "nothing, and so not"
        fix = f"name a clause of '{asked.decision}' in the price chart"
        fix += ", or under 'instead:' in the clause's file" if clause.clause != name else ""
        message = f"the clause {stands} decides {decides} '{asked.decision}'"
        self._trouble("clause-decides", message, fix, asked)

    def _no_clause(self, name: str, asked: Asked) -> None:
        standing = self.in_force.standing_for(name)
        if {name, standing} & self.in_force.broken:
            return  # its file is found already
        known = self.in_force.clauses.get(standing)
        if known is None and name in self.in_force.retired:
            season = self.in_force.retired[name].season
            message = f"the clause '{name}' is no longer used from season {season} on, and none stands for it"
            fix = "name another clause in the price chart, or write 'instead:' in the clause's file"
            self._trouble("unknown-clause", message, fix, asked)
        elif known is None:
            message, fix = (
                f"there is no clause '{name}' in the library",
                "name a clause that is there, or write it",
            )
            self._trouble("unknown-clause", message, fix, asked)
        else:
            message = f"the clause '{standing}' has no wording for '{asked.part.how}'"
            fix = f"decide it in one of the ways that it has: {', '.join(known.ways)}"
            if asked.decision not in SITE_DECISIONS or asked.part.how not in ("add-on", "no-charge"):
                # a site decision has no work, and so no price of its own to offer
                fix += f"; or write wording for '{asked.part.how}' in {_own_file(standing)}"
            self._trouble("no-wording", message, fix, asked)

    def _wording(self, clause: Ruling, way: str, path: Path_, asked: Asked | None = None) -> Wording | None:
        if not clause.texts:
            self._trouble(
                "no-version",
                f"the clause '{clause.clause}' has no wording yet for season {self.job.season}",
                "add a version for that season, or an earlier one",
                asked,
            )
            return None
        wording = clause.wording(self.language, way)
        if wording is None:
            missing, write = f"wording for '{way}'", "that wording"
            if self.language not in clause.title and not clause.clause.startswith("outcomes."):
                missing, write = f"title and no {missing}", "both"  # an outcome's title is on no paper
            self._trouble(
                "no-wording",
                f"the clause '{clause.clause}' has no {missing} in '{self.language}'",
                f"write {write} in {_own_file(clause.clause)}",
                asked,
            )
            return None
        return wording

    def _fill(
        self, clause: Ruling, wording: Wording, values: dict[str, str], asked: Asked | None
    ) -> str | None:
        title = clause.title.get(self.language) or clause.clause
        self.texts.append(Used(clause.clause, title, str(wording.path[-1]), wording))
        try:
            return fill_with_words(wording.text, values)
        except Unfillable as error:
            self._trouble(
                "unfillable",
                f"the clause '{clause.clause}' cannot be filled: {error}",
                "mend the text in the clause's file",
                asked,
                (clause.clause, wording),
            )
            return None

    def _follow(self, name: str, values: dict[str, str], asked: Asked) -> str | None:
        clause = self._sentence(name, asked)
        wording = self._wording(clause, "says", asked.path, asked) if clause else None
        return self._fill(clause, wording, values, asked) if clause and wording else None

    def _sentence(self, name: str, asked: Asked | None = None) -> Ruling | None:
        """A sentence of the folder `outcomes`, or what stands there for it."""
        clause = self.in_force.clauses.get(self.in_force.standing_for(name))
        if clause is None and asked:
            self._no_clause(name, asked)
        if clause is None or clause.clause.startswith("outcomes."):
            return clause
        message = f"the clause '{clause.clause}' stands for '{name}', and is none of the folder outcomes"
        fix = f"name a clause of that folder under 'instead:' in the file of '{name}'"
        self._trouble("clause-decides", message, fix, asked)
        return None

    def _title(self, clause: Ruling, asked: Asked | None = None) -> str:
        title = clause.title.get(self.language)
        if title is None:
            message = f"the clause '{clause.clause}' has no title in '{self.language}'"
            self._trouble("no-wording", message, f"write that title in {_own_file(clause.clause)}", asked)
        return title or clause.clause

    def _trouble(
        self, rule: str, message: str, fix: str, asked: Asked | None, at: tuple[str, Wording] | None = None
    ) -> None:
        bed = asked.shares[0].bed if asked and asked.shares else asked.bed if asked else None
        path, decision = (asked.path, asked.decision) if asked else ((), None)
        self.troubles.append(ClauseTrouble(rule, message, fix, path, bed, decision, at))
