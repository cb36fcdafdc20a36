"""The record inside a paper, written by somebody who means harm: read in its own form, or refused."""

from __future__ import annotations

import io
import json
from collections.abc import Iterator
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

import pikepdf
import pytest

from scopegen.record import FORM
from scopegen.reopen import NotAPaper, Record, read_record

from .pdfs import entries, run, with_content, with_record, workspace, written

VALUES = (
    None, True, False, 0, 1, -1, 10**30, 1.5, "", "x", "\x1b[31mred", "\ud800", "a\nb", "x" * 100_000,
    "9999-12-31", "0001-01-01", "2027-02-30", "../../etc/passwd", "/etc/passwd", "1e400", [], [[]], {},
    {"": ""}, ["x"], {"x": "y"},
)  # fmt: skip
READ = {
    ("record",), ("scopegen",), ("paper",), ("paper", "dated"), ("paper", "signed_on"), ("paper", "draft"),
    ("paper", "kind"),
    ("inputs",), ("inputs", "job"), ("inputs", "job", "file"), ("inputs", "job", "sha256"),
    ("inputs", "chart"), ("inputs", "chart", "file"), ("inputs", "company"), ("inputs", "clauses"),
    ("inputs", "left_out"), ("inputs", "laws"), ("inputs", "photos"), ("says",),
    ("price",), ("price", "total"),
}  # fmt: skip


@cache
def record() -> dict[str, Any]:
    with pikepdf.open(io.BytesIO(written())) as pdf:
        return json.loads(entries(pdf)["/Data"].EF.F.read_bytes())


def paths(value: Any, path: tuple[str | int, ...] = ()) -> Iterator[tuple[str | int, ...]]:
    """Every place of a JSON value, lists by their first entry."""
    first = enumerate(value[:1] if isinstance(value, list) else ())
    for key, inner in value.items() if isinstance(value, dict) else first:
        yield (*path, key)
        yield from paths(inner, (*path, key))


def put(path: tuple[str | int, ...], value: Any) -> dict[str, Any]:
    """The record with something else in a place."""
    changed = deepcopy(record())
    place: Any = changed
    for key in path[:-1]:
        place = place[key]
    place[path[-1]] = value
    return changed


def read(content: bytes) -> Record | None:
    try:
        return read_record(content)
    except NotAPaper as error:
        assert str(error) == "its record cannot be read: it was changed, or made by a later scopegen"
        return None


def test_record_is_read() -> None:
    """Our own, with the form that this version writes."""
    found = read(json.dumps(record()).encode())
    assert found is not None and found.record == FORM
    assert found.paper.dated is not None and found.paper.dated.isoformat() == record()["paper"]["dated"]
    assert found.inputs.photos and found.inputs.clauses and found.inputs.laws


def test_anything_in_every_place() -> None:
    """Whatever stands anywhere, the record is read or refused; where it is asked for, mostly refused."""
    places = set(paths(record()))
    assert places >= READ
    refused = dict.fromkeys(READ, 0)
    for path in places:
        for value in VALUES if path in READ else (None, [], {}, "x" * 10_000):
            found = read(json.dumps(put(path, value)).encode())
            if path in READ:
                refused[path] += found is None
    assert min(refused.values()) > len(VALUES) / 2, refused


def test_anything_left_out() -> None:
    """Without one of the values that are asked for it is refused."""
    for path in READ:
        changed = deepcopy(record())
        place: Any = changed
        for key in path[:-1]:
            place = place[key]
        del place[path[-1]]
        assert read(json.dumps(changed).encode()) is None, path


@pytest.mark.parametrize(
    "content",
    [
        b"",
        b"null",
        b"5",
        b"[]",
        b"{}",
        b"\xff",
        b"\xef\xbb\xbf{}",
        b"[" * 1_000_000,
        b'{"a":' * 100_000,
        b'{"record": ' + b"9" * 1_000_000 + b"}",
        b'{"record": NaN}',
        b'{"record": 1} {"record": 1}',
    ],
    ids=lambda content: repr(content[:16]),
)
def test_what_is_no_record(tmp_path: Path, content: bytes) -> None:
    """By itself, and inside a paper."""
    assert read(content) is None
    (tmp_path / "paper.pdf").write_bytes(with_content("/Data", content))
    result = run("open", tmp_path / "paper.pdf")
    assert (result.exit_code, len(result.stderr.splitlines())) == (2, 1)
    assert [path.name for path in tmp_path.iterdir()] == ["paper.pdf"]


@pytest.mark.parametrize("file", ["../../etc/passwd", "/etc/passwd", "a/../../b.yaml", "..", "", "a\0b.yaml"])
def test_file_outside_the_folder(tmp_path: Path, file: str) -> None:
    """A record that leads out of the contractor's folder is refused."""

    def change(record: dict[str, Any]) -> None:
        record["inputs"]["job"]["file"] = file

    (tmp_path / "paper.pdf").write_bytes(with_record(change))
    result = run("open", tmp_path / "paper.pdf")
    assert (result.exit_code, len(result.stderr.splitlines())) == (2, 1)


@pytest.mark.parametrize(
    ("path", "value"),
    [
        (("paper", "dated"), None),
        (("paper", "dated"), "2026-01-05"),
        (("paper", "signed_on"), "2020-01-01"),
        (("paper", "signed_on"), "2099-12-31"),
        (("paper", "draft"), True),
        (("inputs", "job", "file"), "a/b/c/d/e/cedar-row.yaml"),
        (("inputs", "clauses"), {}),
        (("price", "total"), "0.00"),
    ],
)
def test_record_of_another_paper(tmp_path: Path, path: tuple[str, ...], value: Any) -> None:
    """A record that is sound and not true: another paper or none, never the same."""
    folder = workspace(tmp_path / "jobs")
    with pikepdf.open(io.BytesIO(written())) as pdf:
        entries(pdf)["/Data"].EF.F.write(json.dumps(put(path, value)).encode())
        pdf.save(folder / "paper.pdf")
    result = run("open", folder / "paper.pdf")
    assert result.exit_code == 1, result.output
    assert "byte for byte" not in result.stdout
