"""A paper that comes back: what travels inside it, and whether that still leads to the same paper."""

from __future__ import annotations

import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import Any

from scopegen.record import FORM, NAME

MOST_BYTES = 200_000_000  # of a PDF: fifty times what an agreement with many photographs takes
MOST_FILES = 20  # inside one
MOST_CONTENT = 20_000_000  # bytes of one file inside
_DEVICES = re.compile(r"(con|prn|aux|nul|com\d|lpt\d)(\..*)?", re.IGNORECASE)


class NotAPaper(ValueError):
    """The file holds no paper that can be taken apart; the message says why, and what to do."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper taken apart: the job description under its file name, the record, and the PDF's bytes."""

    content: bytes
    job_name: str
    job: bytes
    record_bytes: bytes
    record: dict[str, Any]


def read_paper(path: Path) -> Paper:
    """The paper in a file. Raises NotAPaper."""
    content = _bytes_of(path)
    inside = _attachments(content)
    if NAME not in inside:
        raise NotAPaper(
            "no job description travels inside it: it is no paper of scopegen, or was printed anew"
        )
    record = _record(inside.pop(NAME))
    jobs = [(name, data) for name, data in inside.items() if name == record["inputs"]["job"]["name"]]
    if not jobs:
        raise NotAPaper("its record is there, but the job description that it names is not")
    return Paper(content, *jobs[0], record["bytes"], record)


def _bytes_of(path: Path) -> bytes:
    try:
        folder, there = path.is_dir(), path.is_file()
        with path.open("rb") if there else BytesIO() as file:
            content = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        raise NotAPaper(f"it cannot be read: {getattr(error, 'strerror', None) or error}") from None
    if not there:
        why = "it is a folder; name a PDF file" if folder else "there is no such file; check its name"
        raise NotAPaper(why)
    if len(content) > MOST_BYTES:
        raise NotAPaper(f"it is larger than {MOST_BYTES // 1_000_000} MB")
    if b"%PDF-" not in content[:1024]:
        raise NotAPaper("it is no PDF; name the agreement as it was written")
    return content


def _attachments(content: bytes) -> dict[str, bytes]:
    """The files inside, under names that are safe to write."""
    from pypdf import PdfReader

    try:
        reader = PdfReader(BytesIO(content))
        if reader.is_encrypted:
            raise NotAPaper("it is locked with a password; take the lock off and try again")
        files: dict[str, bytes] = {}
        for file in reader.attachment_list:
            if len(files) == MOST_FILES:
                raise NotAPaper(f"more than {MOST_FILES} files are inside it: it is no paper of scopegen")
            data = bytes(file.content)
            if len(data) > MOST_CONTENT:
                raise NotAPaper(f"a file of more than {MOST_CONTENT // 1_000_000} MB is inside it")
            files.setdefault(safe_name(file.name, len(files) + 1), data)
        return files
    except NotAPaper:
        raise
    except Exception as error:  # a damaged PDF can end its reader in any way
        raise NotAPaper(f"it is damaged or cut short ({type(error).__name__}); ask for it again") from None


def safe_name(name: str, number: int) -> str:
    """A name that stays in its folder on any system; for what has none, one by its number."""
    last = PurePosixPath(name.replace("\\", "/")).name
    plain = last and last not in (".", "..") and last.isprintable() and not set(last) & set('<>:"|?*')
    if not plain or len(last) > 120 or last.startswith(".") or _DEVICES.fullmatch(last):
        return f"file-{number}"
    return last


def _record(data: bytes) -> dict[str, Any]:
    """The record, with its own bytes and the job's safe name; refused where its form is not known."""
    wrong = NotAPaper("its record cannot be read: it was changed, or made by a later scopegen")
    try:
        record = json.loads(data)
        job = PurePosixPath(record["inputs"]["job"]["file"])
        known = record["record"] == FORM and isinstance(record["paper"], dict)
        inside = not job.is_absolute() and ".." not in job.parts and job.parts
    except (ValueError, TypeError, KeyError, RecursionError):
        raise wrong from None
    if not known or not inside:
        raise wrong
    record["inputs"]["job"]["name"] = safe_name(job.name, 1)
    record["bytes"] = data
    return dict(record)


def differences(before: dict[str, Any], now: dict[str, Any]) -> Iterator[tuple[str, str]]:
    """What is no longer as it was, as (kind, name): scopegen, job, chart, company, clause or photo."""
    if before["scopegen"] != now["scopegen"]:
        yield "scopegen", f"{before['scopegen']}"
    for key in ("job", "chart", "company"):
        if before["inputs"][key]["sha256"] != now["inputs"][key]["sha256"]:
            yield key, now["inputs"][key]["file"]
    for kind, key in (("clause", "clauses"), ("photo", "photos")):
        was, has = before["inputs"].get(key, {}), now["inputs"].get(key, {})
        yield from ((kind, name) for name in sorted({*was, *has}) if was.get(name) != has.get(name))
