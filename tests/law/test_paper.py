"""What the agreement shows in a state: the notice in the right number of days, what the statute has it say,
and what the contract must show."""

from __future__ import annotations

import hashlib
import re
from datetime import date
from pathlib import Path

import pytest

from scopegen.case import Case
from scopegen.findings import Finding, Level
from scopegen.law import Law
from scopegen.papers.agreement import compose
from scopegen.papers.document import Document
from scopegen.papers.frame import frame_of
from scopegen.render.printed import printed_texts
from scopegen.words import lexicon
from tests.law.pages import STATES
from tests.rules.laid_over import checked, opened

COMPANY = (
    "company: {license: registration 00-7711, email: office@plumb.example, insurance: general liability,"
    " address: ['3 Level Street', 'Sampleton, ST 00034']}"
)
CHART = "chart: {job: {minimum: 4000.00}}"
FEW_DAYS = re.compile(r"\bthird\b|\bTHREE\b|\btercer\b|\bTRES\b")


def fragment(state: str, *, older: str = "no", language: str = "en", place: str = "customer's home") -> str:
    customer = f"{{state: {state}, is_65_or_older: {older}}}"
    said = f'language: {language}, signed_at: "{place}", customer: {customer}, done_by: 10 days after start'
    return f"{{job: {{{said}, payments: {{rest: on completion}}}}, {COMPANY}, {CHART}}}"


def paper(case: Case, signed_on: date | None = None) -> Document:
    return compose(frame_of(case, lexicon(case.job.language), signed_on=signed_on))


def told(document: Document) -> str:
    return "\n".join(printed_texts(document))


def said(page: Law, language: str) -> str:
    assert page.cancel is not None
    return page.cancel.statement[language]


@pytest.mark.parametrize(("older", "days"), [("no", "FIVE"), ("yes", "SEVEN")])
def test_maryland_names_its_days_and_no_fewer(tmp_path: Path, older: str, days: str) -> None:
    """Commercial Law 14-302.1: the state's statement at the signature, its days on both copies of the form,
    and nowhere the three days of the federal one."""
    text = told(paper(opened(tmp_path, fragment("MD", older=older))))
    assert text.count(said(STATES["MD"], "en")) == 1
    assert text.count(f"within {days} BUSINESS DAYS from the above date") == 2
    assert not FEW_DAYS.search(text)
    assert "I, Pat Sample, have been provided oral notice" in text
    assert "Maryland Commercial Law 14-301 to 14-302.1, looked at" in text and "16 CFR Part 429" in text


@pytest.mark.parametrize(
    ("state", "older", "days"), [("CA", "no", "third"), ("CA", "yes", "fifth"), ("CT", "yes", "third")]
)
def test_statement_of_the_form_in_the_days_of_the_state(
    tmp_path: Path, state: str, older: str, days: str
) -> None:
    """Where the state's own statement was not seen, the federal one has the state's number of days."""
    text = told(paper(opened(tmp_path, fragment(state, older=older))))
    assert text.count(f"prior to midnight of the {days} business day after the date of this transaction") == 1
    assert bool(FEW_DAYS.search(text)) is (days == "third")


@pytest.mark.parametrize(("older", "days"), [("no", "CINCO"), ("yes", "SIETE")])
def test_maryland_in_spanish_is_marked_as_a_translation(tmp_path: Path, older: str, days: str) -> None:
    """The statute gives English alone."""
    text = told(paper(opened(tmp_path, fragment("MD", older=older, language="es"))))
    assert text.count(said(STATES["MD"], "es")) == 1
    assert text.count(f"dentro de {days} DÍAS HÁBILES a partir de la fecha de arriba") == 2
    assert text.count("traducción del proyecto") == 2
    assert not FEW_DAYS.search(text)
    assert "have been provided" not in text


def test_form_has_the_latest_day(tmp_path: Path) -> None:
    """Signed on Friday, January 16, 2026: Maryland's own list ends a day earlier than the federal one."""
    job = fragment("MD").replace("done_by", "dated: 2026-01-14, walked: 2026-01-13, season: 2027, done_by")
    text = told(paper(opened(tmp_path, job), date(2026, 1, 16)))
    assert text.count("not later than midnight of January 23, 2026") == 2


def test_federal_form_is_whole_beside_the_state_s_days(tmp_path: Path) -> None:
    """Nothing but the number of days is another: 16 CFR 429.2(b)."""
    case = opened(tmp_path, fragment("MD"))
    federal = next(right.law for right in case.rights if right.law.state is None)
    assert federal.cancel and federal.cancel.notice and case.given
    form = federal.cancel.notice.form["en"]
    assert case.given.form.paragraphs[1:] == form.paragraphs[1:]
    assert case.given.form.paragraphs[0] == form.paragraphs[0].replace("THREE", "FIVE")
    assert case.given.form.model_copy(update={"paragraphs": form.paragraphs}) == form
    words = federal.cancel.notice.days_in_words
    for language, statement in federal.cancel.statement.items():
        own = words[language]["3"]
        first, *others = federal.cancel.notice.form[language].paragraphs
        assert (statement.count(own.ordinal), first.count(own.count)) == (1, 1)
        assert not any(own.ordinal in text or own.count in text for text in others)


