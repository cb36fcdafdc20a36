"""Versions: each comes into force, and an own clause stands over one that is there."""

from __future__ import annotations

from collections.abc import Iterator
from datetime import date

from scopegen.chart import Material, Work
from scopegen.clauses import Clause, InForce
from scopegen.clauses.clause import NoLonger
from scopegen.clauses.in_force import Held, serves
from scopegen.findings import Level
from scopegen.load import Source
from scopegen.proofs.proof import Proof, Stock, files_of
from scopegen.rules.rule import Fault

_DOGS = (
    "clauses: {terms/our-dogs.yaml: '{clause: terms.our-dogs, title: {en: Our dogs, es: Nuestros perros},"
    " wording:"
    " [{season: 2027, en: {says: Our dogs stay in the truck.}, es: {says: Los perros quedan en la"
    " camioneta.}},"
    " {season: %s, en: {says: We have no dogs.}, es: {says: No tenemos perros.}}]}'}"
)
_COLOR = (
    "clauses: {terms/%s.yaml: '{clause: terms.%s, replaces: parts, wording: [{season: %s, en: {says: Mulch"
    " fades in"
    " the sun.}}]}'}"
)
_EDGE = (
    "{chart: {work: {recut-edge: {clause: edging.recut}}}, clauses: {edging/recut.yaml: '{clause:"
    " edging.recut,"
    " no_longer: {season: %s, because: customers took it for a new edge%s}}'}}"
)


def _never(stock: Stock) -> Iterator[Fault]:
    for clause, _, source in files_of(stock.library):
        yield from _shadowed(clause, source)
        for index, version in enumerate(clause.wording):
            place = source.place(("wording", index))
            if version.from_ and version.from_.year > version.season:
                message = f"no job of season {version.season} is dated as late as {version.from_}"
                yield Fault(message, f"write 'season: {version.from_.year}'", place)
            gone = clause.no_longer
            if gone and version.season >= gone.season:
                message = f"version {version.name} never comes into force: the clause is no longer used then"
                yield Fault(message, "take out 'no_longer', or the version", place)


def _shadowed(clause: Clause, source: Source) -> Iterator[Fault]:
    seen = set()
    for index, version in enumerate(clause.wording):
        if version.order in seen:
            message = f"version {version.name} is there twice, and the second never comes into force"
            fix = "give it a later season or a 'from:' of its own, or take it out"
            yield Fault(message, fix, source.place(("wording", index)))
        seen.add(version.order)


def _over_nothing(stock: Stock) -> Iterator[Fault]:
    for name, held in stock.library.held.items():
        own = held.own
        if own is None or held.shipped is not None or own.stands_whole:
            continue
        what = "replaces parts of" if own.replaces else "says what is no longer used of"
        key = "replaces" if own.replaces else "no_longer"
        yield Fault(
            f"the file {what} a clause '{name}' that does not ship",
            "correct the file's folder and name, or write the whole clause",
            stock.library.own[name].place((key,), key=True),
        )


def _newer(stock: Stock) -> Iterator[Fault]:
    """The shipped wording has a later version than the own one that stands over it."""
    for name, held in stock.library.held.items():
        if held.own is None or held.shipped is None or not held.own.wording:
            continue
        latest = max(version.season for version in held.own.wording)
        shipped = max(version.season for version in held.shipped.wording)
        if shipped > latest:
            message = (
                f"the clause that ships has a version {shipped}, yours is from {latest}, and yours is taken"
            )
            fix = f"read both with `scopegen clauses show {name}`, and take over what you want"
            yield Fault(message, fix, stock.library.own[name].place(("wording",), key=True))


