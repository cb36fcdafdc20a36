"""The checkout's two environments, and the stamp that says that one is as its lock wants it."""

import hashlib
import sys
from dataclasses import dataclass
from pathlib import Path

CHECKOUT = Path(__file__).resolve().parents[2]
STAMP = "scopegen-setup.stamp"


@dataclass(frozen=True)
class Environment:
    """A folder in the checkout, and the locks whose packages are in it."""

    folder: Path
    locks: tuple[Path, ...]


def program_environment(checkout: Path) -> Environment:
    return Environment(checkout / ".venv", (checkout / "requirements.lock",))


def testing_environment(checkout: Path) -> Environment:
    """Apart from the program's own, so that the program is seen to run without the tests' packages."""
    locks = (checkout / "requirements.lock", checkout / "tests" / "requirements.lock")
    return Environment(checkout / ".venv-test", locks)


def digest(environment: Environment, checkout: Path, python: str) -> str:
    """Changes with whatever the environment was made from: locks, packaging, Python, place."""
    made_from = hashlib.sha256()
    for text in (str(environment.folder), python, sys.version):
        made_from.update(text.encode() + b"\0")
    for file in (*environment.locks, checkout / "pyproject.toml", checkout / "scopegen" / "__init__.py"):
        made_from.update(file.read_bytes() + b"\0")
    return made_from.hexdigest()


def is_ready(environment: Environment, wanted: str) -> bool:
    """Whether the environment was finished for the digest `wanted`, and its Python is still there."""
    stamp = environment.folder / STAMP
    python = environment.folder / "bin" / "python"
    return stamp.is_file() and stamp.read_text() == wanted and python.exists()


def mark_ready(environment: Environment, wanted: str) -> None:
    (environment.folder / STAMP).write_text(wanted)
