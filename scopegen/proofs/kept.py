"""What must stay as it is: wording that was put on paper, and wording that the law prescribes."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cache
from importlib.resources import files
from typing import Any

from scopegen.comparing import Run, differences
from scopegen.findings import Level, Place
from scopegen.load import parse
from scopegen.printed import digest, first_of_each
from scopegen.proofs.proof import Proof, Stock, texts_of
from scopegen.rules.rule import Fault

_SHOWN = 200  # characters of a difference in a finding
_PILES = (
    "{printed: {terms.our-piles: %s}, clauses: {terms/our-piles.yaml: '{clause: terms.our-piles, title:"
    " {en: Piles,"
    " es: Montones}, wording: [{season: 2027, en: {says: %s}, es: {says: Los montones quedan.}}]}'}}"
)


def _altered(stock: Stock) -> Iterator[Fault]:
    first = first_of_each(stock.printed)
    for text in texts_of(stock.library):
        known = first.get((text.clause.clause, text.version.name, text.whose, text.language, text.way))
        if known and digest(text.words) != known.sha256:
            changed = shown(differences(known.text, text.words))
            yield Fault(
                f"the text for '{text.way}' of version {text.version.name} was altered since it was put on"
                f" paper"
                f" for {known.job} on {known.since}: {changed}",
                "put the old words back, and write the new ones as a version of a later season or day;"
                " where no"
                " such paper was signed, take its line out of clauses.lock",
                text.place,
            )


def shown(runs: tuple[Run, ...]) -> str:
    """A difference on one line: what went out and what came in, with a few words around."""
    pieces = []
    for run in runs:
        words = run.text.split()
        if run.change == "same":
            pieces.append(run.text if len(words) <= 6 else f"{' '.join(words[:3])} … {' '.join(words[-3:])}")
        else:
            pieces.append(f"[{run.change}: {run.text}]")
    line = " ".join(pieces)
    return line if len(line) <= _SHOWN else f"{line[:_SHOWN]} …"


@cache
def prescribed() -> dict[str, dict[str, str]]:
    """The digests of wording that the law prescribes: file of `law/` -> place in it -> SHA-256."""
    data = parse((files("scopegen.proofs") / "prescribed.yaml").read_text(encoding="utf-8"), "").data
    assert isinstance(data, dict)
    return data


def texts_at(data: Any, place: str) -> str | None:
    """The text at a place such as `form.en.text`, a list's lines joined; None where there is none."""
    for key in place.split("."):
        if not isinstance(data, dict) or key not in data:
            return None
        data = data[key]
    return " ".join(data) if isinstance(data, list) else data if isinstance(data, str) else None


def _law_altered(stock: Stock) -> Iterator[Fault]:
    for name, places in prescribed().items():
        source = stock.laws.get(name)
        if source is None:
            fix = "install scopegen again"
            yield Fault(f"the legal page {name} is missing", fix, Place(f"clause_library/law/{name}", 1, 1))
            continue
        for place, known in places.items():
            text = texts_at(source.data, place)
            if text is None or digest(text) != known:
                message = f"'{place}' is not worded as the law prescribes it"
                yield Fault(message, "take the file back as it ships", source.place(tuple(place.split("."))))


PROOFS = (
    Proof(
        "altered-since-printed", Level.STOPS,
        "Wording that was put on paper stays as it was signed.",
        "What a customer signed two seasons ago must still be read as it was signed. A change is a version"
        " of its"
        " own, so that both can be read.",
        _PILES % ("Piles stay.", "Piles stay."), _PILES % ("Piles stay.", "Piles go."),
        _altered,
    ),
    Proof(
        "prescribed-wording-altered", Level.STOPS,
        "A notice that the law prescribes is worded as it prescribes it.",
        "A notice with a word changed may count as none, and then the time to cancel does not end.",
        "", "",
        _law_altered,
        "16 CFR 429.1(a) and (b); Maryland Commercial Law 14-302.1; New York General Business Law 771(1)(d)",
    ),
)  # fmt: skip
