"""What changes between two seasons: texts, titles, conditions, and wording that a language lacks."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from scopegen.clauses import read_library
from scopegen.cli.commands import scopegen
from scopegen.comparing import changed_elsewhere, compared
from scopegen.library_folder import library_folder
from scopegen.papers.comparison import compose
from scopegen.papers.document import walk
from scopegen.report.compared import compared_text
from scopegen.words import lexicon
from tests.jobs import EXAMPLES, words_of

OWN = {
    # whole, with a new title and wording in English alone
    "terms/color": "title: {en: Color and look}\nwording:\n  - season: 2028\n    en: {says: Color fades.}\n",
    # whole, word by word as it ships but for the title
    "terms/crew": "",
    # whole, asked for on another condition
    "terms/our-dogs": "title: {en: Dogs, es: Perros}\nwhen: {has: [add-ons]}\nwording:\n  - season: 2028\n"
    "    en: {says: Our dogs stay in the truck.}\n    es: {says: Los perros quedan en la camioneta.}\n",
    # a part in one language
    "edging/recut": "replaces: parts\nwording:\n  - season: 2028\n    en:\n"
    "      included: We recut {{ length }} along {{ beds }}, and no more.\n",
}


@pytest.fixture
def own(tmp_path: Path) -> Path:
    """A workspace with the clauses of a second season."""
    (tmp_path / "company.yaml").write_text((EXAMPLES / "company.yaml").read_text(), encoding="utf-8")
    for name, said in OWN.items():
        if name == "terms/crew":
            said = (library_folder() / "terms/crew.yaml").read_text(encoding="utf-8")
            said = said.replace("season: 2027", "season: 2028").replace("clause: terms.crew\n", "")
            line = next(each for each in said.splitlines() if each.startswith("title:"))
            said = said.replace(line, "title: {en: Who comes, es: Quién viene}")
        path = tmp_path / "clauses" / f"{name}.yaml"
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(f"clause: {name.replace('/', '.')}\n{said}", encoding="utf-8")
    return tmp_path


def run(own: Path, *words: str) -> Result:
    return CliRunner().invoke(scopegen, ["clauses", "compare", "2027", "2028", *words, "--in", str(own)])


def block(text: str, name: str) -> str:
    """What is said of one clause."""
    start = text.index(f"{name}: ")
    ends = [
        at for other in (*OWN, "clause") if (at := text.find(f"\n\n{other.replace('/', '.')}:", start)) > 0
    ]
    return text[start : min(ends, default=len(text))]


def test_every_clause_that_changes_is_counted(own: Path) -> None:
    """By its text, or by its title alone; those that change in other languages alone are named beside."""
    english = run(own).stdout
    assert english.endswith("4 clauses change from 2027 to 2028.\n")
    assert english.count(" (changed)\n") == 3 and english.count(" (new)\n") == 1
    spanish = run(own, "--language", "es").stdout
    assert spanish.endswith(
        "3 clauses change from 2027 to 2028.\nIn other languages alone: edging.recut (en).\n"
    )
    said = json.loads(run(own, "--language", "es", "--json").stdout)
    assert len(said["changes"]) == 3 and said["in_other_languages"] == {"edging.recut": ["en"]}
    alone = run(own, "edging.recut", "--language", "es").stdout
    assert alone == (
        "No wording in 'es' changes from 2027 to 2028.\nIn other languages alone: edging.recut (en).\n"
    )


def test_a_title_that_changes_is_told(own: Path) -> None:
    """Also one that is not there in the language compared."""
    text = run(own, "--language", "es").stdout
    before = read_library(library_folder()).held["terms.crew"].shipped
    assert before is not None
    lines = f"\n  title before: {before.title['es']}\n  title now: Quién viene"
    assert lines in block(text, "terms.crew") and " says" not in block(text, "terms.crew")
    assert "\n  title before: Color\n  title now: none in 'es'\n" in block(text, "terms.color")


def test_wording_that_a_language_lacks_is_said(own: Path) -> None:
    """A struck text says that the new version has it in another language alone, on the paper too."""
    text = block(run(own, "--language", "es").stdout, "terms.color")
    assert "  says (version 2027; version 2028 has no wording for this in 'es')\n    [out: El color" in text
    assert "has no wording" not in block(run(own).stdout, "terms.color")
    library = read_library(library_folder(), own / "clauses")
    back = compared(library, 2028, 2027, "es", ("terms.color",))
    assert "(version 2028 has no wording for this in 'es'; version 2027)" in compared_text(
        back, 2028, 2027, "es", {}
    )
    document = compose(compared(library, 2027, 2028, "es"), 2027, 2028, lexicon("es"))
    paper = words_of(tuple(each for _, each in walk(document)))
    assert "La versión 2028 no tiene texto para esto en este idioma." in paper
    assert "Título de antes: Color. Título de ahora: no en este idioma." in paper


def test_a_condition_alone_is_told(tmp_path: Path) -> None:
    """In the terminal with both, on paper as a sentence: there is no text under its heading."""
    ships, own = tmp_path / "ships" / "terms", tmp_path / "own" / "terms"
    for folder, season, when in ((ships, 2027, "add-ons"), (own, 2028, "photographs")):
        folder.mkdir(parents=True)
        (folder / "dogs.yaml").write_text(
            f"clause: terms.dogs\ntitle: {{en: Dogs}}\nwhen: {{has: [{when}]}}\nwording:\n"
            f"  - season: {season}\n    en: {{says: Our dogs stay in the truck.}}\n",
            encoding="utf-8",
        )
    library = read_library(ships.parent, own.parent)
    changes = compared(library, 2027, 2028, "en")
    text = compared_text(changes, 2027, 2028, "en", changed_elsewhere(library, 2027, 2028, "en"))
    assert text == (
        "terms.dogs: Dogs (changed)\n"
        "  taken before: the agreement has add-ons\n  taken now: the agreement has photographs\n\n"
        "1 clause changes from 2027 to 2028."
    )
    paper = words_of(tuple(each for _, each in walk(compose(changes, 2027, 2028, lexicon("en")))))
    assert "From now on it stands in other papers than before." in paper
    spanish = compared_text(compared(library, 2027, 2028, "es"), 2027, 2028, "es", {})
    assert "There is no wording in 'es'." in spanish
