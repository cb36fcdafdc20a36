"""A document as a PDF file, drawn by WeasyPrint from our own markup and nothing else."""

from __future__ import annotations

import ctypes.util
import logging
import os
import sys
import threading
import warnings
from codecs import BOM_UTF16_BE
from collections.abc import Iterator
from contextlib import contextmanager, redirect_stdout
from datetime import UTC, datetime, time
from functools import cache
from hashlib import sha256
from importlib import resources
from io import StringIO
from typing import Any

from scopegen.papers.document import Attachment, Document, Photo, Photos, walk

from .draft_word import draft_drawing
from .faces import FACES, FIELDS
from .finish import finish
from .markup import markup, photo_address
from .printed import refuse_undrawable
from .refusals import RenderingUnavailable
from .styles import DRAFT_ADDRESS, document_rules, sheet

LIBRARIES = "libpango-1.0-0 libpangoft2-1.0-0 libharfbuzz-subset0"  # Debian's names

# WeasyPrint's fonts and its log belong to the process: two papers at once would mix them.
_one_at_a_time = threading.Lock()


def pdf_file(document: Document) -> bytes:
    """The document as PDF/A-3a and PDF/UA-1. Raises UndrawableText or RenderingUnavailable first."""
    refuse_undrawable(document)
    with _one_at_a_time, _no_fonts_of_the_machine():
        weasyprint = _weasyprint()
        fonts, look = _look()
        own = {photo_address(photo): (photo.jpeg, "image/jpeg") for photo in photographs(document)}
        rules = document_rules(document)
        if document.draft:
            drawing = draft_drawing(document.draft, document.page_size)
            own[DRAFT_ADDRESS] = (drawing.encode(), "image/svg+xml")
            rules += f'\n@page {{ background-image: url("{DRAFT_ADDRESS}") }}'
        own |= {file_address(file): (file.content, file.media_type) for file in document.attachments}
        fetcher = closed_fetcher(own)
        with _faults_stop():
            page = weasyprint.HTML(string=markup(document), url_fetcher=fetcher, media_type="print")
            extra = weasyprint.CSS(string=rules, url_fetcher=fetcher, font_config=fonts)
            return page.write_pdf(
                pdf_variant="pdf/a-3a",
                pdf_tags=True,
                pdf_forms=True,
                font_config=fonts,
                stylesheets=[look, extra],
                attachments=[_attached(document, file, fetcher) for file in in_order(document.attachments)],
                finisher=finish,
            )


def photographs(document: Document) -> Iterator[Photo]:
    """Every photograph of a document."""
    for _, block in walk(document):
        if isinstance(block, Photos):
            yield from block.entries


def file_address(file: Attachment) -> str:
    """What the PDF asks for; nothing but our own fetcher knows it."""
    return f"scopegen:file-{sha256(file.content).hexdigest()[:16]}"


def in_order(files: tuple[Attachment, ...]) -> list[Attachment]:
    """The files as the tree of their names wants them: ISO 32000-1, 7.9.6 (by the bytes of the names)."""
    return sorted(files, key=lambda file: name_bytes(file.name))


def name_bytes(name: str) -> bytes:
    """A name as it stands in a PDF: ISO 32000-1, 7.9.2.2."""
    return name.encode() if name.isascii() else BOM_UTF16_BE + name.encode("utf-16-be")


def _attached(document: Document, file: Attachment, fetcher: Any) -> Any:
    """A file as WeasyPrint takes it, dated like the paper: no clock has a part in its bytes. The fetcher
    gives its media type: by its name, each machine would make another one of it."""
    day = datetime.combine(document.dated, time(), UTC)
    return _weasyprint().Attachment(
        url=file_address(file),
        url_fetcher=fetcher,
        name=file.name,
        description=file.description,
        created=day,
        modified=day,
        relationship=file.relationship,
    )


