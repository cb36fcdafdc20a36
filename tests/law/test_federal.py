"""The federal cooling-off rule: whom it reaches, and its last day in business days."""

from __future__ import annotations

import hashlib
import re
from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from pathlib import Path

import pytest

from scopegen.case import Case
from scopegen.law import read_laws
from scopegen.library_folder import library_folder
from scopegen.price import Offer
from tests.rules.laid_over import opened

# 16 CFR Part 429, https://www.ecfr.gov/current/title-16/chapter-I/subchapter-D/part-429
LAWS, FINDINGS = read_laws(library_folder())
(RULE,) = (law for law in LAWS if law.state is None)
assert RULE.cancel and RULE.cancel.notice
CANCEL, NOTICE = RULE.cancel, RULE.cancel.notice
BLANK = re.compile(r"{(\w+)}")


@pytest.fixture(scope="module")
def case(tmp_path_factory: pytest.TempPathFactory) -> Case:
    return opened(tmp_path_factory.mktemp("law"))


def reaches(case: Case, place: str, price: str, *add_ons: str, purpose: str = "household") -> bool:
    """Whether the rule reaches a sale of this price, with these add-ons beside it."""
    assert case.priced is not None
    job = case.job.model_copy(update={"signed_at": place, "purpose": purpose})
    offers = tuple(
        Offer(f"add-on:{number}", "extra", "add-on", (), "work", (), Decimal(add_on), (), False)
        for number, add_on in enumerate(add_ons)
    )
    return CANCEL.reaches_job(job, replace(case.priced, total=Decimal(price), add_ons=offers))


def test_shipped_rules_are_sound() -> None:
    """Nothing is wrong with the legal rule that ships, and it says when it was looked at and where."""
    assert FINDINGS == ()
    assert CANCEL.citation == "16 CFR Part 429"
    assert RULE.looked_at >= date(2026, 11, 25)


@pytest.mark.parametrize(
    ("place", "price", "reached"),
    [
        # 429.0(a): 25 dollars at the buyer's residence, 130 dollars at other places
        ("customer's home", "24.99", False),
        ("customer's home", "25.00", True),
        ("a fair", "129.99", False),
        ("a fair", "130.00", True),
        # a sale that ends at a distance after a walk is not 'entirely by mail or telephone': 429.0(a)(4)
        ("remotely", "24.99", False),
        ("remotely", "25.00", True),
        # 429.0(a)(1), and the definition: away from the seller's place of business
        ("our office", "9000.00", False),
    ],
)
def test_price_that_the_rule_reaches(case: Case, place: str, price: str, reached: bool) -> None:
    """The least price by the place of signing, to the cent."""
    assert reaches(case, place, price) is reached


def test_add_ons_count_toward_the_price(case: Case) -> None:
    """What the customer can come to owe counts: 429.0(a), 'whether under single or multiple contracts'."""
    assert not reaches(case, "a fair", "100.00", "29.99")
    assert reaches(case, "a fair", "100.00", "20.00", "10.00")


def test_business_purchases_are_not_reached(case: Case) -> None:
    """429.0(b): primarily personal, family or household purposes."""
    assert not reaches(case, "customer's home", "5000.00", purpose="business")


# Counted by hand from 429.0(f) and 5 USC 6103: Saturday counts, Sunday and federal holidays do not, both the
# day itself and the day on which it is observed are passed over.
LAST_DAYS = [
    ("2026-03-02", "2026-03-05"),  # a plain Monday
    ("2026-03-05", "2026-03-09"),  # over a Sunday
    ("2026-03-06", "2026-03-10"),
    ("2026-03-07", "2026-03-11"),  # signed on a Saturday
    ("2026-03-08", "2026-03-11"),  # signed on a Sunday
    ("2026-05-22", "2026-05-27"),  # Memorial Day
    ("2026-06-16", "2026-06-20"),  # Juneteenth on a Friday
    ("2026-07-01", "2026-07-07"),  # July 4 on a Saturday, observed on Friday
    ("2026-07-03", "2026-07-08"),  # July 4 itself is never counted, though it is a Saturday
    ("2026-09-04", "2026-09-09"),  # Labor Day
    ("2026-10-09", "2026-10-14"),  # Columbus Day
    ("2026-11-10", "2026-11-14"),  # Veterans Day on a Wednesday
    ("2026-11-24", "2026-11-28"),  # Thanksgiving
    ("2026-12-23", "2026-12-28"),  # Christmas Day on a Friday
    ("2026-12-31", "2027-01-05"),  # New Year's Day
    ("2027-07-01", "2027-07-06"),  # July 4 on a Sunday, observed on Monday
    ("2027-12-29", "2028-01-04"),  # 1 January 2028 is a Saturday, observed on 31 December
    ("2028-02-28", "2028-03-02"),  # over a leap day
]


