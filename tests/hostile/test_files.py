"""Files that were made to break the reader: each has one clear finding, in bounded memory and time.

Every file stands once for the job, the price chart, the company and a clause of one's own. The aim is two
seconds and 200 MB beyond the imports; the bound on time is wider, for a machine that does other things.
"""

from __future__ import annotations

import os
import re
import subprocess
import sys
import threading
import time
import unicodedata
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from scopegen.cli.commands import scopegen
from scopegen.load import Unreadable, load
from tests.hostile.bounded import SECONDS, bounded
from tests.jobs import example, laid

ROOT = Path(__file__).parents[2]
KINDS = {
    "job": "job.yaml",
    "chart": "prices-2027.yaml",
    "company": "company.yaml",
    "clause": "clauses/edging/recut.yaml",
}
SOUND_CLAUSE = (ROOT / "clause_library/edging/recut.yaml").read_text(encoding="utf-8")
Maker = Callable[[Path], object]


def text(said: str | bytes) -> Maker:
    """A file that holds this."""
    raw = said.encode() if isinstance(said, str) else said
    return lambda path: path.write_bytes(raw)


def link(target: str) -> Maker:
    """A link in place of a file."""
    return lambda path: path.symlink_to(target)


def without_permission(path: Path) -> None:
    path.write_text("job: A\n")
    path.chmod(0)


def fifty_megabytes(path: Path) -> None:
    with path.open("wb") as file:
        file.write(b"job: A\n")
        file.truncate(50_000_000)


ALIASES = "a0: &a0 [x]\n" + "".join(f"a{i}: &a{i} [{', '.join([f'*a{i - 1}'] * 10)}]\n" for i in range(1, 10))
MERGES = "a0: &a0 {x: y}\n" + "".join(
    f"a{i}: &a{i} {{<<: [{', '.join([f'*a{i - 1}'] * 9)}]}}\n" for i in range(1, 9)
)
DEEP = 1_000
BED = "  - {name: B}\n"

# what it is -> how it is made, and the rule of its finding
HOSTILE: dict[str, tuple[Maker, str]] = {
    "aliases of aliases": (text(ALIASES), "alias"),
    "merges of merges": (text(MERGES), "alias"),
    "a merge key": (text("job: A\ncustomer: {<<: {b: c}, d: e}\n"), "alias"),
    "a list in itself": (text("a: &a [*a]\n"), "alias"),
    "brackets in brackets": (text("a: " + "[" * DEEP + "]" * DEEP + "\n"), "nested-too-deep"),
    "braces in braces": (text("a: " + "{b: " * DEEP + "}" * DEEP + "\n"), "nested-too-deep"),
    "steps below steps": (text("".join(" " * i + "a:\n" for i in range(DEEP))), "nested-too-deep"),
    "dashes behind dashes": (text("a:\n  " + "- " * DEEP + "b\n"), "nested-too-deep"),
    "question marks": (text("? " * DEEP + "a\n"), "no-key"),
    "50 MB": (fifty_megabytes, "too-large"),
    "1 MB in one word": (text("a: " + "x" * 999_000 + "\n"), "long-text"),
    "1 MB in one key": (text("x" * 999_000 + ": a\n"), "long-text yaml"),
    "1 MB in one quote": (text('a: "' + "x " * 499_000 + '"\n'), "long-text"),
    "1 MB of blank lines": (text("job: [A\n" + "\n" * 990_000), "yaml"),
    "1 MB of keys": (text("".join(f"key{i}: value\n" for i in range(58_000))), "too-many-items"),
    "a tag that nobody knows": (text("a: !thing b\n"), "tag"),
    "a tag of Python": (text("a: !!python/object/apply:os.system ['touch /tmp/x']\n"), "tag"),
    "a tag on the whole": (text("!!map {a: b}\n"), "tag"),
    "a directive": (text("%TAG ! tag:example.com,2000:\n---\na: !b c\n"), "directive tag"),
    "invalid UTF-8": (text(b"job: A\nname: \xff\xc3\x28\n"), "not-text"),
    "an overlong slash": (text(b"job: \xc0\xaf\n"), "not-text"),
    "half a sign": (text(b"job: \xed\xa0\xbd\n"), "not-text"),
    "UTF-16 LE": (text("job: A\n".encode("utf-16-le")), "not-text"),
    "UTF-16 BE": (text("job: A\n".encode("utf-16-be")), "not-text"),
    "UTF-16 LE with its mark": (text(b"\xff\xfe" + "job: Ä\n".encode("utf-16-le")), "not-text"),
    "UTF-16 BE with its mark": (text(b"\xfe\xff" + "job: Ä\n".encode("utf-16-be")), "not-text"),
    "UTF-32 with its mark": (text(b"\x00\x00\xfe\xff" + "job: A\n".encode("utf-32-be")), "not-text"),
    "a NUL": (text("job: A\x00B, and some more words\n"), "hidden-sign"),
    "nothing but NULs": (text(b"\x00" * 1000), "not-text hidden-sign"),
    "an escape for a terminal": (text("job: A\x1b]0;owned\x07\x1b[31m\n"), "hidden-sign"),
    "an escape that YAML spells": (text('job: "A\\e[31m"\n'), "hidden-sign"),
    "a folder": (lambda path: path.mkdir(), "unreadable-file"),
    "no permission": (without_permission, "unreadable-file"),
    "a pipe that nobody writes to": (lambda path: os.mkfifo(path), "unreadable-file"),
    "a device without an end": (link("/dev/zero"), "unreadable-file"),
    "a link to itself": (lambda path: path.symlink_to(path.name), "unreadable-file"),
    "a link to nothing": (link("gone-between-listing-and-reading.yaml"), "unreadable-file"),
    "a number of 10,000 digits": (text("job: A\nseason: " + "9" * 9_999 + "\n"), "value unknown-key"),
    "a number beyond numbers": (text("job: A\nseason: 1e999999\n"), "value unknown-key"),
    "100,000 beds": (text("job: A\nbeds:\n" + "  - a\n" * 100_000), "too-many-items"),
    "1,200 beds": (text("job: A\nbeds:\n" + BED * 1_200), "too-many-entries unknown-key"),
}  # fmt: skip