@cache
def _weasyprint() -> Any:
    """The module, or RenderingUnavailable where the libraries that it loads are missing."""
    try:
        # it prints a page of its own where a library is missing
        with warnings.catch_warnings(), redirect_stdout(StringIO()):
            # an empty font configuration is what we want
            warnings.filterwarnings("ignore", "No fonts configured", UserWarning)
            return _imported()
    except OSError as missing:
        raise RenderingUnavailable(
            "the libraries that draw a PDF are missing or broken "
            f"({str(missing).splitlines()[0].rstrip('.')}): install them with "
            f"`sudo apt-get install --no-install-recommends {LIBRARIES}`."
        ) from missing


def _imported() -> Any:
    """WeasyPrint with the libraries that it loads.

    It tries several names for each, and cffi has ldconfig and a compiler look for those that are not found
    at once. That takes a fifth of a second, and on Linux the plain names, which need no looking for, come
    last. So nothing is looked for at first, and everything where that was not enough.
    """
    try:
        with _plain_names_alone():
            import weasyprint
    except OSError:  # not there by these names; what is missing altogether, the second import tells
        import weasyprint
    return weasyprint


@contextmanager
def _plain_names_alone() -> Iterator[None]:
    """Has no library looked for, where its plain name is known to be enough."""
    looking = ctypes.util.find_library
    if sys.platform == "linux":
        ctypes.util.find_library = lambda name: None
    try:
        yield
    finally:
        ctypes.util.find_library = looking


@cache
def _look() -> tuple[Any, Any]:
    """The font configuration and the parsed style sheet that all papers share."""
    from weasyprint.text.fonts import FontConfiguration

    fonts = FontConfiguration()
    faces = (*FACES, FIELDS)
    files = {face.address: (face.content(), "font/ttf") for face in faces}
    rules = "".join(face.rule(face.address) for face in faces) + sheet("look") + sheet("paper")
    with _faults_stop():
        look = _weasyprint().CSS(string=rules, url_fetcher=closed_fetcher(files), font_config=fonts)
    return fonts, look


def closed_fetcher(files: dict[str, tuple[bytes, str]]) -> Any:
    """A fetcher of these files (address: content, media type); any other address stops the drawing."""
    from weasyprint.urls import FatalURLFetchingError, URLFetcher, URLFetcherResponse

    class Closed(URLFetcher):
        def fetch(self, url: str, headers: dict[str, str] | None = None) -> URLFetcherResponse:
            if url not in files:
                raise FatalURLFetchingError(f"a paper may not fetch {url}")
            content, media_type = files[url]
            return URLFetcherResponse(url, content, {"Content-Type": media_type})

    return Closed(allowed_protocols=set(), allow_redirects=False, fail_on_errors=True)


class _Faults(logging.Handler):
    """Whatever WeasyPrint complains of while a paper is drawn."""

    def __init__(self) -> None:
        super().__init__(logging.WARNING)
        self.messages: list[str] = []

    def emit(self, record: logging.LogRecord) -> None:
        self.messages.append(record.getMessage())


@contextmanager
def _faults_stop() -> Iterator[None]:
    """Raise RuntimeError where WeasyPrint only logs: a paper is drawn as meant, or not at all."""
    log, faults = logging.getLogger("weasyprint"), _Faults()
    log.addHandler(faults)
    try:
        yield
    finally:
        log.removeHandler(faults)
    if faults.messages:
        raise RuntimeError("the page was not drawn as meant: " + "; ".join(faults.messages))


@contextmanager
def _no_fonts_of_the_machine() -> Iterator[None]:
    """Let fontconfig see none of the machine's fonts and settings, so that a paper is the same everywhere."""
    settings = [name for name in os.environ if name.startswith(("FONTCONFIG_", "FC_"))]
    before = {name: os.environ.pop(name) for name in settings}
    with resources.as_file(resources.files(__package__) / "no-fonts.conf") as empty:
        os.environ["FONTCONFIG_FILE"] = str(empty)
        try:
            yield
        finally:
            del os.environ["FONTCONFIG_FILE"]
            os.environ.update(before)
