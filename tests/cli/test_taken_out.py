"""What `scopegen open` takes out of a paper lies beside its record, and is no further job of the folder."""

from __future__ import annotations

import json
import os
import shutil
from pathlib import Path

import pytest

from tests.jobs import example, laid
from tests.reopen.pdfs import run

SINCE = "Passed over, since `scopegen open` took it out of a paper: "


@pytest.fixture(scope="module")
def opened(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with two jobs, and the paper of one opened beside it."""
    folder = tmp_path_factory.mktemp("opened")
    laid(folder, "").unlink()
    for name in ("oak", "elm"):
        (folder / f"{name}.yaml").write_text(example(), encoding="utf-8")
    assert run("write", "agreement", folder / "oak.yaml").exit_code == 0
    assert run("open", folder / "oak-agreement.pdf").exit_code == 0
    assert sorted(os.listdir(folder / "oak-agreement")) == ["oak.yaml", "resolved.json"]
    return folder


@pytest.fixture
def folder(opened: Path, tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The same, to change things in."""
    shutil.copytree(opened, tmp_path, dirs_exist_ok=True)
    monkeypatch.chdir(tmp_path)
    return tmp_path


def jobs_in(*named: str) -> list[str]:
    result = run("check", *named, "--json")
    assert result.exit_code == 0
    return sorted(each["job"] for each in json.loads(result.stdout))


def test_copies_are_no_jobs_of_the_folder(folder: Path) -> None:
    """They are passed over aloud by each command that takes a folder."""
    copy = f"oak-agreement{os.sep}oak.yaml"
    assert jobs_in(".") == ["elm.yaml", "oak.yaml"]
    result = run("check", ".")
    assert "2 jobs: 2 can be written" in result.stdout
    assert result.stdout.splitlines()[-1] == f"{SINCE}{copy}"
    assert run("check", ".", "--json").stderr == f"{SINCE}{copy}\n"
    result = run("write", "agreement", ".", "-o", "papers", "--as", "html", "--at-once", "1")
    assert result.exit_code == 0 and sorted(os.listdir("papers")) == [
        "elm-agreement.html",
        "oak-agreement.html",
    ]
    assert f"{SINCE}{copy}\n2 written, 0 not written.\n" in result.stdout
    result = run("clauses", "used", "terms.color")
    assert result.stdout.endswith(f"terms.color is used in 2 jobs.\n{SINCE}{copy}\n")
    result = run("clauses", "used", "terms.color", "--json")
    assert len(json.loads(result.stdout)["uses"]) == 2 and result.stderr == f"{SINCE}{copy}\n"
    assert run("clauses", "used", "terms.color", "--quiet").stdout.endswith("used in 2 jobs.\n")


def test_named_it_is_taken(folder: Path) -> None:
    """The file, or its folder; and then it is not said to be passed over."""
    copy = f"oak-agreement{os.sep}oak.yaml"
    assert jobs_in("oak-agreement") == [copy]
    for named in ((copy, "oak.yaml"), (".", copy), ("oak-agreement", "."), (".", "oak-agreement")):
        assert copy in jobs_in(*named)
        assert SINCE not in run("check", *named).output
    assert "used in 1 job.\n" in run("clauses", "used", "terms.color", "--in", "oak-agreement").stdout


def test_folder_of_nothing_else_is_said(folder: Path) -> None:
    """Why there is no job in it."""
    Path("back").mkdir()
    Path("oak-agreement").rename("back/oak-agreement")
    result = run("check", "back")
    assert result.exit_code == 2
    assert "below, but for what `scopegen open` took out of papers  [unreadable-file]" in result.stderr


@pytest.mark.parametrize(
    "content",
    [b"", b"{}", b"[]", b'{"resolved": true}', b"[" * 100_000, b"\xff", b'{"record": 1}'],
    ids=lambda content: repr(content[:20]),
)
def test_file_of_ones_own_hides_no_job(folder: Path, content: bytes) -> None:
    """A file that is called like the record, and is none."""
    Path("oak-agreement/resolved.json").write_bytes(content)
    assert jobs_in(".") == ["elm.yaml", f"oak-agreement{os.sep}oak.yaml", "oak.yaml"]


def test_what_is_no_plain_file_or_too_large_hides_no_job(folder: Path) -> None:
    """Nothing waits for a pipe, and no folder, dead link or giant is read."""
    record = Path("oak-agreement/resolved.json")
    own = record.read_bytes()
    for make in (
        lambda: os.mkfifo(record),
        lambda: record.mkdir(),
        lambda: record.symlink_to("nowhere"),
        lambda: record.write_bytes(own + b" " * 20_000_000),
    ):
        record.rmdir() if record.is_dir() else record.unlink()
        make()
        assert len(jobs_in(".")) == 3
    record.write_bytes(own)
    assert len(jobs_in(".")) == 2


def test_other_jobs_beside_a_record_are_jobs(folder: Path) -> None:
    """A record stands for the one job that it names."""
    Path("oak-agreement/ash.yaml").write_text(example(), encoding="utf-8")
    assert jobs_in(".") == ["elm.yaml", f"oak-agreement{os.sep}ash.yaml", "oak.yaml"]


def test_record_beside_the_job_itself_hides_nothing(folder: Path) -> None:
    """A paper that is opened into the very folder of its job leaves that where it was."""
    Path("fall").mkdir()
    Path("oak.yaml").rename("fall/oak.yaml")
    assert run("write", "agreement", "fall/oak.yaml").exit_code == 0
    assert run("open", "fall/oak-agreement.pdf", "--to", "fall").exit_code == 0
    assert sorted(os.listdir("fall")) == ["oak-agreement.pdf", "oak.yaml", "resolved.json"]
    assert jobs_in(".") == ["elm.yaml", f"fall{os.sep}oak.yaml"]


def test_copies_far_from_their_folder_are_no_jobs_either(
    folder: Path, tmp_path_factory: pytest.TempPathFactory
) -> None:
    """Where no company.yaml says which place is whose, the record is believed."""
    away = tmp_path_factory.mktemp("away")
    Path("oak-agreement").rename(away / "oak-agreement")
    result = run("check", away)
    assert result.exit_code == 2 and "but for what `scopegen open` took out of papers" in result.stderr
