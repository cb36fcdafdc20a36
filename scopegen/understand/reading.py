"""Reads the sections of one file by themselves, so that one slip hides nothing else."""

from __future__ import annotations

import difflib
from collections.abc import Iterable
from copy import copy
from functools import cache
from typing import Any

from pydantic import BaseModel, ValidationError, create_model

from scopegen.findings import Finding, Level
from scopegen.load import Path_, Source
from scopegen.quantities.fields import MOST_BEDS, too_many
from scopegen.understand.complaints import MOST_GUESSED, in_words, keys_at


@cache
def _lenient(model: type[BaseModel]) -> type[BaseModel]:
    """The same model with nothing required: what is missing is None, and found by `_Reading`."""
    fields: dict[str, Any] = {}
    for name, info in model.model_fields.items():
        if info.is_required():
            optional = copy(info)
            optional.default = None
            fields[name] = (info.annotation, optional)
    return create_model(model.__name__, __base__=model, **fields)


class Reading:
    """Reads the sections of one file and gathers what is wrong."""

    def __init__(self, source: Source) -> None:
        self.source = source
        self.findings: list[Finding] = []
        self.broken: set[Path_] = set()

    def take(
        self, model: type[Any], data: Any, path: Path_, absent: set[str] | frozenset[str] = frozenset()
    ) -> Any:
        """One section as its model; what is not sound is left out. `absent` keys are read elsewhere."""
        if not isinstance(data, dict):
            fix = "write its keys, each on a line of its own"
            self._say(path, "not-a-group", "a group of 'key: value' lines belongs here", fix)
            self.broken.add(path)
            return _lenient(model).model_validate({})
        for key in model.empty_keys(data):
            self.broken.add((*path, key))
            self._say(
                (*path, key),
                "value",
                f"'{key}' has no value",
                f"give '{key}' a value, or take it out",
                key=True,
            )
        data = {key: value for key, value in data.items() if (*path, key) not in self.broken}
        meant = self._meant(model, data, path)
        said = {key for *above, key in self.broken if tuple(above) == path}
        missing = self._missing(model, data, path, {*absent, *meant, *(str(key) for key in said)})
        self.broken |= {(*path, key) for key in missing}
        while True:
            try:
                return _lenient(model).model_validate(data)
            except ValidationError as error:
                self._complain(model, error, path)
                bad = {str(fault["loc"][0]) for fault in error.errors() if fault["loc"]}
                self.broken |= {(*path, key) for key in bad}
                data = {key: value for key, value in data.items() if bad and key not in bad}

    def _meant(self, model: type[BaseModel], data: dict[str, Any], path: Path_) -> set[str]:
        """The keys that a person meant with mistyped ones: said, but not soundly, and so not missing."""
        known = keys_at(model, ())
        unknown = [str(key) for key in data if key not in known][:MOST_GUESSED]
        near = (difflib.get_close_matches(key, known, n=1, cutoff=0.6) for key in unknown)
        meant = {key for found in near for key in found if key not in data}
        self.broken |= {(*path, key) for key in meant}
        return meant

    def many(self, model: type[Any], data: Any, key: str) -> tuple[Any, ...]:
        """A list of sections, each read by itself."""
        if data is None:
            return ()
        if not isinstance(data, list):
            self._say((key,), "not-a-list", f"a list belongs under '{key}'", "start each entry with '- '")
            self.broken.add((key,))
            return ()
        if len(data) > MOST_BEDS:
            self._say((key,), "too-many-entries", *too_many(len(data), MOST_BEDS, key), key=True)
            self.broken.add((key,))
            return ()
        return tuple(self.take(model, entry, (key, i)) for i, entry in enumerate(data))

    def named(self, model: type[Any], data: Any, key: str) -> dict[str, Any]:
        """Named sections, each all or nothing: half a price is no price."""
        if not isinstance(data or {}, dict):
            self._say(
                (key,),
                "not-a-group",
                f"named entries belong under '{key}'",
                "write each as 'name:' with its keys under it",
            )
            self.broken.add((key,))
            return {}
        sound = {}
        for name, entry in (data or {}).items():
            value = self.whole(model, entry, (key, name))
            if value is None:
                self.broken.add((key, name))
            else:
                sound[name] = value
        return sound

    def whole(self, model: type[Any], data: Any, path: Path_) -> Any:
        """A section that is sound as a whole; None, with findings, where it is not."""
        try:
            return model.model_validate(data)
        except ValidationError as error:
            self._complain(model, error, path)
            return None

    def _missing(
        self, model: type[BaseModel], data: dict[str, Any], path: Path_, absent: Iterable[str]
    ) -> list[str]:
        lacking = []
        for name, info in model.model_fields.items():
            key = info.alias or name
            if info.is_required() and key not in data and key not in absent:
                lacking.append(key)
                self._say(path, "missing-key", f"'{key}' is missing", f"add '{key}: …'", key=True)
        return lacking

    def _complain(self, model: type[BaseModel], error: ValidationError, path: Path_) -> None:
        unknown = 0
        for fault in error.errors(include_url=False):
            unknown += fault["type"] == "extra_forbidden"
            said = in_words(model, fault, guess=unknown <= MOST_GUESSED)
            self._say((*path, *said.path), said.rule, said.message, said.fix, key=said.key)

    def _say(self, path: Path_, rule: str, message: str, fix: str, *, key: bool = False) -> None:
        bed = None
        if len(path) > 1 and path[0] == "beds" and isinstance(self.source.data, dict):
            beds = self.source.data.get("beds")
            entry = (
                beds[path[1]]
                if isinstance(beds, list) and isinstance(path[1], int) and path[1] < len(beds)
                else None
            )
            bed = (
                entry.get("name") if isinstance(entry, dict) and isinstance(entry.get("name"), str) else None
            )
        self.findings.append(
            Finding(rule, Level.STOPS, message, fix, self.source.place(path, key=key), bed=bed)
        )
