"""The agreements of all examples against PDF/A-3a and PDF/UA-1, and the checks against faults put in."""

from __future__ import annotations

import io
import json
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pikepdf
import pytest

from .agreements import AGREEMENTS, EXAMPLES, agreement
from .faults import Fault, all_faults
from .standards import CHECKS, Check, catalog, fields, files, fonts
from .standards.tree import of

FAULTS = list(all_faults())


@pytest.fixture(params=AGREEMENTS)
def pdf(request: pytest.FixtureRequest) -> Iterator[pikepdf.Pdf]:
    """The agreement of each example."""
    with pikepdf.open(io.BytesIO(agreement(request.param)[0])) as opened:
        yield opened


@pytest.fixture
def sound() -> Iterator[pikepdf.Pdf]:
    """One agreement with everything in it that the checks look at."""
    with pikepdf.open(io.BytesIO(agreement("heron-bend")[0])) as opened:
        yield opened


def named(check: Check) -> str:
    return f"{check.__module__.rpartition('.')[2]}.{check.__name__}"


@pytest.mark.parametrize("check", CHECKS, ids=named)
def test_agreements_keep_the_standards(pdf: pikepdf.Pdf, check: Check) -> None:
    """No check has a complaint about any example's agreement; the draft is one of them."""
    assert check(pdf) == []


@pytest.mark.parametrize(("check", "what", "fault"), FAULTS, ids=[f"{named(c)}: {w}" for c, w, _ in FAULTS])
def test_check_finds_the_fault(sound: pikepdf.Pdf, check: Check, what: str, fault: Fault) -> None:
    """Each check fails where the fault that it is for is put in."""
    assert check(sound) == []
    fault(sound)
    assert check(sound) != []


def test_every_check_has_a_fault() -> None:
    assert {check for check, _, _ in FAULTS} == set(CHECKS)


def test_lock_and_damage_are_found(tmp_path: Path) -> None:
    """A locked file, and one whose content cannot be unpacked."""
    locked, damaged = tmp_path / "locked.pdf", tmp_path / "damaged.pdf"
    with pikepdf.open(io.BytesIO(agreement("heron-bend")[0])) as pdf:
        pdf.save(locked, encryption=pikepdf.Encryption(owner="office", user=""))
        pdf.pages[0].Contents.write(b"no such thing", filter=pikepdf.Name.FlateDecode)
        pdf.save(damaged)
    with pikepdf.open(locked) as pdf:
        assert "locked" in catalog.nothing_runs(pdf)
    with pikepdf.open(damaged) as pdf:
        assert catalog.syntax(pdf) != []


def test_checks_saw_something(pdf: pikepdf.Pdf) -> None:
    """An agreement has tags, fonts, fields and files to be looked at."""
    assert len(of(pdf, "/H2", "/H3")) > 10 and len(of(pdf, "/TH")) > 10
    assert len(fonts.used(pdf)) >= 3 and len(fields.widgets(pdf)) >= 1 and len(files.inside(pdf)) == 2


def test_every_kind_of_place_is_a_field() -> None:
    """A box an add-on, initials, dates, lines and places to sign, over the examples together."""
    kinds = set()
    for name in AGREEMENTS:
        with pikepdf.open(io.BytesIO(agreement(name)[0])) as pdf:
            kinds |= {fields.name_of(field).rpartition("_")[2] for field in fields.widgets(pdf)}
    assert kinds == {"choice", "initials", "date", "signature", "name", "text"}


def test_each_day_of_the_notice_is_a_field() -> None:
    """16 CFR 429.1(b) leaves three days to write in: of the transaction, the last to cancel, and the buyer's
    own. The second stands in a sentence."""
    with pikepdf.open(io.BytesIO(agreement("heron-bend")[0])) as pdf:
        told = [str(field.TU) for field in fields.widgets(pdf) if "notice" in fields.name_of(field)]
    days = ["Date of transaction", "The last day to cancel", "Date"]
    copy = [f"Notice of Cancellation: {asked}" for asked in (*days, "Buyer's signature")]
    assert told == copy * 2


@pytest.mark.parametrize("name", AGREEMENTS)
def test_files_inside_are_those_that_it_was_made_from(name: str) -> None:
    """The job description byte for byte, and the record."""
    content, record = agreement(name)
    with pikepdf.open(io.BytesIO(content)) as pdf:
        inside = {key: entry.EF.F.read_bytes() for key, entry in files.inside(pdf).items()}
        types = {key: str(entry.EF.F.Subtype) for key, entry in files.inside(pdf).items()}
        relations = {key: str(entry.AFRelationship) for key, entry in files.inside(pdf).items()}
    job = f"{name}.yaml"
    assert inside == {job: (EXAMPLES / job).read_bytes(), "resolved.json": record}
    assert types == {job: "/application/yaml", "resolved.json": "/application/json"}
    assert relations == {job: "/Source", "resolved.json": "/Data"}


def test_office_and_costs_do_not_travel() -> None:
    """What only the office reads stays there: no cost, wage, profit or finding about them."""
    for name in AGREEMENTS:
        record = json.loads(agreement(name)[1])
        assert "office" not in record["price"] and "findings" not in record
        assert not {"cost", "wage", "overhead", "profit"} & keys_of(record)


def keys_of(value: object) -> set[str]:
    """Every key of a JSON value, at any depth."""
    if isinstance(value, dict):
        return set(value) | {key for inner in value.values() for key in keys_of(inner)}
    return {key for inner in value for key in keys_of(inner)} if isinstance(value, list) else set()


def outloud(path: Path) -> subprocess.CompletedProcess[str]:
    """The rules of PDF/UA-1 as a general-purpose program has them (outloud)."""
    options = ["--layer", "conformance", "--fail-on", "warning", "--no-info", str(path)]
    program = "from outloud.cli import main; main()"
    return subprocess.run([sys.executable, "-c", program, *options], capture_output=True, text=True)


@pytest.mark.parametrize("name", AGREEMENTS)
def test_another_program_finds_nothing(tmp_path: Path, name: str) -> None:
    path = tmp_path / f"{name}.pdf"
    path.write_bytes(agreement(name)[0])
    ended = outloud(path)
    assert ended.returncode == 0, ended.stdout
    assert "0 error(s), 0 warning(s)" in ended.stdout


@pytest.mark.parametrize("what", ["no language", "no scope", "heading skipped", "no words", "no characters"])
def test_another_program_finds_faults(sound: pikepdf.Pdf, tmp_path: Path, what: str) -> None:
    """It can fail: on the same faults as our own checks."""
    next(fault for _, said, fault in FAULTS if said == what)(sound)
    path = tmp_path / "faulty.pdf"
    sound.save(path)
    ended = outloud(path)
    assert ended.returncode == 1 and "error(s)" in ended.stdout, ended.stderr