def workspace(folder: Path, kind: str, make: Maker) -> Path:
    """A sound job in a folder of its own, with one of its files made hostile."""
    folder.mkdir()
    job = laid(folder, example())
    (folder / "clauses/edging").mkdir(parents=True)
    (folder / KINDS["clause"]).write_text(SOUND_CLAUSE, encoding="utf-8")
    path = folder / KINDS[kind]
    path.unlink()
    make(path)
    return job


@pytest.mark.parametrize("kind", KINDS)
def test_hostile_files_have_their_findings(tmp_path: Path, kind: str) -> None:
    """Exit code 2 where the job cannot be understood, 1 where something beside it; never a traceback."""
    sound = tmp_path / "sound"
    sound.mkdir()
    jobs = [laid(sound, example())]
    jobs += [workspace(tmp_path / f"{n}", kind, make) for n, (make, _) in enumerate(HOSTILE.values())]
    first, *others = bounded(*((["check", str(job)], 0) for job in jobs))
    assert first["code"] == 0, first["out"]
    for (name, (_, rules)), said in zip(HOSTILE.items(), others, strict=True):
        assert_found(name, kind, rules.split(), said)


def assert_found(name: str, kind: str, rules: list[str], said: dict[str, Any]) -> None:
    """The finding is there, at the file, with its rule (or one of several), and no other of that file."""
    out = said["out"]
    assert said["code"] in ((2, 1) if kind == "job" else (1,)), f"{name}: {out}"
    assert "Traceback" not in out, f"{name}: {out}"
    findings = re.findall(rf"^(?:\S*/)?{re.escape(KINDS[kind])}:\d+:\d+: stops: .*\[(\S+)\]$", out, re.M)
    assert findings, f"{name}: {out}"
    assert findings == rules or len(rules) > 1 and set(findings) & set(rules), f"{name}: {out}"
    assert not [sign for sign in out if unicodedata.category(sign) == "Cc" and sign != "\n"], name
    assert len(out) < 20_000, name
    assert said["seconds"] < SECONDS, name


