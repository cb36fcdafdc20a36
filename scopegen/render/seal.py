"""The last line of a paper in HTML: a digest of all before it, so that a later change of the file shows."""

from __future__ import annotations

from hashlib import sha256

_OPENS, _CLOSES = b"\n<!-- sha256 ", b" -->\n"
_LENGTH = len(_OPENS) + 2 * sha256().digest_size + len(_CLOSES)


def sealed(page: str) -> str:
    """A page with its seal."""
    return page + _seal(page.encode()).decode()


def seal_holds(content: bytes) -> bool:
    """Whether a file is, byte for byte, a page that was sealed."""
    return content[-_LENGTH:] == _seal(content[:-_LENGTH])


def _seal(content: bytes) -> bytes:
    return _OPENS + sha256(content).hexdigest().encode() + _CLOSES
