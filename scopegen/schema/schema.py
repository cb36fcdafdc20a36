"""JSON Schema (draft 2020-12) made from the models themselves, so that it says what the reader takes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import Any

from pydantic import BaseModel
from pydantic.json_schema import GenerateJsonSchema, JsonSchemaValue
from pydantic_core import core_schema

from scopegen.chart import Chart
from scopegen.clauses.clause import Clause
from scopegen.company import Company
from scopegen.job import Job
from scopegen.load import parse
from scopegen.quantities.fields import Entry

DIALECT = "https://json-schema.org/draft/2020-12/schema"
KINDS: dict[str, tuple[type[Entry], str]] = {
    "job": (Job, "A job description"),
    "chart": (Chart, "A season's price chart"),
    "company": (Company, "The contractor's particulars"),
    "clause": (Clause, "A clause of the library"),
}


class _FromModels(GenerateJsonSchema):
    """Takes an empty value only where it leaves a decision open; says what keys mean."""

    def model_schema(self, schema: core_schema.ModelSchema) -> JsonSchemaValue:
        """One model: its keys with what they mean, its own account in one sentence, no title."""
        shape = super().model_schema(schema)
        model = schema["cls"]
        kept = {}
        for key, value in shape.get("properties", {}).items():
            if key not in getattr(model, "MAY_BE_EMPTY", ()):
                value = _never_empty(value)
            kept[key] = {**value, **_said_of(model, key)}
        shape["properties"] = kept
        shape["description"] = _first_sentence(model.__doc__ or "")
        shape.pop("title", None)
        return shape

    def default_schema(self, schema: core_schema.WithDefaultSchema) -> JsonSchemaValue:
        """Only a word is shown as a default: other values are reckoned, in the program's own units."""
        shape = self.generate_inner(schema["schema"])
        word = schema.get("default")
        return {**shape, "default": word} if isinstance(word, str) else shape

    def field_title_should_be_set(self, schema: Any) -> bool:
        """A key is its own title."""
        return False


@cache
def meanings() -> dict[str, dict[str, str]]:
    """What keys mean, where their name and type do not say it: model, key, words."""
    text = files("scopegen").joinpath("schema", "keys.yaml").read_text(encoding="utf-8")
    data: Any = parse(text, "keys.yaml").data
    return data


def schema_of(kind: str) -> dict[str, Any]:
    """The schema of one kind of file: job, chart, company or clause. KeyError for another kind."""
    model, title = KINDS[kind]
    shape = model.model_json_schema(by_alias=True, schema_generator=_FromModels, mode="validation")
    return {"$schema": DIALECT, "title": title, **shape}


def _said_of(model: type[BaseModel], key: str) -> dict[str, str]:
    for each in _models_above(model):
        said = meanings().get(each.__name__, {}).get(key)
        if said:
            return {"description": said}
    return {}


def _models_above(model: type[BaseModel]) -> Iterator[type]:
    return (each for each in model.__mro__ if issubclass(each, BaseModel))


def _never_empty(shape: dict[str, Any]) -> dict[str, Any]:
    """A key's schema without the empty value: what is left out is left out with its key."""
    choices = [choice for choice in shape.get("anyOf", []) if choice != {"type": "null"}]
    if not choices:
        return shape
    rest = {key: value for key, value in shape.items() if key != "anyOf"}
    return {**choices[0], **rest} if len(choices) == 1 else {**rest, "anyOf": choices}


def _first_sentence(doc: str) -> str:
    text = " ".join(doc.split())
    sentence, stop, _ = text.partition(". ")
    return sentence + (stop.strip() or "")
