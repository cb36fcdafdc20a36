"""Lays a rule's piece of YAML over a sound job, its price chart and its company, and checks the result."""

from __future__ import annotations

import io
import re
from copy import deepcopy
from functools import cache
from pathlib import Path
from typing import Any

from ruamel.yaml import YAML

from scopegen.build import open_case
from scopegen.case import Case
from scopegen.check import Checked, check
from scopegen.job import DECISIONS, SITE_DECISIONS
from scopegen.library_folder import library_folder

BASE = Path(__file__).parent / "base"
LEFT_OUT = "(left out)"
# What replaces the base's whole value: a decision is overridden as a whole, not key by key.
WHOLE = {*DECISIONS, *SITE_DECISIONS, "shape", "found", "against", "start", "payments", "price"}
FILES = {"company": "company.yaml", "chart": "prices-2027.yaml", "job": "job.yaml"}


@cache
def _base(name: str) -> Any:
    return _yaml().load((BASE / name).read_text(encoding="utf-8"))


def _yaml() -> YAML:
    """Plain text values: nothing that YAML would guess on the way through."""
    yaml = YAML(typ="safe", pure=True)
    yaml.default_flow_style = False
    yaml.width = 10_000
    yaml.sort_base_mapping_type_on_output = False
    return yaml


def _text_of(value: Any) -> Any:
    """Values as the text that a person writes."""
    if isinstance(value, dict):
        return {key: _text_of(inner) for key, inner in value.items()}
    if isinstance(value, list):
        return [_text_of(inner) for inner in value]
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, float):
        return f"{value:.2f}" if round(value, 2) == value else str(value)
    return None if value is None else str(value)


def _merge(base: Any, over: Any) -> Any:
    merged = dict(base)
    for key, said in over.items():
        if said == LEFT_OUT:
            merged.pop(key, None)
        elif key == "beds" and isinstance(said, list):
            merged["beds"] = [_merge(deepcopy(base["beds"][0]), bed) for bed in said]
        elif key not in WHOLE and isinstance(said, dict) and isinstance(merged.get(key), dict):
            merged[key] = _merge(merged[key], said)
        else:
            merged[key] = said
    return merged


def written(fragment: str) -> dict[str, str]:
    """The three files as text, with the fragment laid over them."""
    over = _yaml().load(fragment) or {}
    unknown = set(over) - {"job", "chart", "company", "clauses", "laws", "printed"}
    assert not unknown, unknown
    texts = {}
    for name, base in (("company", "company.yaml"), ("chart", "prices.yaml"), ("job", "job.yaml")):
        stream = io.StringIO()
        _yaml().dump(_text_of(_merge(_base(base), over.get(name, {}))), stream)
        texts[FILES[name]] = stream.getvalue()
    texts |= {f"clauses/{path}": text for path, text in over.get("clauses", {}).items()}
    return texts


def opened(folder: Path, fragment: str = "") -> Case:
    """The case of the sound job with the fragment laid over it."""
    for name, text in written(fragment).items():
        path = folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    if ".jpg" in fragment:
        (folder / "front-edge.jpg").write_bytes(photograph())
        (folder / "notes.jpg").write_text("no picture", encoding="utf-8")
    without = (_yaml().load(fragment or "{}") or {}).get("laws", {}).get("without")
    return open_case(folder / "job.yaml", library=_library_without(folder, without) if without else None)


@cache
def photograph() -> bytes:
    """A small picture as a camera would have it."""
    from PIL import Image

    content = io.BytesIO()
    Image.new("RGB", (80, 60), "darkgreen").save(content, "JPEG")
    return content.getvalue()


def _library_without(folder: Path, language: str) -> Path:
    """The library that ships, its legal rules without their wording in a language."""
    library = folder / "library"
    library.mkdir()
    for inside in library_folder().iterdir():
        if inside.name != "law":
            (library / inside.name).symlink_to(inside)
    (library / "law").mkdir()
    taken = 0
    for page in (library_folder() / "law").iterdir():
        text = page.read_text(encoding="utf-8")
        text, count = re.subn(rf"((?:statement|form|text):\n +){language}:", r"\1another:", text)
        taken += count
        (library / "law" / page.name).write_text(text, encoding="utf-8")
    assert taken > 2
    return library


def checked(folder: Path, fragment: str = "") -> Checked:
    """All findings of it."""
    return check(opened(folder, fragment))
