"""Draws the pages that README.md shows anew, as a person who runs its commands gets them.

    python -m tests.pages

It needs poppler's `pdftoppm`. Look at each picture before it is committed.
"""

from __future__ import annotations

import subprocess
import sys
import tempfile
from pathlib import Path

EXAMPLES = Path(__file__).parents[1] / "example_scopes"
DOTS = "75"  # to the inch: a page about 640 pixels wide
# the picture's name: the job, what else `write agreement` is told, and words that stand first on the page
PAGES = {
    "heron-bend-1": ("heron-bend", (), ""),
    "garza-lane-1": ("garza-lane", (), ""),
    "heron-bend-drawings": ("heron-bend", (), "What the lines mean"),
    "quarry-lane-draft-1": ("quarry-lane", ("--draft",), ""),
    "cedar-row-1": ("cedar-row", (), ""),
    "tern-court-1": ("tern-court", (), ""),
}


def draw(folder: Path, name: str, job: str, options: tuple[str, ...], words: str) -> None:
    """One picture into example_scopes/pages."""
    pdf = folder / f"{name}.pdf"
    command = [sys.executable, "-m", "scopegen", "write", "agreement", str(EXAMPLES / f"{job}.yaml")]
    subprocess.run([*command, "-o", str(pdf), *options], check=True, stdout=subprocess.DEVNULL)
    page = page_with(pdf, words)
    picture = EXAMPLES / "pages" / name
    subprocess.run(
        ["pdftoppm", "-r", DOTS, "-png", "-singlefile", "-f", page, "-l", page, str(pdf), str(picture)],
        check=True,
    )
    print(f"Drew {picture.relative_to(EXAMPLES)}.png, page {page}")


def page_with(pdf: Path, words: str) -> str:
    """The number of the first page on which the words stand."""
    from pypdf import PdfReader

    for number, page in enumerate(PdfReader(pdf).pages, 1):
        if words in page.extract_text():
            return str(number)
    raise ValueError(f"nowhere in {pdf}: {words}")


if __name__ == "__main__":
    with tempfile.TemporaryDirectory() as folder:
        for name, (job, options, words) in PAGES.items():
            draw(Path(folder), name, job, options, words)
