"""From plain text data to the models, and from a model's complaints to findings.

A model is all or nothing; a job description is not. Each section is read by itself, and what is
not sound in it is left out and named as broken, so that the rules can still ask about the rest.
"""

from __future__ import annotations

import difflib
import re
import typing
from collections.abc import Iterable
from copy import copy
from dataclasses import dataclass
from functools import cache
from typing import Any, Generic, TypeVar

from pydantic import BaseModel, ValidationError, create_model

from scopegen.chart import Chart, Material, Work
from scopegen.company import Company
from scopegen.findings import Finding, Level
from scopegen.job import Bed, EveryBed, Job
from scopegen.job.decisions import Site
from scopegen.load import Path_, Source
from scopegen.quantities.units import shortened

M = TypeVar("M")


@dataclass(frozen=True, slots=True)
class Understood(Generic[M]):
    """A file as a model, the paths of what was said but is not sound, and what is wrong with it."""

    value: M
    broken: frozenset[Path_] = frozenset()
    findings: tuple[Finding, ...] = ()


def understand_job(source: Source) -> Understood[Job]:
    """A job description, section by section."""
    data = dict(_mapping(source.data))
    sections: dict[str, Any] = {key: data.pop(key) for key in ("beds", "every_bed", "site") if key in data}
    reading = _Reading(source)
    head = reading.take(Job, data, (), absent=set(sections) | {"beds"})
    beds = reading.many(Bed, sections.get("beds"), "beds")
    every_bed = reading.take(EveryBed, sections.get("every_bed") or {}, ("every_bed",))
    site = reading.take(Site, sections.get("site") or {}, ("site",))
    fields = {
        name: getattr(head, name) for name in Job.model_fields if name not in ("beds", "every_bed", "site")
    }
    job = Job.model_construct(
        _fields_set=head.model_fields_set | set(sections), **fields, beds=beds, every_bed=every_bed, site=site
    )
    return Understood(job, frozenset(reading.broken), tuple(reading.findings))


def understand_chart(source: Source) -> Understood[Chart]:
    """A price chart; a material or kind of work that is not sound is left out, the others stay."""
    data = dict(_mapping(source.data))
    named = {key: data.pop(key, None) for key in ("materials", "work")}
    reading = _Reading(source)
    head = reading.take(Chart, data, ())
    materials = reading.named(Material, named["materials"], "materials")
    work = reading.named(Work, named["work"], "work")
    fields = {name: getattr(head, name) for name in Chart.model_fields if name not in ("materials", "work")}
    chart = Chart.model_construct(_fields_set=head.model_fields_set, **fields, materials=materials, work=work)
    return Understood(chart, frozenset(reading.broken), tuple(reading.findings))


def understand_company(source: Source) -> Understood[Company]:
    """The contractor's particulars."""
    reading = _Reading(source)
    company = reading.take(Company, _mapping(source.data), ())
    return Understood(company, frozenset(reading.broken), tuple(reading.findings))


def understand_whole(model: type[M], source: Source) -> tuple[M | None, tuple[Finding, ...]]:
    """A file that is sound as a whole or not at all, such as a clause: its model, or what is wrong."""
    reading = _Reading(source)
    value = reading.whole(model, source.data, ())
    return value, tuple(reading.findings)


def nearest(word: str, known: Iterable[str]) -> str:
    """', did you mean …?' where a known word is near, else nothing."""
    near = difflib.get_close_matches(word, list(known), n=1, cutoff=0.6)
    return f"did you mean '{near[0]}'?" if near else ""


def _mapping(data: Any) -> dict[str, Any]:
    return data if isinstance(data, dict) else {}


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


class _Reading:
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
                for fault in error.errors(include_url=False):
                    self._translate(model, fault, path)
                bad = {str(fault["loc"][0]) for fault in error.errors() if fault["loc"]}
                self.broken |= {(*path, key) for key in bad}
                data = {key: value for key, value in data.items() if bad and key not in bad}

    def _meant(self, model: type[BaseModel], data: dict[str, Any], path: Path_) -> set[str]:
        """The keys that a person meant with mistyped ones: said, but not soundly, and so not missing."""
        known = _keys_at(model, ())
        near = (
            difflib.get_close_matches(str(key), known, n=1, cutoff=0.6) for key in data if key not in known
        )
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
            for fault in error.errors(include_url=False):
                self._translate(model, fault, path)
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

    def _translate(self, model: type[BaseModel], fault: Any, path: Path_) -> None:
        loc: Path_ = tuple(fault["loc"])
        context, kind, said = fault.get("ctx", {}), fault["type"], fault.get("input")
        last = str(loc[-1]) if loc else ""
        where = (*path, *loc)
        if kind == "said":
            self._say(where, context["rule"], context["message"], context["fix"])
        elif kind == "extra_forbidden":
            known = _keys_at(model, loc[:-1])
            near = nearest(last, known)
            self._say(
                where,
                "unknown-key",
                f"'{last}' is not a key that belongs here",
                near or f"known here: {', '.join(known)}",
                key=True,
            )
        elif kind == "missing" and isinstance(loc[-1], int):
            self._say(
                where[:-1],
                "value",
                f"entry {loc[-1] + 1} of this list is missing",
                "write it in brackets, like [3 ft, 4 ft, 5 ft]",
            )
        elif kind == "missing":
            self._say(where[:-1], "missing-key", f"'{last}' is missing", f"add '{last}: …'", key=True)
        elif kind == "literal_error":
            choices = _choices(context.get("expected", ""))
            near = nearest(str(said), choices)
            shown = shortened(said) if isinstance(said, str) else "this"
            self._say(
                where,
                "unknown-word",
                f"'{shown}' is not one of the words that are known here",
                " ".join(filter(None, (near, f"write one of: {', '.join(choices)}"))),
            )
        elif kind in ("too_short", "too_long", "tuple_type", "list_type"):
            count = context.get("min_length") or context.get("max_length")
            self._say(
                where,
                "value",
                f"a list{f' of {count}' if count else ''} belongs here",
                "write it in brackets, like [3 ft, 4 ft, 5 ft]",
            )
        elif kind in ("model_type", "dict_type", "model_attributes_type"):
            self._say(
                where,
                "value",
                "a group of 'key: value' pairs belongs here",
                f"write its keys: {', '.join(_keys_at(model, loc)) or 'name: value'}",
            )
        else:
            self._say(
                where,
                "value",
                f"this value does not fit here: {fault['msg'].lower()}",
                "look at the example in README.md",
            )

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


def _choices(expected: str) -> list[str]:
    return [found[0] or found[1] for found in re.findall(r"'([^']*)'|\"([^\"]*)\"", expected)]


def _keys_at(model: Any, loc: Path_) -> list[str]:
    """The keys that a model knows at a place inside it."""
    here: Any = model
    for step in loc:
        fields = getattr(here, "model_fields", None)
        if fields is None:
            break
        info = fields.get(step) or next((f for f in fields.values() if f.alias == step), None)
        if info is None:
            continue
        here = _model_in(info.annotation)
    fields = getattr(here, "model_fields", {})
    return [
        info.alias or name.rstrip("_")
        for name, info in fields.items()
        if name not in ("choose_one", "not_over", "visit")
    ]


def _model_in(annotation: Any) -> Any:
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    for inner in typing.get_args(annotation):
        found = _model_in(inner)
        if found is not None:
            return found
    return None