def test_file_that_changes_while_it_is_read(tmp_path: Path) -> None:
    """Grown, cut and emptied by somebody else, again and again: what was read once is used, or found."""
    path, stop = tmp_path / "job.yaml", threading.Event()
    path.write_text("job: A\n")

    def change() -> None:
        while not stop.is_set():
            for size in (0, 7, 2_000_000, 500_000):
                with path.open("r+b") as file:
                    file.truncate(size)
                    file.write(b"job: A\n"[:size])

    changing = threading.Thread(target=change)
    changing.start()
    rules, end = set(), time.monotonic() + 60
    try:
        while len(rules) < 2 and time.monotonic() < end:
            try:
                assert load(path, "job.yaml").data == {"job": "A"}
                rules.add("read")
            except Unreadable as refused:
                rules.add(refused.finding.rule)
    finally:
        stop.set()
        changing.join()
    assert rules <= {"read", "empty-file", "not-a-mapping", "too-large", "not-text", "hidden-sign"}
    assert len(rules) > 1


@pytest.mark.parametrize(
    "name", ["two words.yaml", "a\nb.yaml", "a\x1b[31mred.yaml", "a\x9b31m.yaml", "\u202eb.yaml"]
)
@pytest.mark.parametrize("command", [["check"], ["check", "--json"], ["price"], ["write", "agreement"]])
def test_name_of_a_file_cannot_speak_to_the_terminal(tmp_path: Path, name: str, command: list[str]) -> None:
    """Sound, broken or missing: what is printed holds no sign that a terminal obeys."""
    laid(tmp_path, "")
    for content in (example(), example().replace("season: 2027", "season: 2031"), "a: [", None):
        path = tmp_path / name
        path.unlink(missing_ok=True)
        if content is not None:
            path.write_text(content, encoding="utf-8")
        result = CliRunner().invoke(scopegen, [*command, str(path)])
        assert result.exception is None or isinstance(result.exception, SystemExit)
        odd = {sign for sign in result.output if unicodedata.category(sign)[0] == "C"}
        assert odd <= {"\n"}


def test_name_that_is_no_text_is_printed(tmp_path: Path) -> None:
    """A name in bytes that are no UTF-8, as old archives leave behind."""
    path = os.fsencode(tmp_path) + b"/caf\xe9.yaml"
    with open(path, "wb") as file:
        file.write(b"a: [\n")
    said = subprocess.run([sys.executable, "-m", "scopegen", "check", path], capture_output=True, cwd=ROOT)
    assert said.returncode == 2
    assert b"stops: the YAML cannot be read here" in said.stderr
    said.stderr.decode()


@pytest.mark.parametrize("kind", [*(kind for kind in KINDS if kind != "job"), "a folder of clauses"])
def test_link_out_of_the_folder_is_not_followed(tmp_path: Path, kind: str) -> None:
    """What lies elsewhere is neither read into a paper nor shown; a link inside the folder is followed."""
    home, elsewhere = tmp_path / "home", tmp_path / "elsewhere"
    job = workspace(home, "clause", lambda path: path.write_text(SOUND_CLAUSE, encoding="utf-8"))
    elsewhere.mkdir()
    name = KINDS.get(kind, "clauses/edging")
    (home / name).rename(elsewhere / "theirs")
    (home / name).symlink_to(elsewhere / "theirs")
    (home / "more").mkdir()
    (elsewhere / "secret").write_text("root:x:0:0:SECRET\n", encoding="utf-8")
    for target in (elsewhere / "theirs", elsewhere / "secret")[: 1 if kind not in KINDS else 2]:
        (home / name).unlink()
        (home / name).symlink_to(target)
        for words in (["check", str(job)], ["clauses", "check", "--in", str(home)])[
            : 1 if kind == "company" else 2
        ]:
            result = CliRunner().invoke(scopegen, words)
            assert result.exit_code == 1, result.output
            leads = (
                f"{KINDS.get(kind, KINDS['clause'])} is a link that leads out of the folder of company.yaml"
            )
            assert leads in result.output
            assert "SECRET" not in result.output
    (home / name).unlink()
    (elsewhere / "theirs").rename(home / "more" / "ours")
    (home / name).symlink_to(home / "more" / "ours")
    result = CliRunner().invoke(scopegen, ["check", str(job)])
    assert result.exit_code == 0, result.output


