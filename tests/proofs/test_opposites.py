"""Opposites: a sentence that one text has and another denies, and work that is given to both parties; and
what is left alone, since a false alarm costs more than a contradiction that is read by eye. The sentences
are common practice, no source."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.proofs import PROOFS, Stock
from scopegen.proofs.statements import statements, stem
from tests.proofs.workspaces import shipped, stock_of

HEAD = "clause: {0}\ntitle: {{en: A, es: B}}\n{1}wording:\n"
OPPOSITE, BOTH = "opposite-wording", "work-of-two"


def term(name: str, says: str, language: str = "en", more: str = "", when: str = "season: 2027") -> str:
    """A term with one sentence in a language, and nothing to speak of in the other."""
    other = {"en": "es", "es": "en"}[language]
    text = f'  - {when}\n    {language}: {{says: "{says}"}}\n    {other}: {{says: "X."}}\n'
    return HEAD.format(f"terms.{name}", more) + text


def site(decides: str, way: str, says: str) -> str:
    """A clause of a decision at the site, with one way to decide it."""
    head = HEAD.format(f"site.{decides}", f"decides: {decides}\nways: [{way}]\n")
    return f'{head}  - season: 2027\n    en: {{{way}: "{says}"}}\n    es: {{{way}: "X."}}\n'


def found(folder: Path, **files: str) -> list[tuple[str, str]]:
    """What both proofs say of these files, each named by its folder and clause as `terms__one`."""
    for name, text in files.items():
        path = folder / "clauses" / f"{name.replace('__', '/').replace('_', '-')}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    return told(stock_of(folder))


def told(stock: Stock) -> list[tuple[str, str]]:
    proofs = [proof for proof in PROOFS if proof.id in (OPPOSITE, BOTH)]
    assert len(proofs) == 2
    return [(each.rule, each.message) for proof in proofs for each in proof.find(stock)]


@pytest.mark.parametrize(
    ("language", "one", "other"),
    [
        ("en", "We replace plants.", "We do not replace plants."),
        ("en", "We replace the plants.", "We don't replace any plant."),
        ("en", "We’ll wash your drive.", "We never wash drives."),
        ("en", "We replace plants.", "We replace no plants."),
        ("en", "Stones are moved by hand.", "Stones are not moved by hand."),
        ("en", "In spring, we prune roses.", "We do not prune the roses in spring."),
        ("en", "The crew carries the water.", "The crew does not carry water."),
        ("en", "The work is done. We replace plants.", "Read this. We won’t replace plants. Thanks."),
        ("en", "We wash the drive, and we prune roses.", "We do not prune the roses."),
        ("es", "Reemplazamos las plantas.", "No reemplazamos plantas."),
        ("es", "Lavamos la entrada.", "No lavamos ninguna entrada."),
        ("es", "Nosotros podamos los rosales.", "Nunca podamos los rosales."),
        ("es", "En primavera podamos los rosales.", "No podamos rosales en primavera."),
    ],
)  # fmt: skip
def test_a_statement_and_its_denial(tmp_path: Path, language: str, one: str, other: str) -> None:
    """Whichever of the two comes first."""
    (rule, message), *more = found(
        tmp_path, terms__a=term("a", one, language), terms__b=term("b", other, language)
    )
    assert (rule, more) == (OPPOSITE, [])
    assert message.startswith("'terms.a' says ") and "and 'terms.b' " in message
    (rule, message), *more = found(
        tmp_path, terms__a=term("a", other, language), terms__b=term("b", one, language)
    )
    assert (rule, more) == (OPPOSITE, [])
    assert message.startswith("'terms.b' says ")


@pytest.mark.parametrize(
    ("language", "ours", "yours"),
    [
        ("en", "We wash the walks.", "You wash the walks."),
        ("en", "After our work, we wash the walks.", "You wash walks after our work."),
        ("en", "We'll wash walks.", "You wash any walk."),
        ("es", "Lavamos las aceras.", "Usted lava las aceras."),
        ("es", "Nosotros barremos la calle.", "Usted barre la calle."),
    ],
)
def test_one_work_of_two_parties(tmp_path: Path, language: str, ours: str, yours: str) -> None:
    files = {"terms__a": term("a", ours, language), "terms__b": term("b", yours, language)}
    ((rule, message),) = found(tmp_path, **files)
    assert rule == BOTH
    assert message == f"one work is promised by both: 'terms.a' says \"{ours}\" and 'terms.b' \"{yours}\""


@pytest.mark.parametrize(
    ("one", "other"),
    [
        ("We replace plants.", "We replace plants."),
        ("We do not replace plants.", "We never replace plants."),
        ("We replace plants.", "You do not replace plants."),
        ("We replace plants.", "We do not replace shrubs."),
        ("We do it.", "We do not do it."),
        ("We move them by hand.", "We do not move them by hand."),
        ("We rake.", "We do not rake."),
        ("We move plants that you marked.", "We move plants that you did not mark."),
        ("If you sign, we wash the drive.", "If you do not sign, we wash the drive."),
        ("You choose to pay later.", "You choose not to pay later."),
        ("Some plants live long.", "Some plants do not live long."),
        ("We wash the drive.", "We not only wash the drive."),
        ("We wash the drive no later than noon.", "We wash the drive."),
        ("We lay fabric under stone.", "We do not lay stone under fabric."),
        ("We do not leave no mess.", "We leave mess."),
        ("We may wash the drive.", "We may not wash the drive."),
        ("We sign the paper.", "You sign the paper."),
        ("We keep a copy.", "You keep a copy."),
        ("We tell you the day.", "You tell us the day."),
        ("We wash the walks.", "You do not wash the walks."),
        ("We wash it.", "You wash it."),
    ],
)
def test_what_is_left_alone(tmp_path: Path, one: str, other: str) -> None:
    assert found(tmp_path, terms__a=term("a", one), terms__b=term("b", other)) == []


def test_a_party_in_another_clause(tmp_path: Path) -> None:
    """The customer's way of one decision beside a term, and beside another decision's text."""
    yours = site("clean-up", "customer", "You wash the walks no later than {{ by }}.")
    ((rule, _),) = found(tmp_path, site__clean_up=yours, terms__a=term("a", "We wash the walks."))
    assert rule == BOTH
    (tmp_path / "clauses" / "terms" / "a.yaml").unlink()
    ours = site("leftover", "included", "We wash the walks.")
    ((rule, _),) = found(tmp_path, site__leftover=ours)
    assert rule == BOTH


def test_ways_of_one_decision_are_never_together(tmp_path: Path) -> None:
    """'We' where it is included and 'you' where it is the customer's, in one clause or in two for one
    decision."""
    more = "decides: edging\nways: [included, customer, excluded]\n"
    text = (
        '  - season: 2027\n    en: {included: "We wash the walks.", customer: "You wash the walks.",'
        ' excluded: "We do not wash the walks."}\n'
        '    es: {included: "X.", customer: "X.", excluded: "X."}\n'
    )
    files = {f"edging__{name}": HEAD.format(f"edging.{name}", more) + text for name in ("a", "b")}
    assert found(tmp_path, **files) == []


def test_beds_may_be_others(tmp_path: Path) -> None:
    """Two decisions' texts on their own beds say nothing against each other; a term is of every bed."""
    edge = HEAD.format("edging.a", "decides: edging\nways: [included]\nneeds: [beds]\n")
    edge += (
        '  - season: 2027\n    en: {included: "We wash the stones in {{ beds }}."}\n    es: {included: X.}\n'
    )
    bare = edge.replace("edging", "substrate").replace("We wash", "We do not wash")
    assert found(tmp_path, edging__a=edge, substrate__a=bare) == []
    (tmp_path / "clauses" / "substrate" / "a.yaml").unlink()
    ((rule, message),) = found(tmp_path, terms__a=term("a", "We do not wash stones."))
    assert rule == OPPOSITE
    assert message == (
        "'edging.a' says \"We wash the stones in {{ beds }}.\" and 'terms.a' \"We do not wash stones.\""
    )


