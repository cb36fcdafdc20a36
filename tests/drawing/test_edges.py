"""What is said of a bed's edge, in lines and in words: never more than was decided."""

from __future__ import annotations

import pytest

from scopegen.drawing import Drawing, draw_beds
from scopegen.drawing.legend import KINDS, legend
from scopegen.render.svg import LINES
from scopegen.words import languages, lexicon
from tests.drawing.test_beds import REST, WORDS
from tests.test_any_job import job_of
from tests.test_properties import opened

EDGES = {"worked", "partly", "offered", "others", "open", "mixed", "left"}
WORK = "{decided: included, work: recut-edge}"


def edged(edging: str, against: str = "{walk: front}", language: str = "en") -> Drawing:
    """A bed of 20 by 6 ft with this said of its edge; with nothing said where that is empty."""
    rest = REST.replace("outline: 400 ft\n    ", "").replace(f"edging: {WORK}", f"edging: {edging}")
    rest = rest if edging else rest.replace("edging: \n    ", "")
    shape = f"shape: {{rectangle: {{length: 20 ft, width: 6 ft}}}}\n    against: {against}"
    with opened(job_of([f"{shape}\n    {rest}"])) as case:
        (each,) = draw_beds(case, lexicon(language))
    assert each.drawing is not None
    return each.drawing


def kinds(drawing: Drawing) -> set[str]:
    return {stroke.kind for stroke in drawing.strokes} & EDGES


CUSTOMER = "{decided: customer, by: start, if_not_done: come back}"
ROAD_CREW = "{decided: elsewhere, who: the town's road crew}"
WAYS = [
    (WORK, "worked", "We work on all of its open edge, 32 ft."),
    ("{decided: add-on, work: recut-edge}", "offered", "Work on its open edge, 32 ft, is an add-on."),
    (CUSTOMER, "others", "You or others work on its open edge, 32 ft."),
    (ROAD_CREW, "others", "You or others work on its open edge, 32 ft."),
    ("{decided: open}", "open", "What happens to its open edge, 32 ft, is not decided yet."),
    ("", "open", "What happens to its open edge, 32 ft, is not decided yet."),
    ("{decided: excluded}", "left", "Its open edge, 32 ft, stays as it is."),
    ("{decided: not-needed, because: it is stone}", "left", "Its open edge, 32 ft, stays as it is."),
    (
        f"[{{decided: included, work: recut-edge, along: 10 ft}}, {ROAD_CREW[:-1]}, along: rest}}]",
        "partly",
        "Its open edge is 32 ft long. The same is not done all along it. We work on some of it. You or others"
        " work on some of it.",
    ),
    (
        "[{decided: add-on, work: recut-edge, along: 10 ft}, {decided: excluded, along: rest}]",
        "mixed",
        "Its open edge is 32 ft long. The same is not done all along it. Work on some of it is an add-on."
        " Some of it stays as it is.",
    ),
    (
        "{decided: included, work: recut-edge, along: 10 ft}",
        "partly",
        "Its open edge is 32 ft long. The same is not done all along it. We work on some of it. What happens"
        " to some of it is not decided yet.",
    ),
]


@pytest.mark.parametrize(("edging", "kind", "told"), WAYS)
def test_edge_is_drawn_and_told_as_it_was_decided(edging: str, kind: str, told: str) -> None:
    """Only an edge that nobody touches stays as it is."""
    drawing = edged(edging)
    assert kinds(drawing) == {kind}
    assert drawing.told.endswith(f"Against the walk: the lower side, 20 ft. {told}")


def test_edge_of_others_and_an_undecided_one_in_spanish() -> None:
    """The same in the other language that ships."""
    assert (
        "Usted u otras personas trabajan en su borde abierto, 32 ft." in edged(CUSTOMER, language="es").told
    )
    assert "Aún no se ha decidido" in edged("", language="es").told


@pytest.mark.parametrize(
    ("edging", "kind", "told"),
    [
        (WORK, "partly", "We work on all of its open edge, 42 ft."),
        (ROAD_CREW, "mixed", "You or others work on its open edge, 42 ft."),
        ("{decided: excluded}", "left", "Its open edge, 42 ft, stays as it is."),
    ],
)
def test_length_against_something_keeps_the_outline_from_being_all_worked(
    edging: str, kind: str, told: str
) -> None:
    """10 of 52 ft lie against a building, who knows where: no line says that all of the outline is cut."""
    drawing = edged(edging, "{building: 10 ft}")
    assert kinds(drawing) == {kind}
    assert drawing.told.endswith(f"Against the building: 10 ft. Where that is was not measured. {told}")
    assert kinds(edged(edging, "{building: 52 ft}")) == set()  # nothing of it is open


@pytest.mark.parametrize("language", languages())
def test_every_line_of_an_edge_is_told_apart_and_has_its_meaning(language: str) -> None:
    """No two lines of the legend look alike without color, none means the same; the hatching beside what lies
    against something tells it from an edge that is left."""
    words = lexicon(language)
    meanings = [words.say(f"exhibits.line.{kind}") for kind in KINDS]
    assert len(set(meanings)) == len(KINDS) and EDGES < set(KINDS)
    assert len({LINES[kind] for kind in KINDS if kind != "against"}) == len(KINDS) - 1
    drawn = legend([("against", meanings[KINDS.index("against")])], "")
    assert "solid" in {stroke.kind for stroke in drawn.strokes}
    for kind in EDGES:  # its sample shows each pattern twice or more
        dashes = [float(dash) for dash in LINES[kind][1].split()]
        assert 2 * sum(dashes) <= 30 and all(dash > 0 for dash in dashes)


def test_told_states_have_words_in_the_lexicon() -> None:
    """Every state that an edge may have on all of it, it may have on some of it."""
    told = WORDS.texts["drawing"]["told"]
    assert set(told["some"]) == {"worked", "offered", "others", "open", "left"} <= set(told)
