"""One clause for a terminal and for another program: every way to decide it, as a job's paper has it where a
job is named."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from datetime import date
from typing import Any

from scopegen.case import Case
from scopegen.clauses import Library, Ruling, Said, Wording
from scopegen.clauses.blanks import Blanks
from scopegen.clauses.conditions import catalogue, samples
from scopegen.clauses.fill import Unfillable, fill, plain_blanks
from scopegen.report.clauses import WHOSE, entry_of
from scopegen.report.wrapped import wrapped

SAMPLES = "samples"


@dataclass(frozen=True, slots=True)
class Meant:
    """Which wording is asked for. `dated` is the day within the season; with `case`, `job` is its file as
    shown."""

    season: int
    dated: date
    language: str
    case: Case | None = None
    job: str = ""

    @property
    def is_of_the_job(self) -> bool:
        """The wording that the job's own paper has."""
        job = self.case.job if self.case else None
        return job is not None and (job.season, job.language) == (self.season, self.language)


def meant(case: Case | None, job: str, season: int | None, language: str | None, newest: int) -> Meant:
    """What a command means by what it says, and by its job where it says nothing; `newest` is the season
    that is meant without either."""
    if case is None:
        return Meant(season or newest, date.max, language or "en")
    own = case.job
    year, dated = season or own.season or newest, own.dated or date.max
    return Meant(year, dated if year == own.season else date.max, language or own.language, case, job)


@dataclass(frozen=True, slots=True)
class _Text:
    """One text: the paragraphs that the job's paper has of it, each with what it is said of; without any,
    the text filled, and from what."""

    way: str
    wording: Wording
    on_paper: tuple[tuple[str, str], ...] = ()
    filled: str = ""
    filled_from: tuple[str, ...] = field(default=(SAMPLES,))

    def as_json(self) -> dict[str, Any]:
        """Plain data; `filled` is the first paragraph of the paper where that has the text."""
        return {
            "way": self.way,
            "version": self.wording.version,
            "whose": self.wording.whose,
            "text": self.wording.text,
            "filled": self.on_paper[0][1] if self.on_paper else self.filled,
            "filled_from": [] if self.on_paper else list(self.filled_from),
            "on_paper": [{"of": of, "text": text} for of, text in self.on_paper],
        }


def show_json(library: Library, name: str, meant: Meant) -> dict[str, Any]:
    """One clause with each of its texts, as written, as filled, and as the job's paper has it."""
    ruling = library.in_force(meant.season, meant.dated).clauses.get(name)
    if ruling is None:
        return {"clause": name, "in_force": False, "season": meant.season}
    return {
        **entry_of(library, ruling, meant.language),
        "in_force": True,
        "season": meant.season,
        "language": meant.language,
        "needs": list(ruling.needs),
        "calls_for": list(ruling.calls_for),
        "forbids": list(ruling.forbids),
        "texts": [each.as_json() for each in _texts(ruling, meant)],
    }


def show_text(library: Library, name: str, meant: Meant) -> str:
    """The same as lines to read."""
    said = show_json(library, name, meant)
    if not said["in_force"]:
        gone = library.held[name].retired(meant.season)
        why = f", because {gone.because}" if gone else ""
        instead = f" Instead: {gone.instead}." if gone and gone.instead else ""
        return f"{name} is not in force for season {meant.season}{why}.{instead}"
    lines = [f"{name}: {said['title'] or 'no title in this language'}", f"  taken {said['taken']}"]
    for key, label in (("calls_for", "calls for"), ("forbids", "forbids"), ("files", "in")):
        lines += [f"  {label}: {', '.join(said[key])}"] if said[key] else []
    if meant.case:
        lines.append(f"  {_heading(meant)}")
    for text in said["texts"]:
        version = f"  {text['way']} (version {text['version']}, {WHOSE[text['whose']]})"
        for each in text["on_paper"]:
            of = f" for {each['of']}" if each["of"] else ""
            lines += ["", f"{version}, on its paper{of}", *wrapped(each["text"])]
        if not text["on_paper"]:
            lines += ["", f"{version}{_not_on_paper(text, meant)}", *wrapped(text["filled"])]
    if not said["texts"]:
        lines += ["", f"  There is no wording in '{meant.language}' yet."]
    return "\n".join(lines)


