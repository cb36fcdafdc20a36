"""A contractor's own folder over the library that ships: replaced whole or in parts, no longer used."""

from __future__ import annotations

from datetime import date
from pathlib import Path

import pytest

from scopegen.build import open_case
from scopegen.check import check
from scopegen.clauses import Ruling, read_library
from scopegen.findings import Level
from scopegen.kept import Kept
from scopegen.library_folder import library_folder
from tests.jobs import agreement, changed, example, laid, section, words_of

COLOR = "clause: terms.color\nreplaces: parts\nwording:\n  - season: 2028\n    en: {says: Color fades.}\n"


DOGS = "clause: terms.dogs\ntitle: {en: Dogs}\n%swording:\n  - season: 2028\n    en: {says: We like dogs.}\n"


def own(folder: Path, name: str, text: str) -> None:
    """Writes a clause of the contractor's own, such as `terms.color`."""
    where, _, file = name.partition(".")
    path = folder / "clauses" / where / f"{file}.yaml"
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_text(text, encoding="utf-8")


def ruling(folder: Path, name: str, season: int, day: str = "2030-01-01") -> Ruling | None:
    library = read_library(library_folder(), folder / "clauses")
    assert library.findings == ()
    return library.in_force(season, date.fromisoformat(day)).clauses.get(name)


def said(folder: Path, name: str, season: int, way: str = "says", language: str = "en") -> str:
    found = ruling(folder, name, season)
    assert found is not None
    wording = found.wording(language, way)
    return f"{wording.whose} {wording.version}: {wording.text}" if wording else ""


def test_a_part_is_replaced_from_its_season_on_and_the_rest_stays(tmp_path: Path) -> None:
    """The English text from 2028 on; before it, and in Spanish, what ships."""
    own(tmp_path, "terms.color", COLOR)
    assert said(tmp_path, "terms.color", 2027).startswith("shipped 2027: Mulch and stone vary")
    assert said(tmp_path, "terms.color", 2028) == "own 2028: Color fades."
    assert said(tmp_path, "terms.color", 2031) == "own 2028: Color fades."
    assert said(tmp_path, "terms.color", 2031, language="es").startswith("shipped 2027: ")
    found = ruling(tmp_path, "terms.color", 2028)
    assert found is not None and found.title["en"] == "Color" and found.order


def test_names_of_a_part_hold_from_its_season_on_too(tmp_path: Path) -> None:
    """Its title, and how it is named as left out."""
    text = "clause: edging.recut\nreplaces: parts\ntitle: {en: Edge recut}\nname_if_absent: {en: recuts}\n"
    own(tmp_path, "edging.recut", text + "wording: [{season: 2028, en: {included: 'Recut {{ beds }}.'}}]\n")
    before, after = (ruling(tmp_path, "edging.recut", season) for season in (2027, 2028))
    assert before and (before.title["en"], before.name_if_absent["en"]) == (
        "Spade edge recut",
        "old edges recut",
    )
    assert after and (after.title["en"], after.name_if_absent["en"]) == ("Edge recut", "recuts")
    assert after.title["es"] == before.title["es"]


def test_one_way_of_deciding_is_replaced_alone(tmp_path: Path) -> None:
    """Each part from the season in which it was sharpened."""
    text = "clause: edging.recut\nreplaces: parts\nwording:\n"
    text += "  - season: 2027\n    en: {included: 'Recut {{ beds }}.'}\n"
    text += "  - season: 2029\n    en: {excluded: 'Recutting {{ beds }} is not part of this price.'}\n"
    own(tmp_path, "edging.recut", text)
    assert said(tmp_path, "edging.recut", 2028, "included") == "own 2027: Recut {{ beds }}."
    assert said(tmp_path, "edging.recut", 2028, "excluded").startswith("shipped 2027: ")
    assert said(tmp_path, "edging.recut", 2029, "included") == "own 2027: Recut {{ beds }}."
    assert said(tmp_path, "edging.recut", 2029, "excluded").startswith("own 2029: ")
    assert said(tmp_path, "edging.recut", 2029, "add-on").startswith("shipped 2027: ")


def test_a_mending_within_a_season_counts_from_its_day(tmp_path: Path) -> None:
    """The day that the job is dated on decides."""
    own(tmp_path, "terms.color", COLOR.replace("season: 2028", "season: 2027\n    from: 2027-06-01"))
    before, after = (ruling(tmp_path, "terms.color", 2027, f"2027-0{day}") for day in ("5-31", "6-01"))
    assert before and after
    assert before.texts["en"]["says"].whose == "shipped"
    assert (after.texts["en"]["says"].whose, after.texts["en"]["says"].version) == (
        "own",
        "2027, from 2027-06-01",
    )


def test_a_whole_clause_takes_over_from_its_first_season_on(tmp_path: Path) -> None:
    """Nothing of what ships shines through: neither its conditions nor its Spanish."""
    text = "clause: terms.license\ntitle: {en: Our license}\n"
    text += "wording:\n  - season: 2028\n    en: {says: We have one.}\n"
    own(tmp_path, "terms.license", text)
    before, after = (ruling(tmp_path, "terms.license", season) for season in (2027, 2028))
    assert before and before.when and before.title["en"] == "License" and "es" in before.texts
    assert (
        after and not after.when and dict(after.title) == {"en": "Our license"} and set(after.texts) == {"en"}
    )