@pytest.mark.parametrize(
    ("first", "second", "together"),
    [
        ("season: 2027", "season: 2030", True),
        ("season: 2027, from: 2027-06-01", "season: 2027", True),
        ("season: 2030", "season: 2031", True),
    ],
)
def test_texts_of_one_time(tmp_path: Path, first: str, second: str, together: bool) -> None:
    one, other = (
        term(name, says, when=when.replace(", ", "\n    "))
        for name, says, when in (("a", "We wash drives.", first), ("b", "We do not wash drives.", second))
    )
    assert bool(found(tmp_path, terms__a=one, terms__b=other)) is together


@pytest.mark.parametrize(("season", "together"), [(2028, False), (2029, True), (2030, True)])
def test_a_text_that_was_replaced_is_no_longer_there(tmp_path: Path, season: int, together: bool) -> None:
    """What was said until 2028 is against nothing that is said from 2028 on."""
    gone = term("a", "We wash drives.", more=f"no_longer: {{season: {season}, because: ours}}\n")
    later = term("b", "We do not wash drives.", when="season: 2028")
    assert bool(found(tmp_path, terms__a=gone, terms__b=later)) is together
    old = term("a", "We wash drives.").rstrip("\n") + (
        f'\n  - season: {season}\n    en: {{says: "We wash roads."}}\n    es: {{says: "X."}}\n'
    )
    assert bool(found(tmp_path, terms__a=old, terms__b=later)) is together


