"""Papers drawn once for all tests of this folder."""

from collections.abc import Callable
from functools import cache

import pytest

from scopegen.papers.document import Document
from scopegen.render import to_html, to_pdf

from .paper import Paper
from .sample import agreement

SAMPLES = {
    "3 beds, Letter": agreement(3),
    "10 beds, Letter": agreement(10),
    "40 beds, Letter": agreement(40),
    "10 beds, A4": agreement(10, "A4"),
    "10 beds, A4, draft": agreement(10, "A4", "DRAFT"),
}


@cache
def drawn(name: str) -> Paper:
    return Paper(to_pdf(SAMPLES[name]))


@pytest.fixture(scope="session", params=SAMPLES)
def sample(request: pytest.FixtureRequest) -> tuple[Document, Paper]:
    """Each sample document with its PDF."""
    return SAMPLES[request.param], drawn(request.param)


@pytest.fixture(scope="session")
def paper() -> Callable[[str], Paper]:
    """The PDF of a sample by name."""
    return drawn


@pytest.fixture(scope="session")
def page() -> str:
    """The draft as an HTML file."""
    return to_html(SAMPLES["10 beds, A4, draft"])
