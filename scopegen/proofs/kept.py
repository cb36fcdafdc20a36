"""What must stay as it is: wording that was put on paper, and wording that the law prescribes."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date
from functools import cache
from importlib.resources import files
from typing import Any

from scopegen.clauses import Ruling, Wording
from scopegen.clauses.in_force import OWN, Held
from scopegen.comparing import Run, differences
from scopegen.findings import Level, Place
from scopegen.load import parse
from scopegen.printed import Printed, digest, first_of_each
from scopegen.proofs.proof import Proof, Stock
from scopegen.rules.rule import Fault

_SHOWN = 200  # characters of a difference in a finding
_PILES = (
    "{printed: {terms.our-piles: %s}, clauses: {terms/our-piles.yaml: '{clause: terms.our-piles, title:"
    " {en: Piles,"
    " es: Montones}, wording: [{season: 2027, en: {says: %s}, es: {says: Los montones quedan.}}]}'}}"
)
_NO_PILES = (
    "{printed: {terms.our-piles: Piles stay.}, clauses: {terms/our-piles.yaml: '{clause: terms.our-piles,"
    " no_longer: {season: %s, because: nobody asks}, title: {en: Piles, es: Montones}, wording: [{season:"
    " 2026, en: {says: Piles stay.}, es: {says: Los montones quedan.}}]}'}}"
)


def _kept_texts(stock: Stock) -> Iterator[tuple[int, Printed, Held | None, Ruling | None]]:
    """Each text as it first went on paper, with its line of the lock, and its clause as a job of that season
    and day takes it now. What is not sound is found when it is read."""
    first = first_of_each(stock.printed)
    rulings: dict[tuple[str, int, date], Ruling | None] = {}
    for line, text in enumerate(stock.printed, start=1):
        if first[text.key] is not text or text.clause in stock.library.broken:
            continue
        held = stock.library.held.get(text.clause)
        when = (text.clause, text.season, text.day)
        if held and when not in rulings:
            rulings[when] = held.ruling(text.season, text.day)
        yield line, text, held, rulings.get(when)


def _altered(stock: Stock) -> Iterator[Fault]:
    later = {(text.key, text.sha256): text for text in reversed(stock.printed)}
    for _, first, _, ruling in _kept_texts(stock):
        now = ruling.wording(first.language, first.way) if ruling else None
        if now is None or digest(now.text) == first.sha256:
            continue
        source = (stock.library.own if now.whose == OWN else stock.library.shipped)[first.clause]
        told, fix = _told(first, now)
        again = later.get((first.key, digest(now.text)))
        meanwhile = f"; the new words are on paper too, for {again.job} on {again.since}" if again else ""
        message = f"{told}: {shown(differences(first.text, now.text))}{meanwhile}"
        yield Fault(message, f"{fix}; {_UNSIGNED}", source.place(now.path))


def _told(first: Printed, now: Wording) -> tuple[str, str]:
    """What became of a text that was put on paper, and what to do."""
    paper = f"put on paper for {first.job} on {first.since}"
    if (now.whose, now.version) == (first.whose, first.version):
        told = f"the text for '{first.way}' of version {first.version} was altered since it was {paper}"
        if now.whose == OWN:
            return (
                told,
                "put the old words back, and write the new ones as a version of a later season or day",
            )
        return told, _AS_YOURS.format(first.season)
    whose = "yours" if now.whose == OWN else "those that ship"
    told = (
        f"for '{first.way}' a job of season {first.season} now takes other words than version"
        f" {first.version} had when it was {paper}; they are {whose}, of version {now.version}"
    )
    if now.whose == OWN:
        later = (
            f"make yours a version of season {first.season + 1}, or 'from:' a day after the last such paper"
        )
        return told, later
    return told, _AS_YOURS.format(first.season)


_UNSIGNED = "where no such paper was signed, take its line out of clauses.lock"
_AS_YOURS = (
    "write the old words in a file of your own under clauses/, with 'replaces: parts' and 'season: {}'"
)


def _dropped(stock: Stock) -> Iterator[Fault]:
    retired: set[str] = set()
    for line, first, held, ruling in _kept_texts(stock):
        if ruling and ruling.wording(first.language, first.way):
            continue
        clause = f"the clause '{first.clause}'"
        paper = f"{first.season} was put on paper for {first.job} on {first.since}"
        gone = held.retired(first.season) if held else None
        if held is None or gone is None:
            what = f"the text for '{first.way}' in '{first.language}' of {clause}" if held else clause
            message = f"{what} is gone, and its version of season {paper}"
            yield Fault(message, f"{_AS_BEFORE}; {_UNSIGNED}", Place(stock.lock, line, 1))
        elif first.clause not in retired:
            retired.add(first.clause)
            own = held.own is not None and held.own.no_longer == gone
            source = (stock.library.own if own else stock.library.shipped)[first.clause]
            message = f"{clause} is no longer used from {gone.season} on, and its wording of season {paper}"
            fix = f"write 'season: {_last_season(stock, first.clause) + 1}' here; {_UNSIGNED}"
            yield Fault(message, fix, source.place(("no_longer", "season")))


def _last_season(stock: Stock, clause: str) -> int:
    return max(text.season for text in stock.printed if text.clause == clause)


_AS_BEFORE = "put it back as it was; `no_longer:` stops its use from a later season on"


def shown(runs: tuple[Run, ...]) -> str:
    """A difference on one line: what went out and what came in, with a few words around."""
    pieces = []
    for run in runs:
        words = run.text.split()
        if run.change == "same":
            pieces.append(run.text if len(words) <= 6 else f"{' '.join(words[:3])} … {' '.join(words[-3:])}")
        else:
            pieces.append(f"[{run.change}: {run.text}]")
    line = " ".join(pieces)
    return line if len(line) <= _SHOWN else f"{line[:_SHOWN]} …"


@cache
def prescribed() -> dict[str, dict[str, str]]:
    """The digests of wording that the law prescribes: file of `law/` -> place in it -> SHA-256."""
    data = parse((files("scopegen.proofs") / "prescribed.yaml").read_text(encoding="utf-8"), "").data
    assert isinstance(data, dict)
    return data


def texts_at(data: Any, place: str) -> str | None:
    """The text at a place such as `form.en.text`, a list's lines joined; None where there is none."""
    for key in place.split("."):
        if not isinstance(data, dict) or key not in data:
            return None
        data = data[key]
    return " ".join(data) if isinstance(data, list) else data if isinstance(data, str) else None