@pytest.mark.parametrize(
    ("one", "other", "together"),
    [
        ("basis: [fixed]", "basis: [by measure]", False),
        ("state: [PA, NY]", "state: [NY, MD]", True),
        ("state: [PA]", "state: [MD]", False),
        ("has: [tax]", "has: [deposit]", True),
        ("kinds: [mulch]", "kinds: [stone]", True),
        ("total: {over: 5000}", "total: {under: 5000}", False),
        ("total: {over: 5000}", "total: {at_most: 5000.01}", True),
        ("total: {over: 5000}", "beds: {over: 3}", True),
    ],
)
def test_conditions_that_shut_each_other_out(tmp_path: Path, one: str, other: str, together: bool) -> None:
    """A job has one state and one total, and may have both tax and a deposit."""
    files = {
        "terms__a": term("a", "We wash drives.", more=f"when: {{{one}}}\n"),
        "terms__b": term("b", "We do not wash drives.", more=f"when: {{{other}}}\n"),
    }
    assert bool(found(tmp_path, **files)) is together


@pytest.mark.parametrize("named", ["a", "b"])
def test_a_clause_may_shut_the_other_out(tmp_path: Path, named: str) -> None:
    more = {"a": "", "b": ""} | {named: f"forbids: [terms.{'b' if named == 'a' else 'a'}]\n"}
    one, other = (
        term("a", "We wash drives.", more=more["a"]),
        term("b", "We do not wash drives.", more=more["b"]),
    )
    assert found(tmp_path, terms__a=one, terms__b=other) == []


def test_own_words_over_what_ships_are_held_against_the_rest(tmp_path: Path) -> None:
    """Not the shipped ones below them; and the finding is at the contractor's own words."""
    own = "clause: terms.photographs\nreplaces: parts\nwording:\n  - season: 2027\n    en: {{says: {}}}\n"
    assert found(tmp_path, terms__photographs=own.format("We take no photos.")) == []
    said = own.format("We do not carry the green debris to your compost.")
    (finding,) = {message for _, message in found(tmp_path, terms__photographs=said)}
    assert "'debris.composted' says" in finding
    (proof,) = [proof for proof in PROOFS if proof.id == OPPOSITE]
    places = {Path(each.place.file).name for each in proof.find(stock_of(tmp_path))}
    assert places == {"photographs.yaml"}


def test_what_ships_states_much_and_nothing_twice() -> None:
    """Both languages are read, and no text is against another."""
    stock = shipped()
    counted = dict.fromkeys(("en", "es"), 0)
    for held in stock.library.held.values():
        for version in (version for clause in held.files for version in clause.wording):
            for language, texts in version.texts.items():
                counted[language] += sum(len(statements(text, language)) for text in texts.values())
    assert min(counted.values()) > 200
    assert told(stock) == []


@pytest.mark.parametrize(
    ("language", "words"),
    [
        ("en", "replace replaces replaced replacing"), ("en", "carry carries carried"), ("en", "wash washes"),
        ("en", "plant plants planted"), ("en", "edge edges edging"), ("en", "cut cutting"),
        ("es", "barre barremos barrer"), ("es", "planta plantas"), ("es", "reemplaza reemplazamos"),
        ("es", "camino caminos"),
    ],
)  # fmt: skip
def test_forms_of_a_word_are_one(language: str, words: str) -> None:
    assert len({stem(word, language) for word in words.split()}) == 1


def test_other_words_stay_apart() -> None:
    """Short words are not cut down to nothing."""
    words = "bed bee weed dry day dog hose house leave lawn load walk wall water".split()
    assert len({stem(word, "en") for word in words}) == len(words)


def test_a_language_without_lists_states_nothing() -> None:
    assert statements("Wir kehren den Weg.", "de") == ()