def _named(stock: Stock) -> Iterator[Fault]:
    for source, section, key, entry, decision, season in _charted(stock):
        gone = stock.library.held.get(entry.clause, Held()).retired(season)
        if gone is None:
            continue
        instead = f"; '{gone.instead}' stands for it" if gone.instead else ", and none stands for it"
        since = f"no longer used from {gone.season} on{instead}"
        message = f"'{key}' names the clause '{entry.clause}', {since}"
        fits = gone.instead in stock.library.held and _serves(stock, gone.instead or "", decision)
        fix = f"name '{gone.instead}' here" if fits else f"name another clause of '{decision}' here"
        yield Fault(message, fix, source.place((section, key, "clause")))


def _charted(stock: Stock) -> Iterator[tuple[Source, str, str, Work | Material, str, int]]:
    """All work and material of the price charts: where it stands, what it is of, and the chart's season."""
    for source, chart in stock.charts:
        for key, work in chart.work.items():
            yield source, "work", key, work, work.decides, chart.season or 0
        for key, material in chart.materials.items():
            yield source, "materials", key, material, "material", chart.season or 0


def _instead_of_nothing(stock: Stock) -> Iterator[Fault]:
    for clause, _, source in files_of(stock.library):
        gone = clause.no_longer
        if gone and gone.instead and gone.instead not in stock.library.held:
            message = f"'{gone.instead}' is to stand for '{clause.clause}', and is not in the library"
            fix = "name a clause that is there, or write it"
            yield Fault(message, fix, source.place(("no_longer", "instead")))


def _standing(stock: Stock) -> Iterator[tuple[Clause, NoLonger, Source, str]]:
    """Each clause that another is to stand for, and which one does: at the end of a chain of such, the
    season being that in which the first is no longer used."""
    seasons: dict[int, InForce] = {}
    for clause, _, source in files_of(stock.library):
        gone = clause.no_longer
        if gone and gone.instead in stock.library.held:
            if gone.season not in seasons:
                seasons[gone.season] = InForce(retired=_retired(stock, gone.season))
            yield clause, gone, source, seasons[gone.season].standing_for(clause.clause)


def _retired(stock: Stock, season: int) -> dict[str, NoLonger]:
    held = stock.library.held.items()
    return {name: gone for name, each in held if (gone := each.retired(season))}


def _decided_by(stock: Stock, name: str) -> str:
    """What a clause decides; for one that decides nothing its folder, such as `terms`."""
    decides = (clause.decides for clause in stock.library.held[name].files)
    return next(filter(None, decides), name.partition(".")[0])


def _serves(stock: Stock, name: str, decision: str) -> bool:
    files = stock.library.held[name].files
    return _decided_by(stock, name) == decision or any(serves(clause, decision) for clause in files)


def _stands_badly(stock: Stock) -> Iterator[Fault]:
    for clause, gone, source, standing in _standing(stock):
        place = source.place(("no_longer", "instead"))
        if standing == clause.clause:
            message = f"'{standing}' is to stand for itself"
            if gone.instead != standing:
                message += f", since '{gone.instead}' is no longer used either and leads back to it"
            yield Fault(message, "name another clause, or take 'instead' out", place)
            continue
        asked, given = (_decided_by(stock, name) for name in (clause.clause, standing))
        if not _serves(stock, standing, asked):
            message = (
                f"'{standing}' is of '{given}', and is to stand for '{clause.clause}', which is of '{asked}'"
            )
            yield Fault(message, f"name a clause of '{asked}', or take 'instead' out", place)
    yield from _charted_badly(stock)


def _charted_badly(stock: Stock) -> Iterator[Fault]:
    """Work and material in a price chart whose clause is of another decision."""
    for source, section, key, entry, asked, _ in _charted(stock):
        if entry.clause in stock.library.held and not _serves(stock, entry.clause, asked):
            given = _decided_by(stock, entry.clause)
            message = f"'{key}' is of '{asked}', and names the clause '{entry.clause}', which is of '{given}'"
            yield Fault(message, f"name a clause of '{asked}'", source.place((section, key, "clause")))


