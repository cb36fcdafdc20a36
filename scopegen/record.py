"""What a paper was made from, as JSON that travels inside it: every figure, and a digest of each file.

The mark of a paper is the first part of this record's digest. Two papers with one mark say the same.
"""

from __future__ import annotations

import json
from dataclasses import asdict, replace
from hashlib import sha256
from pathlib import PurePath
from typing import Any

from scopegen import __version__
from scopegen.case import Case
from scopegen.check import check
from scopegen.clauses import Chosen
from scopegen.law import Law
from scopegen.papers.agreement import compose
from scopegen.papers.document import Attachment, Document
from scopegen.papers.frame import Frame
from scopegen.photos import Photograph
from scopegen.report.as_json import price_json
from scopegen.report.checked import check_json

NAME = "resolved.json"
FORM = 1  # of the record: raised where a key changes its meaning
YAML, JSON = "application/yaml", "application/json"  # RFC 9512, 2.1; RFC 8259, 11
MARK = 12  # hexadecimal digits: 48 bits, so that no two papers of a contractor share one by chance


def recorded_agreement(frame: Frame, file: PurePath) -> tuple[Document, bytes]:
    """The agreement with its mark and with what it was made from inside it; and its record by itself."""
    record = record_of(frame, "agreement", file)
    document = compose(frame, mark_of(record))
    return replace(document, attachments=attachments(frame, record, file), job=file.as_posix()), record


def record_of(frame: Frame, kind: str, file: PurePath) -> bytes:
    """The record of a paper. `file` is the job description, as it lies below the folder of company.yaml.

    The contractor's own costs are not in it, nor what only the office is told by a check.
    """
    checked = check_json(check(frame.case))
    price = {key: value for key, value in price_json(frame).items() if key != "office"}
    record = {
        "record": FORM,
        "scopegen": __version__,
        "paper": {
            "kind": kind,
            "language": frame.words.language,
            "dated": frame.job.dated.isoformat() if frame.job.dated else None,
            "signed_on": frame.signed_on.isoformat() if frame.signed_on else None,
            "draft": frame.draft,
        },
        "inputs": _inputs(frame, file),
        "says": digest(_said(compose(frame))),  # all that its pages show but for the mark
        "decided": checked["decided"],
        "open": checked["open"],
        "price": price,
    }
    return (json.dumps(record, indent=1, ensure_ascii=False, sort_keys=True) + "\n").encode()


def _said(document: Document) -> str:
    """A document as plain data: its days as they are written, of its photographs the digest."""
    return json.dumps(
        asdict(document), default=lambda value: digest(value) if isinstance(value, bytes) else str(value)
    )


def _inputs(frame: Frame, file: PurePath) -> dict[str, Any]:
    """Each file with the digest of its text; of a photograph that of the picture as it is printed. Of clauses
    and of the law it is what the paper has of them: what is written for later seasons changes nothing."""
    case = frame.case
    assert case.chart_source is not None and case.company_source is not None
    photos = {name: taken.jpeg for name, taken in case.photos.items() if isinstance(taken, Photograph)}
    return {
        "job": {"file": file.as_posix(), "sha256": digest(case.job_source.text)},
        "chart": {"file": f"prices-{frame.job.season}.yaml", "sha256": digest(case.chart_source.text)},
        "company": {"file": "company.yaml", "sha256": digest(case.company_source.text)},
        "clauses": _clauses(frame.chosen),
        "left_out": digest(json.dumps(frame.chosen.absent)),
        "laws": {law.law: digest(law.model_dump_json()) for law in _laws(case)},
        "photos": {name: digest(jpeg) for name, jpeg in photos.items()},
    }


def _clauses(chosen: Chosen) -> dict[str, str]:
    """Each clause of a paper with the digest of its title and of what it says there."""
    said: dict[str, list[str]] = {}
    for used in chosen.texts:
        wording = used.wording
        said.setdefault(used.clause, [used.title]).append(f"{used.way} {wording.version}: {wording.text}")
    return {clause: digest("\n".join(lines)) for clause, lines in said.items()}


def _laws(case: Case) -> tuple[Law, ...]:
    """The pages of the law that reach a sale."""
    return tuple({law.law: law for law in (*(right.law for right in case.rights), *case.pages)}.values())


def digest(content: str | bytes) -> str:
    """The SHA-256 of a text in UTF-8, or of bytes, in hexadecimal."""
    return sha256(content.encode() if isinstance(content, str) else content).hexdigest()


def mark_of(record: bytes) -> str:
    """The mark as it is printed: `a1b2 c3d4 e5f6`."""
    digits = digest(record)[:MARK]
    return " ".join(digits[place : place + 4] for place in range(0, MARK, 4))


def name_beside(job: str) -> str:
    """What the record is called inside a paper, where the job description is called `job`."""
    return NAME if job.lower() != NAME else f"record-of-{NAME}"


def attachments(frame: Frame, record: bytes, file: PurePath) -> tuple[Attachment, ...]:
    """The job description and the record, to travel inside the paper."""
    say = frame.say
    return (
        Attachment(file.name, frame.case.job_source.raw, "Source", say("attached.job"), YAML),
        Attachment(name_beside(file.name), record, "Data", say("attached.record"), JSON),
    )
