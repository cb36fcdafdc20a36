"""What an addition to a PDF's end changes: fields and signatures, or what the pages show.

A PDF may be changed by an update that is appended to it and leaves the bytes before it as they were
(ISO 32000-1, 7.5.6). That is how forms are filled in and signed, and how a page can be exchanged for another.
"""

from __future__ import annotations

from collections.abc import Iterator
from hashlib import sha256
from io import BytesIO
from typing import Any

# What filling in and signing change of the catalog (ISO 32000-1, 7.7.2 and 12.8; ETSI EN 319 142-1, 5.4.2).
_OF_FORMS = frozenset({"/AcroForm", "/DSS", "/Extensions", "/Perms", "/Metadata"})
# What a field's own entry may change in: what was filled in, how it looks, and who signed.
_OF_FIELDS = frozenset({"/V", "/AS", "/AP", "/M", "/Lock", "/SV", "/F", "/Ff", "/MK", "/DA"})
_BACK = frozenset({"/Parent", "/P", "/Length"})  # ways back, and what follows from the rest
_ANNOTATIONS = "/Annots"
MOST_OBJECTS = 200_000


def shows_otherwise(before: bytes, after: bytes) -> bool:
    """Whether the pages show anything else than before, or something lies over them that is no field.

    Raises ValueError where the file cannot be read as a PDF any more.
    """
    from pypdf import PdfReader

    try:
        old, new = (PdfReader(BytesIO(content), strict=True) for content in (before, after))
        return _told(old) != _told(new)
    except Exception as error:  # a damaged addition can end the reader in any way
        raise ValueError(str(error)) from None


def _told(reader: Any) -> list[str]:
    """A digest of the catalog but for its forms, and one of each page with its fields' places."""
    digests = _Digests()
    root = reader.root_object
    told = [digests.of({key: root.raw_get(key) for key in root if key not in _OF_FORMS})]
    for page in reader.pages:
        shown = {key: page.raw_get(key) for key in page if key not in ("/Type", _ANNOTATIONS)}
        told.append(digests.of(shown))
        told += sorted(_annotations(page, digests))
    return told


def _annotations(page: Any, digests: _Digests) -> Iterator[str]:
    """What lies on a page: fields by what does not change when they are filled in, all else as it is. A new
    place to sign that shows nothing is none of it."""
    for entry in page.get(_ANNOTATIONS) or ():
        annotation = entry.get_object()
        if annotation.get("/Subtype") != "/Widget":
            yield digests.of(annotation)
        elif annotation.get("/FT") != "/Sig" or _is_seen(annotation):
            yield digests.of(annotation)


def _is_seen(annotation: Any) -> bool:
    left, bottom, right, top = (float(number) for number in annotation.get("/Rect", (0, 0, 0, 0)))
    return left != right and bottom != top


class _Digests:
    """Digests of a PDF's objects by what they say, wherever in the file they stand."""

    def __init__(self) -> None:
        self.known: dict[tuple[int, int], str] = {}
        self.open: dict[tuple[int, int], int] = {}
        self.count = 0

    def of(self, value: Any) -> str:
        """What a value says, all that it refers to included; a way back to what is being read is a step
        number."""
        from pypdf.generic import ArrayObject, DictionaryObject, IndirectObject, StreamObject

        self.count += 1
        if self.count > MOST_OBJECTS:
            raise ValueError("there is too much in it")
        if isinstance(value, IndirectObject):
            return self._of_reference(value)
        if isinstance(value, (dict, DictionaryObject)):
            if isinstance(value, DictionaryObject) and value.get("/Type") == "/Page":
                return "page"  # each is told by itself
            raw = value.raw_get if isinstance(value, DictionaryObject) else value.__getitem__
            passed_over = _BACK | _OF_FIELDS if value.get("/Subtype") == "/Widget" else _BACK
            said = [f"{key} {self.of(raw(key))}" for key in sorted(value) if key not in passed_over]
            data = bytes(value._data) if isinstance(value, StreamObject) else b""
            return _digest("{" + ";".join(said) + "}", data)
        if isinstance(value, (list, ArrayObject)):
            return _digest("[" + ";".join(self.of(each) for each in list.__iter__(value)) + "]")
        return _digest(f"{type(value).__name__} {value!r}")

    def _of_reference(self, reference: Any) -> str:
        key = (reference.idnum, reference.generation)
        if key in self.open:
            return f"back {len(self.open) - self.open[key]}"
        if key not in self.known:
            self.open[key] = len(self.open)
            said = self.of(reference.get_object())
            del self.open[key]
            self.known[key] = said
        return self.known[key]


def _digest(text: str, data: bytes = b"") -> str:
    return sha256(text.encode("utf-8", "backslashreplace") + b"\0" + data).hexdigest()
