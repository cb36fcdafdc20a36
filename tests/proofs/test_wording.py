"""What the proofs find in wording, at the edges of what they ask."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.proofs import proofread
from tests.proofs.workspaces import stock_of

HEAD = "clause: terms.ours\ntitle: {en: Ours, es: Lo nuestro}\nwording:\n  - season: 2027\n"


def found_in(folder: Path, english: str, spanish: str = "Nada.") -> dict[str, str]:
    """The findings about a term with these words: rule -> message."""
    (folder / "clauses" / "terms").mkdir(parents=True, exist_ok=True)
    text = f'{HEAD}    en: {{says: "{english}"}}\n    es: {{says: "{spanish}"}}\n'
    (folder / "clauses" / "terms" / "ours.yaml").write_text(text, encoding="utf-8")
    return {finding.rule: finding.message for finding in proofread(stock_of(folder))}


def words(count: int) -> str:
    return " ".join(["mulch"] * count)


@pytest.mark.parametrize(("count", "fine"), [(50, True), (51, False)])
def test_a_sentence_may_have_fifty_words(tmp_path: Path, count: int, fine: bool) -> None:
    """Connecticut General Statutes 42-152(c)(2): no sentence in the contract exceeds fifty words."""
    found = found_in(tmp_path, f"{words(count)}.")
    assert ("wording-too-long" not in found) is fine
    if not fine:
        said = "the text for 'says': a sentence has 51 words, and 50 are the most"
        assert found["wording-too-long"] == said


@pytest.mark.parametrize(("count", "fine"), [(150, True), (151, False)])
def test_a_paragraph_may_have_a_hundred_and_fifty_words(tmp_path: Path, count: int, fine: bool) -> None:
    """42-152(c)(4): no paragraph in the contract exceeds one hundred fifty words."""
    text = " ".join(f"{words(10)}." for _ in range(14)) + f" {words(count - 140)}."
    found = found_in(tmp_path, text)
    assert ("wording-too-long" not in found) is fine
    if not fine:
        assert "the paragraph has 151 words, and 150 are the most" in found["wording-too-long"]


@pytest.mark.parametrize(
    ("said", "word"),
    [
        ("We shall come back.", "shall"),
        ("We come PRIOR TO the frost.", "prior to"),
        ("Tools, bags, etc. stay with us.", "etc."),
        ("We rake and/or sweep.", "and/or"),
    ],
)
def test_words_of_lawyers_are_found_with_the_plain_word(tmp_path: Path, said: str, word: str) -> None:
    """'must', not 'shall': Federal Plain Language Guidelines, rev. 1 May 2011."""
    assert found_in(tmp_path, said)["legalese"] == (
        f"the text for 'says' says '{word}', which few readers take in at once"
    )


@pytest.mark.parametrize(
    "said", ["We rake the marshal's path.", "The shallow roots stay.", "The departing crew rakes."]
)
def test_words_that_only_hold_such_a_word_are_left_alone(tmp_path: Path, said: str) -> None:
    assert "legalese" not in found_in(tmp_path, said)


def test_spanish_has_its_own_words(tmp_path: Path) -> None:
    found = found_in(tmp_path, "Nothing.", "El infrascrito barre.")
    assert found["legalese"] == "the text for 'says' says 'el infrascrito', which few readers take in at once"


EXCLUDED = (
    "clause: edging.ours\ndecides: edging\ntitle: {{en: Ours, es: Nuestro}}\nways: [excluded]\nneeds: []\n"
    'wording:\n  - season: 2027\n    en: {{excluded: "{}"}}\n    es: {{excluded: "{}"}}\n'
)


@pytest.mark.parametrize(
    ("english", "spanish", "promise"),
    [
        ("We will tidy the edge.", "El borde queda.", "We will"),
        ("The edge stays. Afterwards we'll rake.", "El borde queda.", "we'll rake"),
        ("The edge stays.", "Después barremos.", "barremos"),
        ("We make no promise about the edge.", "No prometemos nada sobre el borde.", ""),
        ("We do not cut it, and we cannot say how it looks.", "No lo cortamos.", ""),
    ],
)
def test_promises_in_what_is_left_out(tmp_path: Path, english: str, spanish: str, promise: str) -> None:
    """'We will' under 'not in this price' is what is read out loud later."""
    (tmp_path / "clauses" / "edging").mkdir(parents=True)
    (tmp_path / "clauses" / "edging" / "ours.yaml").write_text(
        EXCLUDED.format(english, spanish), encoding="utf-8"
    )
    found = {finding.rule: finding for finding in proofread(stock_of(tmp_path))}
    if not promise:
        assert "promise-in-excluded" not in found
        return
    finding = found["promise-in-excluded"]
    assert finding.message == f"the text for 'excluded' promises what it leaves out: '{promise}'"
    assert finding.place.line == (9 if promise == "barremos" else 8)


def test_a_finding_points_at_its_text(tmp_path: Path) -> None:
    """File, line and column of the words."""
    found_in(tmp_path, "We shall come back.")
    (finding,) = [f for f in proofread(stock_of(tmp_path)) if f.rule == "legalese"]
    assert (Path(finding.place.file).name, finding.place.line, finding.place.column) == ("ours.yaml", 5, 16)


def test_every_word_list_is_sound() -> None:
    """Each language has each list, and no plain word is itself on the list."""
    from scopegen.plain_words import plain_words
    from scopegen.words import languages

    lists = plain_words()
    assert set(lists) == set(languages())
    for said in lists.values():
        assert {*said} == {"legalese", "promises", "harmless", "opposites", "statements"}
        assert len(said["legalese"]) > 20
        assert not {*said["legalese"]} & {plain.lower() for plain in said["legalese"].values()}


@pytest.mark.parametrize(
    ("named", "message", "fix"),
    [
        ("edging, buried-linez", "'calls_for' names the decision 'buried-linez', which no job has",
         "did you mean 'buried-lines'?"),
        ("terms.colour", "'calls_for' names the clause 'terms.colour', which is not in the library",
         "did you mean 'terms.color'?"),
        ("nonsense", "'calls_for' names the decision 'nonsense', which no job has",
         "name one of: material, bed_prep, edging, debris, substrate, buried-lines, access,"
         " irrigation-and-lighting, drains-and-slope, plants, movables-and-pets, clean-up, leftover,"
         " care-after; or a clause, such as terms.color"),
    ],
)  # fmt: skip
def test_a_slip_in_what_is_called_for_is_found(tmp_path: Path, named: str, message: str, fix: str) -> None:
    """A guard with a slip in its name guards nothing; what is named rightly beside it is not found."""
    (tmp_path / "clauses" / "terms").mkdir(parents=True)
    text = f"{HEAD}    en: {{says: Ours.}}\n    es: {{says: Lo nuestro.}}\n".replace(
        "wording:", f"calls_for: [{named}]\nwording:"
    )
    (tmp_path / "clauses" / "terms" / "ours.yaml").write_text(text, encoding="utf-8")
    found = [f for f in proofread(stock_of(tmp_path)) if f.rule == "companion-unknown"]
    assert [(f.message, f.fix, f.place.line) for f in found] == [(message, fix, 3)]
