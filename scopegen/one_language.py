"""The price chart, the company's particulars and the job in the one language of a paper.

From here on every text of theirs is plain. Where one is not there in the paper's language, another stands in
for it and is named, so that it can be asked for where the paper prints it.
"""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass
from typing import Any, TypeVar

from pydantic import BaseModel

from scopegen.chart import Chart, DumpFee
from scopegen.findings import Finding, Level
from scopegen.job import Job
from scopegen.job.job import AT_SIGNING, ON_COMPLETION
from scopegen.load import Path_, Source
from scopegen.quantities.in_languages import InLanguages
from scopegen.words import Lexicon

M = TypeVar("M", bound=BaseModel)
_QUOTED = frozenset(",:#{}[]\"'")  # where one of these stands inside braces, YAML wants quotes
Choose = Callable[[InLanguages, Path_], str]


@dataclass(frozen=True, slots=True)
class Missing:
    """A text that is not there in the paper's language: its path in its file, and what stands in for it."""

    path: Path_
    stands_in: str
    house: str

    @property
    def mark(self) -> str:
        """What nobody writes, for each path another: in signs for private use (Unicode, 23.5)."""
        return f"\ue000{'/'.join(map(str, self.path))}\ue001"

    def as_finding(self, source: Source, language: str) -> Finding:
        """That a paper prints it, and which language is to be added in its file."""
        *entry, key = [step for step in self.path if isinstance(step, str)]
        lacks = f"'{entry[-1]}' has no '{key}'" if entry else f"'{key}' is not there"
        message = f"{lacks} in '{language}', the language of this paper"
        known = (
            json.dumps(self.stands_in, ensure_ascii=False) if _QUOTED & {*self.stands_in} else self.stands_in
        )
        fix = f"write '{key}: {{{self.house}: {known}, {language}: …}}'"
        return Finding("not-in-language", Level.STOPS, message, fix, source.place(self.path))


def in_one_language(
    model: M, language: str, house: str, *, marked: bool = False
) -> tuple[M, tuple[Missing, ...]]:
    """The chart or the company in a language, and what is not there in it; where it is to be `marked`,
    its mark stands there. `house` is the language of every text that does not say its own."""
    missing: list[Missing] = []

    def choose(text: InLanguages, path: Path_) -> str:
        said = text.said_in(language, house)
        if said is not None:
            return said
        missing.append(Missing(path, text.said_in(house, house) or str(text), house))
        return missing[-1].mark if marked else missing[-1].stands_in

    told: M = _told(model, (), choose)
    return told, tuple(missing)


def _told(value: Any, path: Path_, choose: Choose) -> Any:
    """A value with each of its texts chosen."""
    if isinstance(value, InLanguages):
        return choose(value, path)
    if isinstance(value, BaseModel):
        fields = type(value).model_fields.items()
        told = {
            name: _told(getattr(value, name), (*path, info.alias or name), choose) for name, info in fields
        }
        changed = {name: each for name, each in told.items() if each is not getattr(value, name)}
        return value.model_copy(update=changed) if changed else value
    if isinstance(value, dict):
        return {key: _told(each, (*path, key), choose) for key, each in value.items()}
    if isinstance(value, tuple):
        return tuple(_told(each, (*path, number), choose) for number, each in enumerate(value))
    return value


def chart_with_words(chart: Chart, words: Lexicon) -> Chart:
    """The chart with the language's word for a dump that has no name."""

    def named(fee: DumpFee) -> DumpFee:
        where = fee.where or words.say("agreement.price_section.the_dump")
        return fee.model_copy(update={"where": where})

    work = {
        key: each.model_copy(update={"dump": {stream: named(fee) for stream, fee in each.dump.items()}})
        for key, each in chart.work.items()
    }
    return chart.model_copy(update={"work": work})


def job_with_words(job: Job, words: Lexicon) -> Job:
    """The job with the language's words for what is paid at the signing and on completion."""
    known = {
        AT_SIGNING: words.say("agreement.payments.at_signing"),
        ON_COMPLETION: words.say("agreement.payments.on_completion"),
    }
    payments = tuple(
        payment.model_copy(update={"when": known.get(payment.when, payment.when)})
        for payment in job.payments or ()
    )
    return job.model_copy(update={"payments": payments}) if job.payments else job
