"""Jobs of any number of beds, each sound: the beds of an example over and over."""

from __future__ import annotations

import shutil
from pathlib import Path

from tests.jobs import EXAMPLES, example


def with_beds(number: int) -> str:
    """A job description with so many beds."""
    text = example()
    head, rest = text.split("beds:\n", 1)
    beds, tail = rest.split("\nsite:\n", 1)
    pieces = [f"  - name: {piece}" for piece in beds.split("  - name: ")[1:]]
    repeated = []
    for index in range(number):
        piece = pieces[index % len(pieces)].rstrip() + "\n"
        first, others = piece.split("\n", 1)
        repeated.append(f"{first} {index + 1}\n{others}")
    return f"{head}beds:\n{''.join(repeated)}\nsite:\n{tail}"


def workspace(folder: Path) -> Path:
    """A folder with the example's company and price chart."""
    folder.mkdir(parents=True, exist_ok=True)
    for name in ("company.yaml", "prices-2027.yaml"):
        shutil.copy(EXAMPLES / name, folder / name)
    return folder