# Frozen as they were compared: Maryland Commercial Law 14-302.1(4)(i) and the Department of Labor's page on
# door-to-door sales; New York General Business Law 771(1)(d).
DIGESTS = {
    "MD": "24b761283ac601968854ce08b564e5364729b26588ed6b9a123a3197a156df9a",
    "NY": "27130e54c284ab0f537462c2325d614853f1352cf12ab19a81284bfeacfca4e4",
}


@pytest.mark.parametrize("state", DIGESTS)
def test_prescribed_wording_is_as_it_was_compared(state: str) -> None:
    """A statute's words are not reworded by accident."""
    page = STATES[state]
    texts = [each.text["en"] for each in page.says.values()]
    if page.cancel:
        texts += [page.cancel.statement["en"], page.cancel.acknowledged["en"].text]
        texts += [page.cancel.acknowledged["en"].older]
    assert hashlib.sha256("\n".join(texts).encode()).hexdigest() == DIGESTS[state]


def test_new_york_prints_the_notice_of_liens(tmp_path: Path) -> None:
    """771(1)(d), in bold, before the signatures."""
    document = paper(opened(tmp_path, fragment("NY")))
    keys = [section.key for section in document.sections]
    assert keys.index("law-us-ny-lien") == keys.index("sign") - 1
    block = document.sections[keys.index("law-us-ny-lien")].blocks[0]
    assert (block.text, block.role) == (STATES["NY"].says["lien"].text["en"], "statement")
    spanish = opened(tmp_path, fragment("NY", language="es"))
    assert "Texto en español, traducción del proyecto." in told(paper(spanish))


def test_connecticut_s_paper_has_the_notice_wherever_it_is_signed(tmp_path: Path) -> None:
    """General Statutes 20-429(a): not valid without it."""
    document = paper(opened(tmp_path, fragment("CT", place="our office")))
    assert len([section for section in document.sections if section.role == "notice"]) == 2
    assert "16 CFR" not in told(document)


@pytest.mark.parametrize("state", sorted(STATES))
def test_what_pages_call_printed_is_on_the_paper(tmp_path: Path, state: str) -> None:
    """Each thing that a page takes to stand on every paper stands on this one."""
    text = told(paper(opened(tmp_path, fragment(state))))
    marks = {
        "contractor's name": "Plumb Line Grounds", "contractor's address": "3 Level Street",
        "contractor's phone": "555-0111", "customer's name": "Pat Sample", "property": "1 Ruler Road",
        "date": "Dated March 19, 2027", "description": "The work", "materials": "Hardwood mulch",
        "price": "Price", "payments": "On completion", "start": "between April 12 and April 16, 2027",
        "change orders": "change order", "whole agreement": "whole agreement", "signatures": "Signature",
        "license": "registration 00-7711", "completion": "to be done within 10 days after we start",
        "street address": "3 Level Street", "insurance": "general liability", "email": "office@plumb.example",
    }  # fmt: skip
    shows = STATES[state].shows
    assert shows is not None
    for thing in (*shows.printed, *shows.asked):
        assert marks[thing] in text, thing


def found(folder: Path, text: str, *rules: str) -> list[Finding]:
    folder.mkdir(exist_ok=True)
    return [finding for finding in checked(folder, text).findings if finding.rule in rules]


@pytest.mark.parametrize("state", sorted(STATES))
def test_what_is_missing_is_said(tmp_path: Path, state: str) -> None:
    """A contractor with a box for an address, and nothing else said: each thing that a page asks for is
    found once, and stops where the law reaches bed work."""
    box = "company: {address: ['P.O. Box 12', 'Sampleton, ST 00034']}"
    bare = f"{{job: {{customer: {{state: {state}}}, payments: {{rest: on completion}}}}, {box}, {CHART}}}"
    page = STATES[state]
    assert page.shows and page.counts
    missing = found(tmp_path / "bare", bare, "contract-shows", "contract-may-show")
    assert len(missing) == len(page.shows.asked)
    assert {finding.level for finding in missing} <= {
        Level.STOPS if page.counts.work == "yes" else Level.WARNS
    }
    assert all(page.shows.citation in finding.message for finding in missing)
    assert found(tmp_path / "whole", fragment(state), "contract-shows", "contract-may-show") == []