def test_a_clause_no_longer_used_hands_over_to_another(tmp_path: Path) -> None:
    """From its season on the chart's work is worded by what stands for it, and says so."""
    text = "clause: edging.recut\nno_longer: {season: 2027, because: it was unclear, instead: edging.edges}\n"
    own(tmp_path, "edging.recut", text)
    fresh = "clause: edging.edges\ndecides: edging\ntitle: {en: Edges}\n"
    fresh += "ways: [included, no-charge]\nneeds: [beds]\nwording:\n  - season: 2027\n    en:\n"
    fresh += "      included: We cut {{ beds }} anew.\n      no-charge: 'Free: {{ beds }}.'\n"
    own(tmp_path, "edging.edges", fresh)
    case = open_case(laid(tmp_path, example()))
    assert not check(case).stops
    assert case.chosen and "edging.edges" in {said.clause for said in case.chosen.said}
    assert "edging.recut" not in {said.clause for said in case.chosen.said}
    assert "We cut Front walk (20 ft) and Entry corner anew." in words_of(
        section(agreement(tmp_path / "job.yaml"), "work-edging")
    )


def test_a_clause_no_longer_used_without_another_stops_the_job_that_needs_it(tmp_path: Path) -> None:
    """The finding says since when, and what to do."""
    own(
        tmp_path, "edging.recut", "clause: edging.recut\nno_longer: {season: 2027, because: it was unclear}\n"
    )
    found = check(open_case(laid(tmp_path, example()))).findings
    messages = {finding.message for finding in found if finding.rule == "unknown-clause"}
    assert any(
        message.endswith(
            "the clause 'edging.recut' is no longer used from season 2027 on, and none stands for it"
        )
        for message in messages
    )


def test_two_clauses_that_stand_for_each_other_are_no_endless_walk(tmp_path: Path) -> None:
    """A ring of replacements is a finding, not a hang."""
    for one, other in (("recut", "new-edge"), ("new-edge", "recut")):
        own(
            tmp_path,
            f"edging.{one}",
            f"clause: edging.{one}\nno_longer: {{season: 2027, because: no, instead: edging.{other}}}\n",
        )
    assert check(open_case(laid(tmp_path, example()))).stops


def test_a_term_no_longer_used_is_left_out(tmp_path: Path) -> None:
    """Only from its season on; the old paper keeps it."""
    own(tmp_path, "terms.color", "clause: terms.color\nno_longer: {season: 2028, because: nobody asked}\n")
    assert ruling(tmp_path, "terms.color", 2027) is not None
    assert ruling(tmp_path, "terms.color", 2028) is None


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("clause: terms.color\ntitle: {en: A}\n", "the clause has no wording"),
        ("clause: terms.color\nwording: [{season: 2027, en: {says: A.}}]\n", "the clause has no title"),
        (
            "clause: terms.color\nreplaces: parts\norder: 3\nwording: [{season: 2027, en: {says: A.}}]\n",
            "a clause that replaces parts has texts and titles of its own, and nothing else",
        ),
        (
            "clause: terms.color\nreplaces: all\nwording: [{season: 2027, en: {says: A.}}]\n",
            "'all' is not a word that it has here",
        ),
    ],
)
def test_a_file_that_says_half_is_found(tmp_path: Path, text: str, message: str) -> None:
    """Each slip is told by name; the shipped clause stays in force meanwhile."""
    own(tmp_path, "terms.color", text)
    library = read_library(library_folder(), tmp_path / "clauses")
    (found,) = library.findings
    if message.startswith("the") or message.startswith("a "):
        assert found.message == message
    else:
        assert "all" in found.message
    assert found.place.file == "clauses/terms/color.yaml"
    assert library.broken == {"terms.color"}


def test_only_what_a_chart_can_ask_for_is_read(tmp_path: Path) -> None:
    """A clause that no chart names is not looked at, however unsound; named, it is."""
    own(tmp_path, "edging.brick", "clause: edging.brick\nthis is no yaml: [\n")
    unread = read_library(library_folder(), tmp_path / "clauses", wanted=frozenset())
    assert unread.findings == () and "edging.recut" in unread.held  # it may be named as not included
    assert "edging.general" not in unread.held and "terms.color" in unread.held
    read = read_library(library_folder(), tmp_path / "clauses", wanted=frozenset({"edging.brick"}))
    assert [finding.rule for finding in read.findings] == ["yaml"]


def test_what_is_no_longer_used_is_not_named_as_absent(tmp_path: Path) -> None:
    """Its shipped file is read for its short name, so the own one that stops its use is read too."""
    text = "clause: extra.hedge-trim\n"
    text += "no_longer: {season: 2027, because: sold by the hour, instead: extra.hourly}\n"
    before = words_of(section(agreement(laid(tmp_path, example())), "excluded"))
    own(tmp_path, "extra.hedge-trim", text)
    after = words_of(section(agreement(tmp_path / "job.yaml"), "excluded"))
    assert "hedges trimmed" in before and "hedges trimmed" not in after


