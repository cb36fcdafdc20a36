"""A paper that comes back: what travels inside it, and whether that still leads to the same paper.

Nothing in a file is believed before it was looked at: its size, its names, the form of its record.
"""

from __future__ import annotations

import logging
import re
from collections.abc import Iterator
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path, PurePosixPath
from typing import Annotated, Any, Literal

from pydantic import AfterValidator, BaseModel, ConfigDict, StringConstraints, ValidationError

from scopegen.quantities.fields import Day
from scopegen.record import name_beside

MOST_BYTES = 200_000_000  # of a PDF: fifty times what an agreement with many photographs takes
MOST_FILES = 20  # inside one
MOST_CONTENT = 20_000_000  # bytes of one file inside; pypdf unpacks no more than 75 MB of anything
LONGEST_NAME = 200  # bytes: file systems take 255, and a name for the time of writing is longer
# Names that mean a device on Windows, whatever follows a dot; what a command takes for an option or
# a listing hides; and what a contractor's folder has besides jobs.
_OTHER = re.compile(
    r"(con|prn|aux|nul|conin\$|conout\$|(com|lpt)[0-9¹²³])\s*(\..*)?$"
    r"|[-.]|company\.ya?ml$|prices-.*\.ya?ml$|clauses(\.lock)?$",
    re.IGNORECASE,
)

# pypdf tells on its log what it mends; what matters of that is said in NotAPaper
logging.getLogger("pypdf").addHandler(logging.NullHandler())
logging.getLogger("pypdf").propagate = False


class NotAPaper(ValueError):
    """The file holds no paper that can be taken apart; the message says why, and what to do."""


def _printable(text: str) -> str:
    if not text.isprintable() or len(text) > 400:
        raise ValueError("not a name")
    return text


def _inside(file: str) -> str:
    path = PurePosixPath(_printable(file))
    if path.is_absolute() or ".." in path.parts or not path.parts:
        raise ValueError("not a file of a workspace")
    return file


Name = Annotated[str, AfterValidator(_printable)]
Digest = Annotated[str, StringConstraints(pattern=r"^[0-9a-f]{64}$")]


class _Part(BaseModel):
    """A part of a record, as it is read from JSON: no other kind of value is taken for the one expected."""

    model_config = ConfigDict(frozen=True, strict=True)


class Input(_Part):
    file: Annotated[str, AfterValidator(_inside)]
    sha256: Digest


class Inputs(_Part):
    job: Input
    chart: Input
    company: Input
    clauses: dict[Name, Digest]
    left_out: Digest
    laws: dict[Name, Digest]
    photos: dict[Name, Digest]


class Made(_Part):
    kind: Annotated[str, StringConstraints(pattern=r"^[a-z-]{1,40}$")]
    dated: Day | None
    signed_on: Day | None
    draft: bool


class Price(_Part):
    total: Annotated[str, StringConstraints(pattern=r"^[0-9]{1,15}\.[0-9]{2}$")]


class Record(_Part):
    """What is asked of a record; it holds more."""

    record: Literal[1]  # record.FORM
    scopegen: Annotated[str, StringConstraints(pattern=r"^[0-9A-Za-z.+-]{1,40}$")]
    paper: Made
    inputs: Inputs
    says: Digest
    price: Price


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper taken apart: the PDF's bytes, and the two files inside under names that are safe to write."""

    content: bytes
    job_name: str
    job: bytes
    record_name: str
    record_bytes: bytes
    record: Record


def read_paper(path: Path) -> Paper:
    """The paper in a file. Raises NotAPaper."""
    return paper_in(_bytes_of(path))


def paper_in(content: bytes) -> Paper:
    """The paper in the bytes of a PDF. Raises NotAPaper."""
    inside = _attachments(content)
    if "/Data" not in inside:
        raise NotAPaper(
            "no job description travels inside it: it is no paper of scopegen, or was printed anew"
        )
    _, data = inside["/Data"]
    record = read_record(data)
    job_name, job = inside.get("/Source", ("", b""))
    if job_name != PurePosixPath(record.inputs.job.file).name:
        raise NotAPaper("its record is there, but the job description that it names is not")
    name = job_name_of(record)
    return Paper(content, name, job, name_beside(name), data, record)


def job_name_of(record: Record) -> str:
    """The name under which the job description of a record is put beside it."""
    return safe_name(PurePosixPath(record.inputs.job.file).name, "job.yaml")


