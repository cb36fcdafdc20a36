"""The examples with a word of any length in every text that a contractor types."""

from __future__ import annotations

import json
import shutil
from pathlib import Path
from typing import Any

from scopegen.load import load

EXAMPLES = Path(__file__).parents[2] / "example_scopes"
# keys whose text is the contractor's own: of a job, of company.yaml, and of a price chart
OF_A_JOB = ("job", "name", "property", "phone", "email", "bill_to", "po_number", "note", "because", "who")
OF_A_JOB += ("spot", "what", "shows", "choose_one")
OF_THE_COMPANY = ("name", "address", "phone", "email", "license", "insurance", "signs")
OF_A_CHART = ("name", "where")
APART = ("visits",)  # whose names other keys repeat


def lengthened(folder: Path, job: str, word: str) -> Path:
    """A workspace with an example, its company and its chart, where each such text ends with the word."""
    shutil.copytree(EXAMPLES, folder, ignore=shutil.ignore_patterns("pages", "*.lock"))
    path = folder / f"{job}.yaml"
    keys = {path: OF_A_JOB, folder / "company.yaml": OF_THE_COMPANY, folder / "prices-2027.yaml": OF_A_CHART}
    for file, typed in keys.items():
        data = _ending_with(load(file).data, typed, word)
        text = json.dumps(data, indent=1, ensure_ascii=False)  # JSON is YAML too (YAML 1.2, 1.3)
        assert text.count(word) > 5
        file.write_text(text, encoding="utf-8")
    return path


def _ending_with(data: Any, typed: tuple[str, ...], word: str, here: bool = False) -> Any:
    if isinstance(data, str):
        return f"{data} {word}" if here else data
    if isinstance(data, list):
        return [_ending_with(each, typed, word, here) for each in data]
    if not isinstance(data, dict):
        return data
    return {
        key: value if key in APART else _ending_with(value, typed, word, here or key in typed)
        for key, value in data.items()
    }
