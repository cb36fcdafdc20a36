"""What must stay as it is: wording that was put on paper, and wording that the law prescribes."""

from __future__ import annotations

import json
from dataclasses import replace
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


@pytest.mark.parametrize("day", ["2027-03-18", "2027-03-19", "2027-03-20"])
@pytest.mark.parametrize("again", ["job.yaml", "other.yaml"])
def test_what_went_on_paper_first_stays_the_measure(workspace: Path, day: str, again: str) -> None:
    """However the paper with the altered words is dated, and whether it is the same job's or another's."""
    (workspace / "clauses" / "terms" / "color.yaml").write_text(OWN.replace("in the sun", "in the rain"))
    (workspace / again).write_text((workspace / "job.yaml").read_text(encoding="utf-8"), encoding="utf-8")
    write(workspace / again, "--as", "html", "--dated", day)
    assert altered(workspace) == [
        "the text for 'says' of version 2027 was altered since it was put on paper for job.yaml on"
        " 2027-03-19: Color fades in the [out: sun.] [in: rain.]; the new words are on paper too, for"
        f" {again} on {day}"
    ]


def test_the_lines_of_one_text_stand_as_they_were_written() -> None:
    """Not as the papers are dated, nor by their digests; those of other texts by their keys."""
    first, second, third = (
        replace(on_paper("terms.color", text), since=since)
        for text, since in (("B.", "2027-05-01"), ("C.", "2027-04-01"), ("A.", "2027-05-01"))
    )
    other = on_paper("terms.access", "A.")
    known = with_more(with_more(with_more((), [first]), [second, other]), [third, first])
    assert known == (other, first, second, third)
    assert with_more(read_printed(as_lines(known), "clauses.lock"), [second]) == known
    assert first_of_each(known) == {other.key: other, first.key: first}


def test_words_do_not_change_with_who_has_them() -> None:
    """A text of one's own that says just what ships, or the other way round, is on record once."""
    shipped, own = (on_paper("terms.color", "Color fades.", whose) for whose in ("shipped", "own"))
    assert with_more((shipped,), [own]) == (shipped,)


@pytest.mark.parametrize(
    "spoiled", [{"version": "spring"}, {"since": "in May"}, {"version": "2027, from May"}, {"version": ""}]
)
def test_a_line_without_a_season_or_a_day_is_none(spoiled: dict[str, str]) -> None:
    line = json.dumps(json.loads(as_lines([on_paper("terms.color", "Color fades.")])) | spoiled)
    with pytest.raises(Unreadable, match="line 1 of clauses.lock is no line of what was put on paper"):
        read_printed(f"{line}\n", "clauses.lock")


def findings_of(folder: Path, rule: str) -> list[tuple[str, str, str]]:
    found = [each for each in proofread(open_stock(Workspace(folder))) if each.rule == rule]
    return [(each.message, each.fix, f"{Path(each.place.file).name}:{each.place.line}") for each in found]


UNSIGNED = "; where no such paper was signed, take its line out of clauses.lock"
PARTS = "clause: terms.license\nreplaces: parts\nwording:\n  - season: {}\n    en: {{says: We have one.}}\n"
WHOLE = (
    "clause: terms.license\ntitle: {{en: License, es: Licencia}}\nwhen: {{has: [license]}}\nwording:\n"
    "  - season: {}\n    en: {{says: We have one.}}\n    es: {{says: Hay una.}}\n"
)


@pytest.mark.parametrize(("text", "line"), [(PARTS, 5), (WHOLE, 6)], ids=["parts", "whole"])
@pytest.mark.parametrize("season", ["2026", "2027"])
def test_own_words_over_what_was_printed_are_found(
    workspace: Path, text: str, line: int, season: str
) -> None:
    """A file of one's own for the season of the paper, or an earlier one, whole or in parts."""
    (workspace / "clauses" / "terms" / "license.yaml").write_text(text.format(season))
    ((message, fix, place),) = findings_of(workspace, "altered-since-printed")
    assert message.startswith(
        "for 'says' a job of season 2027 now takes other words than version 2027 had when it was put on paper"
        f" for job.yaml on 2027-03-19; they are yours, of version {season}: We [out: work under"
    )
    assert fix == (
        "make yours a version of season 2028, or 'from:' a day after the last such paper" + UNSIGNED
    )
    assert place == f"license.yaml:{line}"


@pytest.mark.parametrize("text", [PARTS, WHOLE], ids=["parts", "whole"])
@pytest.mark.parametrize("season", ["2028", "2027\n    from: 2027-03-20"])
def test_own_words_of_a_later_season_or_day_are_no_change(workspace: Path, text: str, season: str) -> None:
    (workspace / "clauses" / "terms" / "license.yaml").write_text(text.format(season))
    assert altered(workspace) == []


def test_own_words_from_the_paper_s_own_day_are_found(workspace: Path) -> None:
    """A job of that day takes them."""
    text = PARTS.format("2027\n    from: 2027-03-19")
    (workspace / "clauses" / "terms" / "license.yaml").write_text(text)
    ((message, _, _),) = findings_of(workspace, "altered-since-printed")
    assert "they are yours, of version 2027, from 2027-03-19" in message