def _bytes_of(path: Path) -> bytes:
    try:
        folder, other = path.is_dir(), path.exists() and not path.is_file()
        with BytesIO() if folder or other else path.open("rb") as file:
            content = file.read(MOST_BYTES + 1)
    except FileNotFoundError:
        raise NotAPaper("there is no such file; check its name") from None
    except OSError as error:
        raise NotAPaper(f"it cannot be read: {error.strerror or error}") from None
    except ValueError:
        raise NotAPaper("no file can have such a name; check it") from None
    if folder or other:
        raise NotAPaper(f"it is {'a folder' if folder else 'no plain file'}; name a PDF file")
    if len(content) > MOST_BYTES:
        raise NotAPaper(f"it is larger than {MOST_BYTES // 1_000_000} MB")
    if b"%PDF-" not in content[:1024]:
        raise NotAPaper("it is no PDF; name the agreement as it was written")
    return content


def _attachments(content: bytes) -> dict[str, tuple[str, bytes]]:
    """Of the files inside, the first that is a paper's source and the first that is its data, each with the
    name that it has there."""
    from pypdf import PdfReader
    from pypdf.errors import LimitReachedError

    try:
        # not strict, it tries to mend what is damaged, for minutes and with gigabytes of memory
        reader = PdfReader(BytesIO(content), strict=True)
        if reader.is_encrypted:
            raise NotAPaper("it is locked with a password; take the lock off and try again")
        files: dict[str, tuple[str, bytes]] = {}
        for number, file in enumerate(reader.attachment_list):
            if number == MOST_FILES:
                raise NotAPaper(f"more than {MOST_FILES} files are inside it: it is no paper of scopegen")
            relationship = str(file.associated_file_relationship)
            if relationship in ("/Source", "/Data") and relationship not in files:
                files[relationship] = str(file.name), _content_of(file)
        return files
    except NotAPaper:
        raise
    except LimitReachedError:
        raise NotAPaper("something inside it unpacks to more than a paper can hold") from None
    except Exception as error:  # a damaged PDF can end its reader in any way
        raise NotAPaper(f"it is damaged or cut short ({type(error).__name__}); ask for it again") from None


def _content_of(file: Any) -> bytes:
    stream = file._embedded_file  # its content is unpacked by whoever asks for it
    filters = stream.get("/Filter", ())
    if "/DecodeParms" in stream or isinstance(filters, list) and len(filters) > 1:
        raise NotAPaper("a file inside it is packed as no paper of scopegen packs one")
    content = bytes(file.content)
    if len(content) > MOST_CONTENT:
        raise NotAPaper(f"a file of more than {MOST_CONTENT // 1_000_000} MB is inside it")
    return content


def safe_name(name: str, otherwise: str) -> str:
    """A name that stays in its folder on any system, is no option of a command and no other file of a
    contractor's folder; `otherwise` for what has none."""
    last = re.split(r"[/\\]", name)[-1]
    plain = last.isprintable() and not set(last) & set('<>:"|?*') and last == last.strip(" .")
    # of what is printable, each character can be written in UTF-8
    if not last or not plain or len(last.encode()) > LONGEST_NAME or _OTHER.match(last):
        return otherwise
    return last


def read_record(data: bytes) -> Record:
    """The record in a file. Raises NotAPaper where its form is not known."""
    try:
        return Record.model_validate_json(data)
    except ValidationError:
        raise NotAPaper("its record cannot be read: it was changed, or made by a later scopegen") from None


def differences(before: Record, now: Record) -> Iterator[tuple[str, str]]:
    """What is no longer as it was, as (kind, name): scopegen, job, chart, company, left_out, clause,
    law or photo."""
    if before.scopegen != now.scopegen:
        yield "scopegen", before.scopegen
    for key in ("job", "chart", "company"):
        was, has = getattr(before.inputs, key), getattr(now.inputs, key)
        if was.sha256 != has.sha256:
            yield key, has.file
    if before.inputs.left_out != now.inputs.left_out:
        yield "left_out", ""
    for kind, key in (("clause", "clauses"), ("law", "laws"), ("photo", "photos")):
        old, new = getattr(before.inputs, key), getattr(now.inputs, key)
        yield from ((kind, name) for name in sorted({*old, *new}) if old.get(name) != new.get(name))
