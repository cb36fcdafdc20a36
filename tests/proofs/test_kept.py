"""What must stay as it is: wording that was put on paper, and wording that the law prescribes."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from hypothesis import given
from hypothesis import strategies as st

from scopegen.cli.commands import scopegen
from scopegen.comparing import differences
from scopegen.library_folder import library_folder
from scopegen.load import Unreadable
from scopegen.printed import as_lines, digest, first_of_each, read_printed, with_more
from scopegen.proofs import proofread
from scopegen.proofs.kept import prescribed, texts_at
from scopegen.stock import open_stock
from scopegen.workspace import Workspace
from tests.jobs import changed, example, laid
from tests.proofs.workspaces import NOTICE, on_paper, stock_of

OWN = (
    "clause: terms.color\nreplaces: parts\nwording:\n  - season: 2027\n    en:\n"
    "      says: Color fades in the sun.\n"
)


def write(job: Path, *words: str) -> str:
    result = CliRunner().invoke(scopegen, ["write", "agreement", str(job), *words])
    assert result.exit_code == 0, result.output
    return result.output


def altered(folder: Path) -> list[str]:
    found = proofread(open_stock(Workspace(folder)))
    return [finding.message for finding in found if finding.rule == "altered-since-printed"]


@pytest.fixture
def workspace(tmp_path: Path) -> Path:
    """A workspace with a term of its own, whose agreement has been written."""
    job = laid(tmp_path, example())
    (tmp_path / "clauses" / "terms").mkdir(parents=True)
    (tmp_path / "clauses" / "terms" / "color.yaml").write_text(OWN)
    write(job, "--as", "html")
    return tmp_path


def test_each_text_on_a_paper_is_on_record(workspace: Path) -> None:
    """Every clause of the paper with its words, its version, the paper's day and the job."""
    lines = [
        json.loads(line) for line in (workspace / "clauses.lock").read_text(encoding="utf-8").splitlines()
    ]
    assert len(lines) > 60
    (color,) = [line for line in lines if line["clause"] == "terms.color"]
    assert color == {
        "clause": "terms.color", "version": "2027", "whose": "own", "language": "en", "way": "says",
        "since": "2027-03-19", "job": "job.yaml", "sha256": digest("Color fades in the sun."),
        "text": "Color fades in the sun.",
    }  # fmt: skip
    assert {"outcomes.come-back", "edging.recut", "cautions.digging"} <= {line["clause"] for line in lines}
    assert altered(workspace) == []


def test_what_was_altered_since_is_told_with_its_words(workspace: Path) -> None:
    """The words that went out and those that came in; put back, nothing is found."""
    path = workspace / "clauses" / "terms" / "color.yaml"
    path.write_text(OWN.replace("in the sun", "in sun and rain"))
    assert altered(workspace) == [
        "the text for 'says' of version 2027 was altered since it was put on paper for job.yaml on"
        " 2027-03-19:"
        " Color fades in [out: the sun.] [in: sun and rain.]"
    ]
    path.write_text(OWN)
    assert altered(workspace) == []


def test_other_line_breaks_are_no_change(workspace: Path) -> None:
    """The words count, not how the file breaks its lines."""
    text = OWN.replace("says: Color fades in the sun.", "says: >-\n        Color fades\n        in the sun.")
    (workspace / "clauses" / "terms" / "color.yaml").write_text(text)
    assert altered(workspace) == []


def test_a_version_of_its_own_is_no_change(workspace: Path) -> None:
    """What is sharpened for the next season leaves the old words where they are."""
    later = OWN + "  - season: 2028\n    en:\n      says: Color fades in sun and rain.\n"
    (workspace / "clauses" / "terms" / "color.yaml").write_text(later)
    assert altered(workspace) == []


def test_a_paper_written_again_changes_nothing_on_record(workspace: Path) -> None:
    """The first paper of a text stays its first, byte for byte."""
    before = (workspace / "clauses.lock").read_bytes()
    write(workspace / "job.yaml", "--as", "html", "--dated", "2027-03-20")
    assert (workspace / "clauses.lock").read_bytes() == before