def test_license_of_the_state_goes_before_the_other(tmp_path: Path) -> None:
    """A contractor at a border has a number for each side."""
    both = fragment("MD").replace(
        "license: registration 00-7711", "license: registration 00-7711, licenses: {MD: license 00-2}"
    )
    assert "license 00-2" in told(paper(opened(tmp_path, both)))
    elsewhere = both.replace("state: MD", "state: NJ")
    assert "registration 00-7711" in told(paper(opened(tmp_path, elsewhere)))
    only = both.replace("license: registration 00-7711, ", "").replace("state: MD", "state: NJ")
    assert [f.fix for f in found(tmp_path / "only", only, "contract-shows")] == [
        "add it in company.yaml: 'licenses: {NJ: …}', or 'license: …'"
    ]


CLAUSE = (
    "clauses: {terms/maryland-commission.yaml: '{clause: terms.maryland-commission, title: {en: The"
    " Commission}, when: {state: [MD]}, needs: [], wording: [{season: 2027, en: {says: Every contractor has a"
    " license.}}]}'}"
)


def test_own_clause_with_the_state_s_notice_is_asked_for_until_it_is_there(tmp_path: Path) -> None:
    """And then it is printed."""
    (asked,) = found(tmp_path / "without", fragment("MD"), "state-notice")
    assert "clauses/terms/maryland-commission.yaml" in asked.fix
    with_it = fragment("MD")[:-1] + f", {CLAUSE}}}"
    assert found(tmp_path / "with", with_it, "state-notice") == []
    (tmp_path / "printed").mkdir()
    assert "Every contractor has a license." in told(paper(opened(tmp_path / "printed", with_it)))


def test_age_is_asked_for_only_where_it_counts(tmp_path: Path) -> None:
    """Where a right reaches the sale that gives an older buyer longer."""
    silent = fragment("MD").replace(", is_65_or_older: no", "")
    assert [f.level for f in found(tmp_path / "md", silent, "age-unsaid")] == [Level.STOPS]
    for name, text in {
        "said": fragment("MD"),
        "office": silent.replace("customer's home", "our office"),
        "nj": silent.replace("MD", "NJ"),
        "business": silent.replace("{job: {", "{job: {purpose: business, "),
    }.items():
        assert found(tmp_path / name, text, "age-unsaid") == []


def test_note_on_older_buyers_is_quiet_where_the_page_has_their_days(tmp_path: Path) -> None:
    """Elsewhere it still asks."""
    assert found(tmp_path / "md", fragment("MD", older="yes"), "older-buyer") == []
    assert len(found(tmp_path / "nj", fragment("NJ", older="yes"), "older-buyer")) == 1


@pytest.mark.parametrize(
    ("customer", "messages"),
    [
        ("property: '1 Ruler Road, Sampleton, VA 00034'", []),  # no page for it, and no state said
        ("property: '1 Ruler Road, Sampleton, MD 00034-0001', state: MD", []),
        ("property: '1 Ruler Road', state: NJ", []),
        (
            "property: '1 Ruler Road, Sampleton, MD 00034', state: PA",
            ["by its address a property is in MD, and by 'state' in PA"],
        ),
    ],
)
def test_state_and_address(tmp_path: Path, customer: str, messages: list[str]) -> None:
    """The address is held against what the job says."""
    findings = found(tmp_path, f"job: {{customer: {{{customer}}}}}", "state-of-property")
    assert [finding.message for finding in findings] == messages


@pytest.mark.parametrize("state", sorted(STATES))
def test_what_is_not_known_is_asked_and_decides_nothing(tmp_path: Path, state: str) -> None:
    """Each open question is one note for the office, and none is on the customer's paper."""
    case = opened(tmp_path, fragment(state))
    notes = found(tmp_path, fragment(state), "ask-locally")
    questions = STATES[state].not_known["en"]
    assert [finding.message.split(": ", 1)[1] for finding in notes] == list(questions)
    assert {finding.level for finding in notes} == {Level.NOTES}
    assert not any(question in told(paper(case)) for question in questions)


@pytest.mark.parametrize(
    ("state", "first", "warned"),
    [
        # offered for a day from Friday, March 19, 2027: five business days end on March 25, three on March 23
        ("MD", "2027-03-25", True),
        ("MD", "2027-03-26", False),
        ("NJ", "2027-03-23", True),
        ("NJ", "2027-03-24", False),
    ],
)
def test_start_inside_the_longer_days_is_found(tmp_path: Path, state: str, first: str, warned: bool) -> None:
    """The state's days count for the start as well."""
    start = f"offer_stands: 1 day, start: {{from: {first}, to: 2027-04-16}}, done_by"
    text = fragment(state).replace("done_by", start)
    assert bool(found(tmp_path, text, "start-inside-cancellation")) is warned