@pytest.mark.parametrize(("signed", "last"), LAST_DAYS)
def test_last_day_to_cancel(signed: str, last: str) -> None:
    """The third business day after the signing."""
    assert CANCEL.last_day.last(date.fromisoformat(signed), 3) == date.fromisoformat(last)


def statutory(year: int) -> set[date]:
    """The eleven holidays of 5 USC 6103(a), worked out from the statute's own words."""

    def nth(month: int, weekday: int, count: int) -> date:
        day = date(year, month, 1)
        day += timedelta(days=(weekday - day.weekday()) % 7)
        return day + timedelta(weeks=count - 1)

    last_monday = max(date(year, 5, day) for day in range(25, 32) if date(year, 5, day).weekday() == 0)
    fixed = {date(year, 1, 1), date(year, 6, 19), date(year, 7, 4), date(year, 11, 11), date(year, 12, 25)}
    return fixed | {nth(1, 0, 3), nth(2, 0, 3), last_monday, nth(9, 0, 1), nth(10, 0, 2), nth(11, 3, 4)}


def by_statute(signed: date) -> date:
    """The third business day with only the statutory days passed over: the earliest that 429.1(c) allows."""
    closed = statutory(signed.year) | statutory(signed.year + 1)
    day, left = signed, 3
    while left:
        day += timedelta(days=1)
        left -= day.weekday() != 6 and day not in closed
    return day


def test_last_day_is_never_too_early_and_never_far() -> None:
    """Over six years of signing days: never a Sunday or a holiday, three to six days on, never before the
    earliest day that the rule allows, and never earlier for a later signing."""
    before = date.min
    day = date(2025, 1, 1)
    while day <= date(2030, 12, 31):
        last = CANCEL.last_day.last(day, 3)
        assert last.weekday() != 6
        assert last not in statutory(last.year)
        assert 3 <= (last - day).days <= 6
        assert last >= by_statute(day)
        assert last >= before
        before, day = last, day + timedelta(days=1)


# The prescribed wording of 429.1(a) and (b), frozen: whoever changes it compares it with the address above.
DIGEST = "bc42c3f8b0c60668ce31fcb3c9eb781936d6a8d4ad6bddf9bba7d5bd5bf5f4c8"


def prescribed() -> str:
    form = NOTICE.form["en"]
    return "\n".join([CANCEL.statement["en"], *form.paragraphs, form.declaration])


def test_prescribed_wording_is_as_it_was_compared() -> None:
    """The statement and the form are not reworded by accident."""
    assert hashlib.sha256(prescribed().encode()).hexdigest() == DIGEST
    assert prescribed().startswith(
        "You, the buyer, may cancel this transaction at any time prior to midnight of the third"
    )


def test_every_language_of_a_rule_is_whole() -> None:
    """16 CFR 429.1(a) asks for the language of the sale: each language has every part of the notice,
    paragraph by paragraph with its blanks, and the seller's duties."""
    said = (NOTICE.form, NOTICE.title, NOTICE.days_in_words, CANCEL.statement, RULE.also)
    assert {frozenset(each) for each in said} == {frozenset({"en", "es"})}
    assert len({len(duties) for duties in RULE.also.values()}) == 1
    english = [BLANK.findall(paragraph) for paragraph in NOTICE.form["en"].paragraphs]
    assert english[-1] == ["seller", "seller_address", "last_day"]
    for form in NOTICE.form.values():
        assert [BLANK.findall(paragraph) for paragraph in form.paragraphs] == english


def test_rule_that_is_not_sound_is_a_finding(tmp_path: Path) -> None:
    """A legal rule with a slip in it is named with its file, and is not used."""
    (tmp_path / "law").mkdir()
    text = (library_folder() / "law" / "us-federal-cooling-off.yaml").read_text(encoding="utf-8")
    (tmp_path / "law" / "slip.yaml").write_text(
        text.replace("business_days: 3", "business_days: three"), encoding="utf-8"
    )
    laws, findings = read_laws(tmp_path)
    assert laws == ()
    assert [(finding.rule, finding.message) for finding in findings] == [
        ("value", "'three' is not a whole number")
    ]