def test_many_slips_on_one_line(tmp_path: Path) -> None:
    """A program that writes a job on one line brings findings that all stand there: each shows a piece of it,
    and to cut that out takes no time that grows with the line."""
    bed = '{name: "B%d", fund: x, shape: {circle: 4 ft}}'
    beds = ", ".join(bed % number for number in range(1000))
    line = f"{{job: Ä, season: 2027, beds: [{beds}], notes: [{', '.join(['a 1'] * 2000)}, '#1']}}\n"
    job = laid(tmp_path, line)
    (tmp_path / "sound").mkdir()
    sound, said = bounded((["check", str(laid(tmp_path / "sound", example()))], 0), (["check", str(job)], 0))
    assert said["out"].count("[unknown-key]") == 1001
    assert max(len(each) for each in said["out"].splitlines()) < 300
    assert said["seconds"] < SECONDS


@pytest.mark.parametrize("named", ["job.yaml", "."])
@pytest.mark.parametrize("command", [["check"], ["check", "--json"], ["price"], ["write", "agreement"]])
def test_job_that_is_a_link_out_of_the_folder(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, command: list[str], named: str
) -> None:
    """Named, or met in a folder: neither is it shown nor does a paper carry it away."""
    home, theirs = tmp_path / "home", tmp_path / "theirs.yaml"
    home.mkdir()
    job = laid(home, example())
    for content in (example() + "# SECRET\n", "password: SECRET\n"):
        theirs.write_text(content, encoding="utf-8")
        job.unlink()
        job.symlink_to(theirs)
        monkeypatch.chdir(home)
        result = CliRunner().invoke(scopegen, [*command, named])
        assert result.exit_code == 2, result.output
        if command != ["price"] or named != ".":  # which takes a job alone
            assert "job.yaml is a link that leads out of the folder of company.yaml" in result.output
        assert "SECRET" not in result.output
        assert not [*home.glob("*.pdf")]


def test_lock_that_is_a_link_out_of_the_folder(tmp_path: Path) -> None:
    """It is neither read nor written; the paper is there, and what is missing is said."""
    home, theirs = tmp_path / "home", tmp_path / "theirs"
    home.mkdir()
    job = laid(home, example())
    (home / "clauses.lock").symlink_to(theirs)
    for content in (None, "SECRET\n"):
        if content:
            theirs.write_text(content, encoding="utf-8")
        result = CliRunner().invoke(scopegen, ["write", "agreement", str(job), "--as", "html"])
        assert result.exit_code == 0 and (home / "job-agreement.html").exists()
        assert "clauses.lock is a link that leads out of the folder of company.yaml" in result.stderr
        assert "SECRET" not in result.output
        assert theirs.exists() == bool(content)


@pytest.mark.parametrize("target", [".", "..", "loop", "../..", "edging"])
def test_loop_of_folders_stops_nothing(tmp_path: Path, target: str) -> None:
    """A link back to the folder, to one above it or to itself is passed over, with a warning where there
    would be something to find in it."""
    job = workspace(tmp_path / "home", "clause", lambda path: path.write_text(SOUND_CLAUSE, encoding="utf-8"))
    (tmp_path / "home" / "clauses" / "loop").symlink_to(target)
    result = CliRunner().invoke(scopegen, ["check", str(job)])
    if target == "edging":  # no loop: a clause by another name, which its file does not have
        assert result.exit_code == 1 and "[clause-name]" in result.output
        return
    assert result.exit_code == 0, result.output
    warned = "clauses/loop is a link back to a folder that it lies in, and is passed over  [folder-loop]"
    assert (warned in result.output) == (target != "loop")


def test_folder_of_clauses_that_may_not_be_read_is_found(tmp_path: Path) -> None:
    """It is not passed over, as if one had no wording of one's own."""
    job = laid(tmp_path, example())
    (tmp_path / "clauses/edging").mkdir(parents=True)
    (tmp_path / "clauses/edging").chmod(0)
    said = bounded(*[(["check", str(job)], 0)] * 2)[1]
    (tmp_path / "clauses/edging").chmod(0o755)
    assert said["code"] == 1
    assert "clauses/edging cannot be read: Permission denied  [unreadable-file]" in said["out"]
