"""Which version of each clause a paper is worded by, in one small sentence."""

from __future__ import annotations

from collections import Counter

from scopegen.clauses import Wording
from scopegen.papers.document import Paragraph
from scopegen.papers.frame import Frame


def versions_line(frame: Frame) -> Paragraph:
    """The version that most of the wording is from, and by its title each clause with another."""
    texts = frame.chosen.texts
    usual = Counter(used.wording.version for used in texts).most_common(1)[0][0]
    named: dict[str, None] = {}
    for used in texts:
        if used.wording.version != usual:
            named[f"{used.title} ({_version(frame, used.wording)})"] = None
    of_usual = next(used.wording for used in texts if used.wording.version == usual)
    key = "agreement.sign.versions_but" if named else "agreement.sign.versions"
    return Paragraph(frame.say(key, version=_version(frame, of_usual), others="; ".join(named)), "small")


def _version(frame: Frame, wording: Wording) -> str:
    if wording.since is None:
        return str(wording.season)
    return frame.say("agreement.sign.version_of", season=wording.season, day=frame.words.day(wording.since))
