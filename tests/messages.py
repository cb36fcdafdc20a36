"""The tables in which the whole messages of rules and proofs are written down."""

from __future__ import annotations

import tempfile
from collections.abc import Callable, Iterable
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

Told = list[dict[str, Any]]


def read_table(file: Path) -> dict[str, Told]:
    """What is expected of each rule, by its id."""
    return YAML(typ="safe", pure=True).load(file.read_text(encoding="utf-8"))


def write_table(file: Path, rules: Iterable[Any], told: Callable[[Any, Path], Told]) -> None:
    """Writes the table anew; read the difference before it is committed."""
    table = {}
    for rule in rules:
        with tempfile.TemporaryDirectory() as folder:
            table[rule.id] = told(rule, Path(folder))
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style, yaml.width, yaml.allow_unicode = False, 10_000, True
    yaml.sort_base_mapping_type_on_output = False
    with file.open("w", encoding="utf-8") as opened:
        yaml.dump(table, opened)