def test_another_job_adds_what_it_has_more(workspace: Path) -> None:
    """Its own texts, with its own name."""
    before = set((workspace / "clauses.lock").read_text(encoding="utf-8").splitlines())
    other = workspace / "other.yaml"
    other.write_text(changed(example(), ("language: en", "language: es")), encoding="utf-8")
    write(other, "--as", "html")
    after = set((workspace / "clauses.lock").read_text(encoding="utf-8").splitlines())
    assert before < after
    assert {json.loads(line)["job"] for line in after - before} == {"other.yaml"}


def test_a_draft_is_not_on_record(tmp_path: Path) -> None:
    """Nobody signs a draft."""
    write(laid(tmp_path, example()), "--as", "html", "--draft")
    assert not (tmp_path / "clauses.lock").exists()


@pytest.mark.parametrize(
    ("spoiled", "said"),
    [
        ("{\n", "line 1 of {} is no line of what was put on paper"),
        ("[]\n", "line 1 of {} is no line of what was put on paper"),
        ('{"clause": "terms.color"}\n', "line 1 of {} is no line of what was put on paper"),
        ("\x00\n", "{} "),
    ],
)
def test_a_record_that_was_spoiled_is_found_and_kept(workspace: Path, spoiled: str, said: str) -> None:
    """The paper is written; the record is left as it is, and both commands say so."""
    lock = workspace / "clauses.lock"
    lock.write_text(spoiled)
    output = write(workspace / "job.yaml", "--as", "html")
    assert "The paper is written, but its wording is not on record." in output
    assert said.format(lock) in output
    assert lock.read_text() == spoiled
    assert any(said.format(lock) in f.message for f in proofread(open_stock(Workspace(workspace))))


def test_a_text_of_the_record_that_was_changed_is_found() -> None:
    """Words that do not fit their digest."""
    lines = as_lines([on_paper("terms.color", "Color fades.")]).replace("fades", "stays")
    with pytest.raises(Unreadable, match="has another text of 'terms.color' than was put on paper"):
        read_printed(lines, "clauses.lock")


def test_a_text_that_was_altered_and_printed_again_is_still_told(tmp_path: Path) -> None:
    """The first words count, whatever went on paper later."""
    first, second = (on_paper("terms.color", text) for text in ("Color fades.", "Color stays."))
    known = with_more((first,), [second])
    assert len(known) == 2
    assert first_of_each(known)[first.key].text == "Color fades."


words = st.lists(st.sampled_from("we rake the paths and no walks".split()), max_size=12).map(" ".join)


@given(words, words)
def test_a_difference_holds_both_texts(old: str, new: str) -> None:
    """What stays with what goes out is the old text; what stays with what comes in is the new one."""
    runs = differences(old, new)
    assert " ".join(run.text for run in runs if run.change != "in").split() == old.split()
    assert " ".join(run.text for run in runs if run.change != "out").split() == new.split()


@given(words)
def test_a_text_beside_itself_shows_nothing(text: str) -> None:
    assert {run.change for run in differences(text, text)} <= {"same"}


def test_prescribed_wording_is_told_when_a_word_is_changed(tmp_path: Path) -> None:
    """16 CFR 429.1(a): the statement beside the signature, word by word."""
    found = proofread(stock_of(tmp_path, "{laws: {altered: midnight}}"))
    messages = [finding.message for finding in found if finding.rule == "prescribed-wording-altered"]
    assert "'cancel.statement.en' is not worded as the law prescribes it" in messages
    assert len(messages) == 2  # the form says midnight too


def test_a_legal_page_that_is_gone_is_found(tmp_path: Path) -> None:
    """A notice that nobody has cannot be printed."""
    library = tmp_path / "library"
    library.mkdir()
    for folder in library_folder().iterdir():
        if folder.name != "law":
            (library / folder.name).symlink_to(folder)
    found = proofread(open_stock(None, library))
    assert f"the legal page {NOTICE} is missing" in [finding.message for finding in found]


def test_the_statement_is_the_one_of_the_rule() -> None:
    """16 CFR 429.1(a), read again from the rule's text: the digest is of these words and no others."""
    statement = (
        "You, the buyer, may cancel this transaction at any time prior to midnight of the third business"
        " day after"
        " the date of this transaction. See the attached notice of cancellation form for an explanation of"
        " this"
        " right."
    )
    assert prescribed()[NOTICE]["cancel.statement.en"] == digest(statement)
    assert texts_at({"a": {"b": ["x", "y"]}}, "a.b") == "x y"
    assert texts_at({"a": "x"}, "a.b") is None
