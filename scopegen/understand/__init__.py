"""From plain text data to the models, and from a model's complaints to findings.

A model is all or nothing; a job description is not. Each section is read by itself, and what is
not sound in it is left out and named as broken, so that the rules can still ask about the rest.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from scopegen.chart import Chart, Material, Work
from scopegen.company import Company
from scopegen.findings import Finding
from scopegen.job import Bed, EveryBed, Job
from scopegen.job.decisions import Site
from scopegen.load import Path_, Source
from scopegen.understand.complaints import nearest, nearest_clause
from scopegen.understand.reading import Reading

__all__ = [
    "Understood",
    "nearest",
    "nearest_clause",
    "understand_chart",
    "understand_company",
    "understand_job",
    "understand_whole",
]

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
    reading = Reading(source)
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
    reading = Reading(source)
    head = reading.take(Chart, data, ())
    materials = reading.named(Material, named["materials"], "materials")
    work = reading.named(Work, named["work"], "work")
    fields = {name: getattr(head, name) for name in Chart.model_fields if name not in ("materials", "work")}
    chart = Chart.model_construct(_fields_set=head.model_fields_set, **fields, materials=materials, work=work)
    return Understood(chart, frozenset(reading.broken), tuple(reading.findings))


def understand_company(source: Source) -> Understood[Company]:
    """The contractor's particulars."""
    reading = Reading(source)
    company = reading.take(Company, _mapping(source.data), ())
    return Understood(company, frozenset(reading.broken), tuple(reading.findings))


def understand_whole(model: type[M], source: Source) -> tuple[M | None, tuple[Finding, ...]]:
    """A file that is sound as a whole or not at all, such as a clause: its model, or what is wrong."""
    reading = Reading(source)
    value = reading.whole(model, source.data, ())
    return value, tuple(reading.findings)


def _mapping(data: Any) -> dict[str, Any]:
    return data if isinstance(data, dict) else {}
