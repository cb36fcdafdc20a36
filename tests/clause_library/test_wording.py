"""The wording of the clauses that ship: plain, no promise by slip, within the limits of law."""

from __future__ import annotations

import re

import pytest

from tests.clause_library.library import FOLDERS, Text, clauses, texts
from tests.plain_language import WORDS_IN_ONE_PARAGRAPH, WORDS_IN_ONE_SENTENCE, count, failed_tests, sentences

PARAGRAPHS = [paragraph for text in texts() for paragraph in text.paragraphs()]

# Words that a reader who is no lawyer stumbles over, Latin, and 'shall' (Federal Plain Language
# Guidelines, rev. 1 May 2011: 'must'; Pennsylvania, 73 P.S. 2205(b): no Latin).
LEGALESE = re.compile(
    r"\b(shall|here(by|in|of|to|under|after)|there(of|in|to|under)|where(as|by|of)|notwithstanding|pursuant"
    r"|aforesaid|aforementioned|forthwith|heretofore|indemnif\w+|hold harmless|deem(s|ed)?|in lieu of"
    r"|prior to|in the event|witnesseth|undersigned|said (work|party|property)|provided that|subject to"
    r"|terminat\w+|commenc\w+|utiliz\w+|execut\w+|part(y|ies)|sole discretion|of the essence|e\.g|i\.e|etc"
    r"|et al|inter alia|pro rata|bona fide|per (diem|se|annum)|prima facie|force majeure|and/or)\b",
    re.IGNORECASE,
)
# 16 CFR 429.1(d) and (f): no waiver, no confession of judgment, nothing that misstates a right to cancel.
RIGHTS_TAKEN = re.compile(
    r"non-?refundable|no refund|not returned|waive|give up (your|any|the) right|confess|judgment|final sale"
    r"|(cannot|may not|must not) cancel|fee (for|to) cancel|jury|arbitrat",
    re.IGNORECASE,
)
NEGATION = re.compile(
    r"\b(not|no|never|nothing|nobody|none|cannot|neither|without|unless)\b|n't\b", re.IGNORECASE
)
# After 'we', a text on what is not in the price may only say what we do not do or do not promise.
ALLOWED_AFTER_WE = re.compile(r"\bwe (?!make no promise\b|do not\b)\w+", re.IGNORECASE)


def test_every_folder_has_texts() -> None:
    assert {text.folder for text in texts()} == set(FOLDERS)
    assert len(texts()) > len(clauses()) > 80


@pytest.mark.parametrize("text", texts(), ids=str)
def test_no_sentence_and_no_paragraph_is_too_long(text: Text) -> None:
    """Connecticut General Statutes 42-152(c)(2) and (4), with the sample values filled in."""
    counted = count(text.paragraphs())
    assert 0 < counted.longest_sentence <= WORDS_IN_ONE_SENTENCE
    assert counted.longest_paragraph <= WORDS_IN_ONE_PARAGRAPH


def test_the_library_passes_the_statute_as_a_whole() -> None:
    """Connecticut General Statutes 42-152(c)(1) to (5)."""
    whole = count(PARAGRAPHS)
    assert whole.words > 4000
    assert failed_tests(whole) == ()


def test_the_library_is_plainer_than_the_statute_asks() -> None:
    """Fewer than 20 words a sentence is the Iowa state style guide's goal (dxtraining.iowa.gov); a
    reading ease of 60 and more is Flesch's 'standard' (The Art of Readable Writing, 1949, from memory)."""
    whole = count(PARAGRAPHS)
    assert whole.words_per_sentence < 20
    assert whole.reading_ease > 60


def test_the_library_keeps_to_the_guide_of_pennsylvania() -> None:
    """37 Pa. Code ch. 307, Appendix B, 1b and 1c: sentence average 25 words or less, paragraph average 60."""
    whole = count(PARAGRAPHS)
    assert whole.words_per_sentence <= 25
    assert whole.words_per_paragraph <= 60


@pytest.mark.parametrize("folder", FOLDERS)
def test_each_folder_passes_too(folder: str) -> None:
    """A few plain folders must not carry a hard one."""
    counted = count(paragraph for text in texts() if text.folder == folder for paragraph in text.paragraphs())
    assert failed_tests(counted) == ()


def test_syllables_are_looked_up_and_seldom_estimated() -> None:
    whole = count(PARAGRAPHS)
    every_word = [word for paragraph in PARAGRAPHS for sentence in sentences(paragraph) for word in sentence]
    assert sum(word in whole.estimated for word in every_word) < 0.01 * whole.words, sorted(whole.estimated)


@pytest.mark.parametrize("text", texts(), ids=str)
def test_no_legalese(text: Text) -> None:
    assert not LEGALESE.findall(text.filled())


@pytest.mark.parametrize("text", texts(), ids=str)
def test_no_right_is_taken_or_misstated(text: Text) -> None:
    assert not RIGHTS_TAKEN.findall(text.filled())


