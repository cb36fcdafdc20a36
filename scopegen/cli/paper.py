"""One paper made from one job, as a value: its bytes, or why there are none. Nothing is printed here."""

from __future__ import annotations

import os
from dataclasses import dataclass, replace
from datetime import date
from pathlib import Path
from typing import TYPE_CHECKING

from scopegen.cli.ending import Exit
from scopegen.cli.opening import refusal
from scopegen.cli.process import was_interrupted
from scopegen.cli.taken import AGREEMENT, Stamp, refuse_what_came, refuse_what_is_there
from scopegen.cli.targets import NoTarget, Order
from scopegen.cli.voice import visible

if TYPE_CHECKING:
    from scopegen.case import Case
    from scopegen.check import Checked
    from scopegen.kept import Kept
    from scopegen.papers.document import Document
    from scopegen.printed import Printed


@dataclass(frozen=True, slots=True)
class Made:
    """What became of an order. `said` tells all of a refusal and `reason` its first line; `duties` are what a
    right to cancel asks at the signing; `rests_on` are the files that the job names, as absolute paths;
    `printed` is the wording on it, but for a draft; `stood` is what stood at its place and may go."""

    order: Order
    code: Exit
    data: bytes | None = None
    said: str = ""
    reason: str = ""
    duties: tuple[str, ...] = ()
    rests_on: frozenset[Path] = frozenset()
    printed: tuple[Printed, ...] = ()
    warning: str = ""
    stood: Stamp = None


class _Refused(Exception):
    def __init__(self, code: Exit, said: str, reason: str | None = None) -> None:
        self.code, self.said, self.reason = code, said, reason or said


def make(order: Order, kept: Kept) -> Made:
    """The paper of an order, or why it cannot be made; what stands at its place is looked at first."""
    try:
        stood = refuse_what_is_there(order.path, "with -o", AGREEMENT, order.job)
    except NoTarget as error:
        return Made(order, Exit.CANNOT_WRITE, said=str(error), reason=str(error))
    return replace(_made(order, kept), stood=stood)


def _made(order: Order, kept: Kept) -> Made:
    from scopegen.build import open_case
    from scopegen.load import Unreadable
    from scopegen.stock import printed_by
    from scopegen.workspace import place_in_workspace

    rests_on: frozenset[Path] = frozenset()
    try:
        case = open_case(order.job, order.wanted.dated, kept=kept)
        rests_on = _rests_on(case, order.job)
        _refuse_a_photo(order, rests_on)
        data = _drawn(_document(case, order), order.kind)
    except Unreadable as error:
        return Made(order, Exit.NOT_UNDERSTOOD, said=error.finding.as_text(), reason=_first(error.finding))
    except _Refused as refused:
        return Made(order, refused.code, None, refused.said, refused.reason, rests_on=rests_on)
    if order.wanted.draft:
        return Made(order, Exit.FINE, data, rests_on=rests_on)
    printed = printed_by(case, place_in_workspace(order.job).as_posix())
    return Made(order, Exit.FINE, data, duties=_duties(case), rests_on=rests_on, printed=printed)


def make_whatever_happens(order: Order, kept: Kept) -> Made:
    """The same; a fault of the program is a reason too, so that the other jobs of a run go on."""
    try:
        return make(order, kept)
    except Exception as fault:
        if was_interrupted():
            raise KeyboardInterrupt from None
        said = f"scopegen itself failed: {type(fault).__name__}: {fault}"
        return Made(order, Exit.CANNOT_WRITE, said=said, reason=said.splitlines()[0])


def put(made: Made, *, record: bool = True) -> Made:
    """Writes the bytes of a paper to its place, and keeps its wording on record; what became of that. What
    changed at its place while it was made is looked at once more."""
    from scopegen.render.save import save

    if made.data is None:
        return made
    try:
        refuse_what_came(made.order.path, made.stood, "with -o", AGREEMENT, made.order.job)
        save(made.order.path, made.data)
    except NoTarget as error:
        said = str(error)
        return replace(made, code=Exit.CANNOT_WRITE, data=None, said=said, reason=said)
    except OSError as error:
        path = visible(made.order.path)
        said = f"{path} cannot be written: {error.strerror or error}. Name another file with -o."
        return replace(made, code=Exit.CANNOT_WRITE, data=None, said=said, reason=said)
    return replace(made, data=None, printed=(), warning=_kept_on_record(made) if record else "")


