"""The text of one file: read once, at most so much of it, and never from what is no file."""

from __future__ import annotations

import os
import stat
from pathlib import Path

from scopegen.findings import Place
from scopegen.load.source import Unreadable, unreadable

MOST_BYTES = 1_000_000
_BYTE_ORDER_MARKS = (b"\xff\xfe", b"\xfe\xff", b"\x00\x00\xfe\xff")  # of UTF-16 and UTF-32
_LOOKED_AT = 1000  # bytes at the start that tell UTF-16 without a mark


def read_text(path: Path, name: str) -> str:
    """The text of a file. Raises Unreadable where it cannot be read or is no text."""
    return text_of(read_bytes(path, name), name)


def leads_out(path: Path, inside: Path) -> bool:
    """Whether a link, of the file or of a folder on the way to it, leads out of a folder."""
    return not Path(os.path.realpath(path)).is_relative_to(os.path.realpath(inside))


def text_of(raw: bytes, name: str) -> str:
    """The text that a file's bytes are. Raises Unreadable where they are too many, or no UTF-8."""
    start = Place(name, 1, 1)
    if len(raw) > MOST_BYTES:
        message = f"{name} is larger than {MOST_BYTES:,} bytes"
        raise unreadable("too-large", message, "split it: one job description a job", start)
    if _is_wide(raw):
        message = f"{name} is text in UTF-16 or UTF-32, and only UTF-8 is read"
        raise unreadable("not-text", message, "save it as UTF-8: an editor asks when you save as", start)
    try:
        return raw.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        fix = "save it as plain text in UTF-8; if it is a picture or a PDF, name another file"
        place = _place_of_byte(raw, error.start, name)
        raise unreadable("not-text", f"{name} is not UTF-8 text", fix, place) from None


def _without_waiting(path: str, flags: int) -> int:
    """Opens a file; a pipe with nobody at its other end would otherwise keep us waiting for ever."""
    return os.open(path, flags | getattr(os, "O_NONBLOCK", 0))


def read_bytes(path: Path, name: str, most: int = MOST_BYTES, inside: Path | None = None) -> bytes:
    """The file's bytes, at the most one more than it may have. Raises Unreadable, also where a link leads
    out of the folder `inside`: what lies there is not the contractor's own, and is not shown."""
    start = Place(name, 1, 1)
    try:
        if inside and leads_out(path, inside):
            message = f"{name} is a link that leads out of the folder of company.yaml"
            raise unreadable("unreadable-file", message, "put the file itself in its place", start)
        if path.is_dir():
            raise _folder(name, start)
        with open(path, "rb", opener=_without_waiting) as file:
            if not stat.S_ISREG(os.fstat(file.fileno()).st_mode):
                message = f"{name} is a pipe or a device, not a file"
                raise unreadable("unreadable-file", message, "name a file on a disk", start)
            return file.read(most + 1)
    except FileNotFoundError:
        fix = "check the name and the folder you are in"
        raise unreadable("unreadable-file", f"there is no file {name}", fix, start) from None
    except IsADirectoryError:
        raise _folder(name, start) from None
    except (OSError, ValueError) as error:
        message = f"{name} cannot be read: {getattr(error, 'strerror', None) or error}"
        fix = "check the file and your right to read it"
        raise unreadable("unreadable-file", message, fix, start) from None


def _folder(name: str, start: Place) -> Unreadable:
    fix = "name a file in it, such as its job description"
    return unreadable("unreadable-file", f"{name} is a folder, not a file", fix, start)


def _is_wide(raw: bytes) -> bool:
    """Whether the bytes are UTF-16 or UTF-32: by their mark, or since every other byte is zero."""
    if raw.startswith(_BYTE_ORDER_MARKS):
        return True
    start = raw[:_LOOKED_AT]
    half = len(start) // 2
    return half > 1 and any(2 * start[first::2].count(0) > half for first in (0, 1))


def _place_of_byte(raw: bytes, position: int, name: str) -> Place:
    """Line and column of a byte that is no UTF-8, counted in characters, a byte order mark left out."""
    read = raw.removeprefix(b"\xef\xbb\xbf")
    before = read[:position].decode("utf-8")
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    text = read.decode("utf-8", "replace").split("\n")[line - 1]
    return Place(name, line, column, "".join(each if each.isprintable() else "?" for each in text))