def test_a_version_from_a_day_is_held_to_its_own_words(workspace: Path) -> None:
    """A paper of a day within it, and one of a later season that is dated before it."""
    path = workspace / "clauses" / "terms" / "color.yaml"
    later = OWN + "  - season: 2027\n    from: 2027-06-01\n    en:\n      says: Color fades.\n"
    path.write_text(later)
    write(workspace / "job.yaml", "--as", "html", "--dated", "2027-06-01")
    lock = workspace / "clauses.lock"
    lines = read_printed(lock.read_text(encoding="utf-8"), "clauses.lock")
    early = [replace(line, since="2027-01-02") if "from" in line.version else line for line in lines]
    assert lines != tuple(early)
    for known in (lines, early):
        lock.write_text(as_lines(known), encoding="utf-8")
        path.write_text(later)
        assert altered(workspace) == []
        path.write_text(later.replace("Color fades.\n", "Color goes.\n"))
        ((message, _, _),) = findings_of(workspace, "altered-since-printed")
        assert message.startswith("the text for 'says' of version 2027, from 2027-06-01 was altered since")


def test_shipped_words_that_an_update_altered_are_found(workspace: Path) -> None:
    """Nobody can put those back in the program; the old words are kept as one's own, and all is well."""
    lock = workspace / "clauses.lock"
    lines = read_printed(lock.read_text(encoding="utf-8"), "clauses.lock")
    old = "We have a license."
    known = [
        replace(line, text=old, sha256=digest(old)) if line.clause == "terms.license" else line
        for line in lines
    ]
    lock.write_text(as_lines(known), encoding="utf-8")
    ((message, fix, place),) = findings_of(workspace, "altered-since-printed")
    assert message.startswith("the text for 'says' of version 2027 was altered since it was put on paper for")
    assert fix == (
        "write the old words in a file of your own under clauses/, with 'replaces: parts' and 'season: 2027'"
        + UNSIGNED
    )
    assert place.startswith("license.yaml")
    own = PARTS.format(2027).replace("We have one.", old)
    (workspace / "clauses" / "terms" / "license.yaml").write_text(own)
    assert altered(workspace) == []


def test_own_words_that_were_taken_away_are_found(workspace: Path) -> None:
    """What ships stands there again; that is not what was signed."""
    (workspace / "clauses" / "terms" / "color.yaml").unlink()
    ((message, fix, _),) = findings_of(workspace, "altered-since-printed")
    assert "they are those that ship, of version 2027: " in message
    assert fix.startswith("write the old words in a file of your own under clauses/")


@pytest.mark.parametrize(("season", "found"), [(2027, True), (2026, True), (2028, False)])
def test_a_clause_out_of_use_in_the_season_of_its_paper_is_found(
    workspace: Path, season: int, found: bool
) -> None:
    """Once for the clause, whatever it printed; from the next season on all is well."""
    (workspace / "clauses" / "edging").mkdir()
    (workspace / "clauses" / "edging" / "recut.yaml").write_text(
        f"clause: edging.recut\nno_longer: {{season: {season}, because: ours, instead: edging.new-edge}}\n"
    )
    told = findings_of(workspace, "dropped-since-printed")
    assert told == [
        (
            f"the clause 'edging.recut' is no longer used from {season} on, and its wording of season 2027"
            " was put on paper for job.yaml on 2027-03-19",
            "write 'season: 2028' here" + UNSIGNED,
            "recut.yaml:2",
        )
    ] * found  # fmt: skip
    assert altered(workspace) == []


def test_a_clause_that_is_gone_is_found_at_its_line(workspace: Path) -> None:
    """No file has it any more; a file that is not sound is found by itself."""
    path = workspace / "clauses" / "terms" / "ours.yaml"
    path.write_text(
        "clause: terms.ours\ntitle: {en: Ours}\nwording:\n  - season: 2027\n    en: {says: Ours.}\n"
    )
    write(workspace / "job.yaml", "--as", "html")
    assert findings_of(workspace, "dropped-since-printed") == []
    path.write_text("clause: terms.ours\n")
    assert findings_of(workspace, "dropped-since-printed") == []
    path.unlink()
    ((message, fix, place),) = findings_of(workspace, "dropped-since-printed")
    assert message == (
        "the clause 'terms.ours' is gone, and its version of season 2027 was put on paper for job.yaml on"
        " 2027-03-19"
    )
    assert fix == "put it back as it was; `no_longer:` stops its use from a later season on" + UNSIGNED
    line = int(place.removeprefix("clauses.lock:"))
    lock = (workspace / "clauses.lock").read_text(encoding="utf-8").splitlines()
    assert json.loads(lock[line - 1])["clause"] == "terms.ours"


def test_a_text_that_is_gone_is_found(workspace: Path) -> None:
    """The clause is still there, without the words of one language."""
    path = workspace / "clauses" / "terms" / "ours.yaml"
    text = "clause: terms.ours\ntitle: {en: Ours, es: Lo nuestro}\nwording:\n  - season: 2027\n"
    path.write_text(text + "    en: {says: Ours.}\n    es: {says: Nuestro.}\n")
    write(workspace / "job.yaml", "--as", "html")
    path.write_text(text + "    es: {says: Nuestro.}\n")
    ((message, _, _),) = findings_of(workspace, "dropped-since-printed")
    assert message.startswith("the text for 'says' in 'en' of the clause 'terms.ours' is gone")


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