def _kept_on_record(made: Made) -> str:
    """Adds the wording of a paper to what was put on paper before; what stands in the way."""
    from scopegen.load import Unreadable
    from scopegen.printed import as_lines, with_more
    from scopegen.render.save import save
    from scopegen.stock import printed_in
    from scopegen.workspace import workspace_of

    space = workspace_of(made.order.job)
    if space is None or not made.printed:
        return ""
    try:
        known = printed_in(space)
        after = with_more(known, made.printed)
        if after != known:
            save(space.lock, as_lines(after).encode())
    except Unreadable as error:
        return f"The paper is written, but its wording is not on record.\n{error.finding.as_text()}"
    except OSError as error:
        lock = visible(space.lock)
        return f"The paper is written, but its wording is not on record: {lock}: {error.strerror or error}."
    return ""


def _document(case: Case, order: Order) -> Document:
    from scopegen.check import check
    from scopegen.papers.frame import NotWorkedOut, frame_of
    from scopegen.record import recorded_agreement
    from scopegen.workspace import place_in_workspace

    wanted, job = order.wanted, visible(order.job)
    checked = check(case)
    if checked.stops and not wanted.draft:
        raise _stopped(checked, f"the agreement of {job} is not written:")
    _refuse_signing_outside(case, wanted.signed_on)
    try:
        frame = frame_of(case, case.words, draft=wanted.draft, signed_on=wanted.signed_on)
    except NotWorkedOut:
        raise _stopped(checked, f"not even a draft of {job} can be written yet:") from None
    return recorded_agreement(frame, place_in_workspace(order.job))[0]


def _stopped(checked: Checked, why: str) -> _Refused:
    from scopegen.findings import Level

    stopping = [finding for finding in checked.findings if finding.level is Level.STOPS]
    more = f", and {len(stopping) - 1} more" if len(stopping) > 1 else ""
    return _Refused(Exit.STOPPED, refusal(checked, why), f"{_first(stopping[0])}{more}" if stopping else why)


def _first(finding: object) -> str:
    return finding.as_text().splitlines()[0]  # type: ignore[attr-defined]


def _refuse_signing_outside(case: Case, signed_on: date | None) -> None:
    from scopegen.words.phrases import last_offer_day

    if signed_on is None or case.job.dated is None:
        return
    last = last_offer_day(case.job)
    if signed_on < case.job.dated:
        said = f"--signed-on {signed_on} is before the paper's date, {case.job.dated}."
        raise _Refused(Exit.STOPPED, said)
    if last is not None and signed_on > last:
        said = f"--signed-on {signed_on} is after the offer's last day, {last}."
        raise _Refused(Exit.STOPPED, f"{said} Date the paper anew with --dated.")


def _drawn(document: Document, kind: str) -> bytes:
    from scopegen.render import RenderingUnavailable, UndrawableText, to_html, to_pdf

    try:
        return to_pdf(document) if kind == "pdf" else to_html(document).encode()
    except (RenderingUnavailable, UndrawableText) as error:
        raise _Refused(Exit.CANNOT_WRITE, str(error)) from None


def _duties(case: Case) -> tuple[str, ...]:
    """What a right to cancel asks of the contractor at the signing, a text a right, in the paper's words."""
    words, language = case.words, case.job.language
    if words is None:
        return ()
    told = [(words.say("duties.head", citation=right.citation), right.also) for right in case.rights]
    with_right = [right.law for right in case.rights]
    told += [
        (
            words.say(
                "duties.state",
                jurisdiction=page.jurisdiction.get(language, page.state),
                citation=page.looks_to,
            ),
            page.also.get(language, ()),
        )
        for page in case.pages
        if page not in with_right
    ]
    return tuple(
        "\n".join([head, *(f"- {duty}" for duty in duties), words.say("duties.foot")])
        for head, duties in told
        if duties
    )


def _refuse_a_photo(order: Order, photos: frozenset[Path]) -> None:
    if os.path.realpath(order.path) in map(os.path.realpath, photos):
        said = f"{visible(order.path)} is the place of a photo of the job. Name another file with -o."
        raise _Refused(Exit.CANNOT_WRITE, said)


def _rests_on(case: Case, job: Path) -> frozenset[Path]:
    names = {photo.file for bed in case.job.beds for photo in bed.photos}
    return frozenset(Path(os.path.abspath(job.parent / name)) for name in names)
