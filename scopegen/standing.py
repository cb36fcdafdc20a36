"""The paper that a file holds already: of which kind and job it is, and whether it is as it was written.

Of a paper that nobody touched, its bytes alone tell that: a PDF ends with the table of all its objects, and
an addition to its end brings a table of its own (ISO 32000-1, 7.5.6 and 7.5.8). Only what another program
wrote anew is read as a PDF.
"""

from __future__ import annotations

import html
import re
import zlib
from dataclasses import dataclass

from scopegen.render.seal import seal_holds
from scopegen.reopen import MOST_CONTENT, NotAPaper, paper_in, read_record

# How pydyf writes a file's first lines, its last ones, its table, and what stands in it for itself.
_FIRST = b"%PDF-1.7\n%\xf0\x9f\x96\xa4\n"
_LAST = re.compile(rb"\nendstream\nendobj\nstartxref\n(\d{1,10})\n%%EOF\n\Z")
_LONGEST_LAST = 100  # bytes
_TABLE = re.compile(
    rb"\d{1,9} 0 obj\n<</Type /XRef/Index \[0 \d{1,9}\]/W \[[\d ]{1,20}\]/Size \d{1,9}/Root \d{1,9} 0 R"
    rb"/Info \d{1,9} 0 R/ID \[\([0-9a-f]{32}\) \([0-9a-f]{32}\)\]/Filter /FlateDecode"
    rb"/Length (\d{1,9})>>\nstream\n"
)
_RECORD = re.compile(
    rb"<</Type /EmbeddedFile/Subtype /application#2fjson/Params <</CheckSum <[0-9a-f]{32}>/Size \d{1,9}"
    rb"/CreationDate \(D:\d{14}Z\)/ModDate \(D:\d{14}Z\)>>/Filter /FlateDecode/Length (\d{1,9})>>\nstream\n"
)
_ABOUT = re.compile(rb"<</Type /Metadata/Subtype /XML/Filter /FlateDecode/Length (\d{1,9})>>\nstream\n")
# What render/templates/document.html says of the paper, and what becomes of that in a PDF.
_TOOL = re.compile(rb"<xmp:CreatorTool>scopegen ([a-z]{1,30})</xmp:CreatorTool>")
_HEAD = re.compile(
    rb'<!doctype html>\n<html lang="[^"]*" dir="[^"]*">\n<head>\n<meta charset="utf-8">\n'
    rb'<meta name="generator" content="scopegen ([a-z]{1,30})">\n'
    rb'(?:<meta name="dcterms.source" content="([^"]*)">\n)?<title>'
)


@dataclass(frozen=True, slots=True)
class Standing:
    """A paper of this program. `kind` is the document's; `job` is its job description, as it lies below the
    folder of company.yaml, or empty; `as_written` where not a byte was added or changed since."""

    kind: str
    job: str
    as_written: bool


def may_be_a_paper(start: bytes) -> bool:
    """Whether a file that begins like this is worth reading whole."""
    return start.startswith((b"%PDF-", b"<!doctype html>\n<html "))


def standing(content: bytes) -> Standing | None:
    """The paper in a file's bytes; None where it is none of this program, or cannot be told to be one."""
    if content.startswith(b"%PDF-"):
        return _in_pdf(content)
    head = _HEAD.match(content)
    if head is None:
        return None
    job = html.unescape((head[2] or b"").decode("utf-8", "replace"))
    return Standing(head[1].decode(), job, seal_holds(content))


def _in_pdf(content: bytes) -> Standing | None:
    """By the record inside, which every agreement has; else by the program that it names as its maker."""
    as_written = content.startswith(_FIRST) and _ends_as_written(content)
    try:
        record = _stream(content, _RECORD)
        if record is not None:
            told = read_record(record)
        elif tool := _TOOL.search(_stream(content, _ABOUT) or b""):
            return Standing(tool[1].decode(), "", as_written)
        else:
            told, as_written = paper_in(content).record, False
    except NotAPaper:
        return None
    return Standing(told.paper.kind, told.inputs.job.file, as_written)


def _ends_as_written(content: bytes) -> bool:
    """Whether a file ends with the one table of all its objects."""
    last = _LAST.search(content, max(0, len(content) - _LONGEST_LAST))
    table = _TABLE.match(content, int(last[1])) if last else None
    return bool(last and table and table.end() + int(table[1]) == last.start())


def _stream(content: bytes, head: re.Pattern[bytes]) -> bytes | None:
    """The first stream with such a head, unpacked; None where it is missing, damaged or too large."""
    found = head.search(content)
    if found is None:
        return None
    unpacking = zlib.decompressobj()
    try:
        data = unpacking.decompress(content[found.end() : found.end() + int(found[1])], MOST_CONTENT)
    except zlib.error:
        return None
    return data if unpacking.eof else None
