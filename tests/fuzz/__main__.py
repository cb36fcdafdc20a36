"""`python -m tests.fuzz`: runs by number, so that each can be done again."""

from __future__ import annotations

import argparse
import sys
import tempfile
from pathlib import Path

import tests.fuzz
from tests.fuzz.runs import fuzz


def main() -> None:
    ask = argparse.ArgumentParser(prog="python -m tests.fuzz", description=tests.fuzz.__doc__.splitlines()[0])
    ask.add_argument("--runs", type=int, default=20_000)
    ask.add_argument("--seed", type=int, default=1)
    ask.add_argument("--first", type=int, default=0, help="the number of the first run")
    ask.add_argument("--keep", type=Path, default=Path(tempfile.gettempdir()) / "scopegen-fuzz")
    asked = ask.parse_args()
    ended, failures = fuzz(asked.runs, asked.seed, asked.keep, asked.first)
    print(ended)
    for said in failures.values():
        print(f"\n{said}")
    sys.exit(1 if failures else 0)


if __name__ == "__main__":
    main()