def test_a_finding_of_a_text_points_at_the_text(tmp_path: Path) -> None:
    """File, line and column of the words that cannot be filled."""
    own(
        tmp_path,
        "terms.color",
        COLOR.replace("2028", "2027").replace("Color fades.", "'Color of {{ beds }}.'"),
    )
    found = [f for f in check(open_case(laid(tmp_path, example()))).findings if f.rule == "unfillable"]
    assert [(Path(f.place.file).parts[-3:], f.place.line, f.place.column) for f in found] == [
        (("clauses", "terms", "color.yaml"), 5, 16)
    ]


@pytest.mark.parametrize("name", ["bed_prep.hand-weeding", "terms.color", "site.clean-up"])
def test_a_text_that_leaves_no_words_stops(name: str, tmp_path: Path) -> None:
    """A heading, or a line of the scope, with nothing under it would say that something is agreed."""
    folder, way = name.split(".")[0], "says" if name.startswith("terms") else "included"
    decides = {"bed_prep": "bed_prep", "site": "clean-up"}.get(folder)
    head = f"decides: {decides}\nways: [included]\n" if decides else ""
    own(
        tmp_path,
        name,
        f"clause: {name}\n{head}title: {{en: Ours}}\nwording:\n  - season: 2027\n"
        f"    en: {{{way}: \"{{% if property == '' %}}We mind it.{{% endif %}}\"}}\n",
    )
    found = [f for f in check(open_case(laid(tmp_path, example()))).findings if f.rule == "unfillable"]
    assert {f.level for f in found} == {Level.STOPS}
    line = 7 if head else 5
    said = f"the clause '{name}' cannot be filled: its conditions leave no words for this job"
    assert {(f.message.removeprefix("Front walk: "), f.place.line) for f in found} == {(said, line)}


@pytest.mark.parametrize("kind", ["a file", "a link to nothing"])
def test_what_is_no_folder_of_clauses_is_found(kind: str, tmp_path: Path) -> None:
    """One's own wording would be passed over without a word; made a folder, it is read again."""
    job, kept, name = laid(tmp_path, example()), Kept(), tmp_path / "clauses"
    if kind == "a file":
        name.write_text("clause: terms.color\n", encoding="utf-8")
    else:
        name.symlink_to(tmp_path / "gone")
    (found,) = [f for f in check(open_case(job, kept=kept)).findings if f.level is Level.STOPS]
    assert (found.rule, found.fix) == (
        "unreadable-file",
        "give it another name, or put a folder in its place",
    )
    assert found.message == f"{name} is no folder, so none of your own clauses is read"
    name.unlink()
    name.mkdir()
    assert not [f for f in check(open_case(job, kept=kept)).findings if f.level is Level.STOPS]


def test_own_wording_of_a_later_season_leaves_an_old_job_as_it_was(tmp_path: Path) -> None:
    """What was signed two seasons ago reads as it was signed."""
    before = agreement(laid(tmp_path, example()))
    own(tmp_path, "terms.color", COLOR)
    own(tmp_path, "terms.dogs", DOGS % "")
    assert agreement(tmp_path / "job.yaml") == before
    chart = (tmp_path / "prices-2027.yaml").read_text().replace("season: 2027", "season: 2028")
    (tmp_path / "prices-2028.yaml").write_text(chart)
    later = changed(
        example(),
        ("season: 2027", "season: 2028"),
        ("walked: 2027", "walked: 2028"),
        ("dated: 2027", "dated: 2028"),
    )
    (tmp_path / "later.yaml").write_text(later)
    text = words_of(section(agreement(tmp_path / "later.yaml"), "terms"))
    assert "Color fades." in text and "We like dogs." in text
    signing = words_of(section(agreement(tmp_path / "later.yaml"), "sign"))
    assert (
        "The wording of this paper is from season 2027, but for these: Dogs (2028); Color (2028)." in signing
    )


def test_a_caution_that_the_chart_names_before_its_first_season_is_missed(tmp_path: Path) -> None:
    """The price chart of that season asks for it by name, so that nothing is left out unseen."""
    text = (DOGS % "when: {cautions: [dogs]}\n").replace("terms.dogs", "cautions.dogs")
    job = laid(tmp_path, example())
    own(tmp_path, "cautions.dogs", text)
    assert not [f for f in check(open_case(job)).findings if f.level is Level.STOPS]
    chart = tmp_path / "prices-2027.yaml"
    named = changed(chart.read_text(encoding="utf-8"), ("cautions: [digging]", "cautions: [digging, dogs]"))
    chart.write_text(named, encoding="utf-8")
    (found,) = [f for f in check(open_case(job)).findings if f.level is Level.STOPS]
    assert found.message == "the clause 'cautions.dogs' has no wording yet for season 2027"
