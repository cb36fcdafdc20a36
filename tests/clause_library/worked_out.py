"""Works out the wording of a small job without a folder: a fragment laid over a sound job, as the tests of
the rules lay it, with the clause library read once."""

from __future__ import annotations

import json
from collections.abc import Mapping
from functools import cache
from typing import Any

from scopegen.answers import every_answer
from scopegen.clauses import Chosen, Library, choose, read_library
from scopegen.clauses.facts import facts_of
from scopegen.library_folder import library_folder
from scopegen.load import parse
from scopegen.measure import measure
from scopegen.price import price
from scopegen.understand import understand_chart, understand_company, understand_job
from scopegen.words import lexicon
from tests.rules.laid_over import written


@cache
def library() -> Library:
    """The clauses that ship."""
    return read_library(library_folder())


def worked_out(over: dict[str, Any]) -> tuple[Chosen, Mapping[str, frozenset[str]]]:
    """The chosen wording and the conditions that hold. `over` has the keys job, chart, company."""
    texts = written(json.dumps(over))
    job = understand_job(parse(texts["job.yaml"], "job.yaml"))
    chart = understand_chart(parse(texts["prices-2027.yaml"], "prices-2027.yaml"))
    company = understand_company(parse(texts["company.yaml"], "company.yaml"))
    assert not (*job.findings, *chart.findings, *company.findings)
    answers = every_answer(job.value, job.broken)
    measured = measure(job.value, chart.value, answers)
    priced = price(job.value, chart.value, measured, answers)
    told = (job.value, chart.value, company.value, answers)
    in_force = library().in_force(job.value.season, job.value.dated)
    chosen = choose(in_force, *told, measured, priced, lexicon("en"))
    return chosen, facts_of(*told, measured, priced).words
