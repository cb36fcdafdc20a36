"""Every proof's own examples, and the library that ships: the one that passes has nothing of it, the one that
fails has it and nothing else that stops."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from scopegen.findings import Level
from scopegen.proofs import PROOFS, Proof, proofread
from tests.proofs.workspaces import shipped, stock_of

UNSHOWN = {"wording-too-long", "prescribed-wording-altered"}  # tried in test_wording.py and test_kept.py
SHOWN = pytest.mark.parametrize(
    "proof", [p for p in PROOFS if p.passes], ids=[proof.id for proof in PROOFS if proof.passes]
)
EACH = pytest.mark.parametrize("proof", PROOFS, ids=[proof.id for proof in PROOFS])


def test_the_library_that_ships_is_clean() -> None:
    """No finding of any level, and it was looked at."""
    stock = shipped()
    assert len(stock.library.held) > 120 and stock.laws
    assert proofread(stock) == ()


def test_a_sound_workspace_is_clean(tmp_path: Path) -> None:
    """What the examples are laid over is itself without fault."""
    stock = stock_of(tmp_path)
    assert stock.charts
    assert proofread(stock) == ()


@EACH
def test_a_proof_tells_what_it_asks_and_why(proof: Proof) -> None:
    """A proof without its reason and its two examples is not done."""
    assert re.fullmatch(r"[a-z]+(-[a-z]+)*", proof.id)
    assert proof.asks.endswith(".") and proof.why.endswith(".")
    assert bool(proof.passes) == bool(proof.fails) == (proof.id not in UNSHOWN)
    assert not proof.passes or proof.passes != proof.fails


@SHOWN
def test_passing_example_passes(proof: Proof, tmp_path: Path) -> None:
    """Nothing of the proof, and nothing that stops."""
    found = proofread(stock_of(tmp_path, proof.passes))
    assert [f for f in found if f.rule == proof.id or f.level is Level.STOPS] == []


@SHOWN
def test_failing_example_fails(proof: Proof, tmp_path: Path) -> None:
    """A finding of the proof at its level, and no other that stops."""
    found = proofread(stock_of(tmp_path, proof.fails))
    assert proof.id in {f.rule for f in found}
    assert {f.level for f in found if f.rule == proof.id} == {proof.level}
    assert {f.rule for f in found if f.level is Level.STOPS} - {proof.id} == set()