def _lacks(stock: Stock) -> Iterator[Fault]:
    for clause, gone, source, standing in _standing(stock):
        if standing == clause.clause or not _serves(stock, standing, _decided_by(stock, clause.clause)):
            continue  # found already
        ruling = stock.library.held[standing].ruling(gone.season, date.max)
        place = source.place(("no_longer", "instead"))
        if ruling is None:
            message = (
                f"'{standing}' is to stand for '{clause.clause}', and is no longer used in {gone.season}"
            )
            yield Fault(message, "name a clause that is used then", place)
        elif not ruling.texts:
            message = (
                f"'{standing}' is to stand for '{clause.clause}', and has no wording yet in {gone.season}"
            )
            yield Fault(message, "give it a version of that season, or name another", place)
        elif missing := [way for way in _ways(stock, clause.clause) if way not in ruling.ways]:
            message = (
                f"'{standing}' is to stand for '{clause.clause}', and has no wording for {', '.join(missing)}"
            )
            yield Fault(message, "write that wording, or decide such work otherwise from then on", place)


def _ways(stock: Stock, name: str) -> tuple[str, ...]:
    """Each way that a clause lists, or that a part laid over it has."""
    ways: list[str] = []
    for clause in stock.library.held[name].files:
        ways += clause.ways
        if clause.replaces:
            ways += [way for each in clause.wording for said in each.texts.values() for way in said]
    return tuple(way for way in dict.fromkeys(ways) if way != "says")


PROOFS = (
    Proof(
        "version-never-used", Level.STOPS,
        "Every version of a clause comes into force some day.",
        "Two versions of the same season and day stand in each other's way, and only one is printed.",
        _DOGS % "2028", _DOGS % "2027", _never,
    ),
    Proof(
        "own-clause-over-nothing", Level.STOPS,
        "An own file that replaces parts of a clause, or stops its use, names one that ships.",
        "A slip in the name leaves the shipped wording in force, and the new one unread.",
        _COLOR % ("color", "color", "2027"), _COLOR % ("colour", "colour", "2027"), _over_nothing,
    ),
    Proof(
        "shipped-wording-newer", Level.NOTES,
        "Your own wording is not older than the one that ships.",
        "Your own goes before the shipped wording for as long as it is there. What was mended since in the"
        " one"
        " that ships, such as a duty by law, does not reach your papers.",
        _COLOR % ("color", "color", "2027"), _COLOR % ("color", "color", "2026"), _newer,
    ),
    Proof(
        "no-longer-used-but-named", Level.WARNS,
        "No price chart names a clause that is no longer used in its season.",
        "Where another stands for it the papers are right, and the chart misleads who reads it. Where none"
        " does,"
        " the work has no sentence.",
        _EDGE % ("2028", ", instead: edging.new-edge"),
        _EDGE % ("2027", ", instead: edging.new-edge"),
        _named,
    ),
    Proof(
        "instead-of-nothing", Level.STOPS,
        "The clause that stands for one no longer used is in the library.",
        "Otherwise the work that named the old one has no sentence from that season on.",
        _EDGE % ("2028", ", instead: edging.new-edge"), _EDGE % ("2028", ", instead: edging.newest-edge"),
        _instead_of_nothing,
    ),
    Proof(
        "stands-for-another", Level.STOPS,
        "The clause that stands for another, or for work in a price chart, is of the same decision.",
        "Otherwise work on an edge would be sold as hauling, in words that read well. A job that takes such a"
        " clause is stopped, as `clause-decides`.",
        _EDGE % ("2028", ", instead: edging.new-edge"), _EDGE % ("2028", ", instead: debris.haul-away"),
        _stands_badly,
    ),
    Proof(
        "stands-without-wording", Level.WARNS,
        "The clause that stands for another has wording for each way to decide that the other had.",
        "A job that was decided in such a way before finds no wording from that season on.",
        _EDGE % ("2028", ", instead: edging.new-edge"), _EDGE % ("2028", ", instead: edging.general"),
        _lacks,
    ),
)  # fmt: skip