def _not_on_paper(text: dict[str, Any], meant: Meant) -> str:
    """What is said of a text that is not the paper's: from what its blanks are filled."""
    if meant.case is None:
        return ""
    whence = f"filled with {' and '.join(text['filled_from'])}" if text["filled_from"] else ""
    return "".join(f", {each}" for each in (meant.is_of_the_job and "not on its paper", whence) if each)


def _heading(meant: Meant) -> str:
    """For which season and in which language, and what of the job that leaves."""
    said = f"season {meant.season}, in '{meant.language}'"
    if meant.is_of_the_job:
        return f"for {meant.job}: {said}"
    assert meant.case is not None
    job = meant.case.job
    return f"{said}; the paper of {meant.job} is of season {job.season}, in '{job.language}'"


def _texts(ruling: Ruling, meant: Meant) -> Iterator[_Text]:
    """Each text of a clause in its language."""
    paper = _on_paper(ruling, meant) if meant.is_of_the_job else {}
    sources = _values(ruling.clause, meant)
    for way, wording in ruling.texts.get(meant.language, {}).items():
        if way in paper:
            yield _Text(way, wording, tuple(paper[way]))
            continue
        of, values = next(((of, said) for how, of, said in sources if how == way), ("", {}))
        if not values and sources:
            _, of, values = sources[0]
        filled, whence = _filled(wording.text, meant.language, values, of)
        yield _Text(way, wording, (), filled, whence)


def _on_paper(ruling: Ruling, meant: Meant) -> dict[str, list[tuple[str, str]]]:
    """What the paper says of the clause, by way: each paragraph with what it is said of."""
    case = meant.case
    found: dict[str, list[tuple[str, str]]] = {}
    if case is None or case.chosen is None:
        return found
    chosen = case.chosen
    for said in chosen.said:
        if said.clause == ruling.clause:
            found.setdefault(said.how, []).append((_of(case, said), said.whole_text))
    for term in (*chosen.terms, *chosen.cautions):
        if term.clause == ruling.clause:
            found.setdefault("says", []).append(("", term.text))
    opens = {
        "outcomes.add-on": chosen.of("add-on"),
        "outcomes.declined": any(s.declined for s in chosen.said),
    }
    if ruling.clause in chosen.sentences:
        if opens.get(ruling.clause):
            found["says"] = [("", chosen.sentences[ruling.clause])]
    elif ruling.clause.startswith("outcomes.") and (wording := ruling.wording(meant.language, "says")):
        for said in chosen.said:
            if (text := _followed(wording, said)) is not None:
                found.setdefault("says", []).append((_of(case, said) or said.decision, text))
    return found


def _followed(wording: Wording, said: Said) -> str | None:
    """A sentence that follows a decision, where it is this text; None where it is not."""
    try:
        text = fill(wording.text, {**dict.fromkeys(catalogue()["blanks"], ""), **said.values})
    except Unfillable:
        return None
    return text if text in said.follows else None


def _of(case: Case, said: Said) -> str:
    """What a paragraph is said of: its beds, else its kind of work."""
    beds = [case.bed_name(index) or "" for index in said.beds]
    return ", ".join(beds) or said.work


def _values(name: str, meant: Meant) -> list[tuple[str, str, Mapping[str, str]]]:
    """What may fill the blanks, for each part that takes the clause: its way, what it is, and its values;
    without such a part the values of the whole paper. Values in another language fill nothing."""
    case = meant.case
    if case is None or case.job.language != meant.language:
        return []
    if not (case.chart and case.measured and case.priced and case.words):
        return []
    sources = [
        (said.how, " ".join(filter(None, (f"the values of {_of(case, said) or 'the job'}", f"({said.how})"))),
         said.values)
        for said in (case.chosen.said if case.chosen else ())
        if said.clause == name
    ]  # fmt: skip
    words = case.words.in_currency(case.chart.currency or "USD")
    blanks = Blanks(case.job, case.chart, case.company, case.measured, case.priced, words)
    paper = {key: value for key, value in blanks.paper().items() if value}
    return sources or [("", "the values of the whole job", paper)]


def _filled(text: str, language: str, values: Mapping[str, str], of: str) -> tuple[str, tuple[str, ...]]:
    """A text filled from values, and from samples in brackets where those have none; and from which."""
    try:
        names = plain_blanks(text)
        filled = fill(text, {**samples(language, "[{}]"), **values})
    except Unfillable:
        return text, ()
    own, sampled = names & values.keys(), names - values.keys()
    return filled, tuple(filter(None, (of if own else "", SAMPLES if sampled else "")))