@pytest.mark.parametrize("text", texts(), ids=str)
def test_one_negation_and_one_condition_a_sentence(text: Text) -> None:
    """Pennsylvania, 73 P.S. 2205(b): no double negatives, no more than one condition in a sentence."""
    for paragraph in text.paragraphs():
        for sentence in sentences(paragraph.replace("no later than", "by")):
            said = " ".join(sentence)
            assert len(NEGATION.findall(said)) <= 1, said
            assert len(re.findall(r"\bif\b", said, re.IGNORECASE)) <= 1, said


def test_the_guards_catch_what_they_are_for() -> None:
    """Each guard is shown a sentence that it must not let pass."""
    assert LEGALESE.search("The contractor shall start pursuant to this paper.")
    assert RIGHTS_TAKEN.search("Your deposit is non-refundable.")
    assert len(NEGATION.findall("We do not do this without a change order.")) == 2
    assert ALLOWED_AFTER_WE.search("Afterwards we tidy up.")
    assert not ALLOWED_AFTER_WE.search("We make no promise about weeds, and we do not pull them.")


@pytest.mark.parametrize("text", [text for text in texts() if text.way == "excluded"], ids=str)
def test_what_is_excluded_promises_nothing(text: Text) -> None:
    said = text.filled()
    assert not ALLOWED_AFTER_WE.findall(said)
    assert "not part of this price" in said or "Leftover" in said
    assert len(list(sentences(said))) > 1, "it must say what that leads to"


@pytest.mark.parametrize("text", texts(), ids=str)
def test_each_way_says_what_it_must(text: Text) -> None:
    match text.way:
        case "customer":
            assert "by" in text.blanks
            assert text.template.startswith("You ")
        case "elsewhere":
            assert "who" in text.blanks
            assert "not part of our price" in text.filled()
        case "not-needed":
            assert "because" in text.blanks
        case "no-charge":
            assert text.template.startswith("This one time, ")
            assert "free of charge" in text.filled()
        case "add-on":
            assert text.template.startswith("If you choose this, ")
        case _:
            assert text.way in ("included", "excluded", "says")


@pytest.mark.parametrize("text", texts(), ids=str)
def test_texts_end_as_sentences(text: Text) -> None:
    for paragraph in text.paragraphs():
        assert paragraph.endswith(".")
        assert paragraph[0].isupper()
        assert not re.search(r"  |\.\.| [.,;:]|[—{}]", paragraph)


# What public advice says, so that nobody mends a figure by taste.
@pytest.mark.parametrize(
    ("clause", "says"),
    [
        # 49 CFR 196.103 and 196.109
        ("cautions.digging", r"one-call center first \(811 in the US\).*wait for the marks.*call 911"),
        ("site.buried-lines", r"811 in the US"),
        # UF/IFAS Extension Polk County, 'Mulch': 2 to 3 inches after settling, warnings above 4 inches
        ("cautions.total-depth", r"2 to 3 inches in all.*More than 4 inches"),
        # North Carolina State University, weed science: a new generation of some weeds every 4 to 6 weeks
        ("terms.weeds-and-wear", r"within 4 to 6 weeks"),
        # NIOSH, Applications Manual for the Revised Lifting Equation (1994): 51 lb, from memory
        ("cautions.lifting", r"more than 50 pounds calls for two people"),
        # 527 CMR 1.00, as the Massachusetts Department of Fire Services tells it: 18 inches from combustible
        # exteriors, homes of six units or fewer exempt, masonry not reached
        ("cautions.mulch-near-siding", r"18 inches away.*six units or fewer.*brick or concrete do not count"),
        # University of Nevada, Reno Extension, Living With Fire: 0 to 5 feet from the house
        ("cautions.wildfire", r"first 5 feet around a house"),
        # 29 CFR 1926.1153, Table 1: water at the blade, or a dust collector
        ("cautions.cutting-dust", r"cut it wet, or catch the dust at the saw"),
        # ASPCA on cocoa bean shell mulch: signs like those of chocolate poisoning
        ("cautions.cocoa-hulls", r"what makes chocolate harmful to dogs"),
        # UF/IFAS, Florida-Friendly Landscaping guide: limestone and shell raise soil pH, and reflect heat
        ("cautions.stone-and-heat", r"gets hot in the sun.*Limestone and shells can make the soil less acid"),
        # Code of Virginia 56-265.15:1 exempts only an owner or occupant who digs by hand
        ("cautions.digging", r"In some states, a hand spade counts too"),
        # Wisconsin DATCP, Lawn Care Services: licensed even for what anyone can buy, and for natural products
        (
            "cautions.weed-killers",
            r"In some states, that goes for natural ones and for those from a garden center",
        ),
        ("bed_prep.weed-killer", r"Only a licensed person"),
        ("cautions.weed-killers", r"Only a licensed person"),
        ("bed_prep.weed-preventer", r"Only a licensed person"),
    ],
)
def test_figures_of_public_advice(clause: str, says: str) -> None:
    said = " ".join(text.filled() for text in texts() if text.clause == clause)
    assert re.search(says, said)
