"""The whole message of every proof in its failing example: what is wrong, what to do, and where."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.proofs import PROOFS, Proof, proofread
from tests.messages import Told, read_table, write_table
from tests.proofs.workspaces import stock_of

FILE = Path(__file__).with_name("messages.yaml")
EXPECTED = read_table(FILE)
SHOWN = [proof for proof in PROOFS if proof.fails]


def told(proof: Proof, folder: Path) -> Told:
    """The proof's findings in its failing example, with the line that each points at."""
    return [
        {
            "message": finding.message,
            "fix": finding.fix,
            "points_at": finding.place.text[finding.place.column - 1 :].strip()[:60],
        }
        for finding in proofread(stock_of(folder, proof.fails))
        if finding.rule == proof.id
    ]


def test_every_proof_has_its_message_written_down() -> None:
    """No proof is without an expected message, and none is expected that is gone."""
    assert sorted(EXPECTED) == sorted(proof.id for proof in SHOWN)


@pytest.mark.parametrize("proof", SHOWN, ids=[proof.id for proof in SHOWN])
def test_whole_message(proof: Proof, tmp_path: Path) -> None:
    """Message, what to do and place are as written down."""
    assert told(proof, tmp_path) == EXPECTED[proof.id]


if __name__ == "__main__":
    write_table(FILE, SHOWN, told)