def _law_altered(stock: Stock) -> Iterator[Fault]:
    for name, places in prescribed().items():
        source = stock.laws.get(name)
        if source is None:
            fix = "install scopegen again"
            yield Fault(f"the legal page {name} is missing", fix, Place(f"clause_library/law/{name}", 1, 1))
            continue
        for place, known in places.items():
            text = texts_at(source.data, place)
            if text is None or digest(text) != known:
                message = f"'{place}' is not worded as the law prescribes it"
                yield Fault(message, "take the file back as it ships", source.place(tuple(place.split("."))))


PROOFS = (
    Proof(
        "altered-since-printed", Level.STOPS,
        "Wording that was put on paper stays as it was signed.",
        "What a customer signed two seasons ago must still be read as it was signed. A change is a version of"
        " its own, so that both can be read. What counts is what a job of that season and day takes now,"
        " whoever wrote it, beside what was put on paper first.",
        _PILES % ("Piles stay.", "Piles stay."), _PILES % ("Piles stay.", "Piles go."),
        _altered,
    ),
    Proof(
        "dropped-since-printed", Level.STOPS,
        "A clause is used to the end of a season in which it was put on paper.",
        "Taken out of use any sooner, a paper of that season would come out with other words, or with none.",
        _NO_PILES % "2028", _NO_PILES % "2027",
        _dropped,
    ),
    Proof(
        "prescribed-wording-altered", Level.STOPS,
        "A notice that the law prescribes is worded as it prescribes it.",
        "A notice with a word changed may count as none, and then the time to cancel does not end.",
        "", "",
        _law_altered,
        "16 CFR 429.1(a) and (b); Maryland Commercial Law 14-302.1; New York General Business Law 771(1)(d)",
    ),
)  # fmt: skip
