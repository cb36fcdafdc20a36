"""The whole message of every proof in its failing example: what is wrong, what to do, and where."""

from __future__ import annotations

import tempfile
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from scopegen.proofs import PROOFS, Proof, proofread
from tests.proofs.workspaces import stock_of

FILE = Path(__file__).with_name("messages.yaml")
EXPECTED: dict[str, list[dict[str, Any]]] = YAML(typ="safe", pure=True).load(FILE.read_text(encoding="utf-8"))
SHOWN = [proof for proof in PROOFS if proof.fails]


def told(proof: Proof, folder: Path) -> list[dict[str, Any]]:
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


def write_down() -> None:
    """Writes the table anew; read the difference before it is committed."""
    table = {}
    for proof in SHOWN:
        with tempfile.TemporaryDirectory() as folder:
            table[proof.id] = told(proof, Path(folder))
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style, yaml.width, yaml.allow_unicode = False, 10_000, True
    yaml.sort_base_mapping_type_on_output = False
    with FILE.open("w", encoding="utf-8") as file:
        yaml.dump(table, file)


if __name__ == "__main__":
    write_down()
