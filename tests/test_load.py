"""Reading YAML: text data with places, and one clear finding for what cannot be used."""

from __future__ import annotations

from pathlib import Path

import pytest

from scopegen.findings import Finding, Level, Place
from scopegen.load import Unreadable, load, parse


def finding_of(text: str) -> Finding:
    with pytest.raises(Unreadable) as unreadable:
        parse(text, "job.yaml")
    assert unreadable.value.finding.level is Level.STOPS
    return unreadable.value.finding


# fault -> text, rule, message, what to do, line, column
FAULTS = {
    "repeated key": ("a: 1\na: 2\n", "repeated-key", "'a' is given twice", "keep one of the two", 2, 1),
    "tab": (
        "a:\n\tb: 1\n", "yaml", "the YAML cannot be read: there is a tab where spaces belong",
        "use spaces, never tabs, before a key", 2, 1,
    ),
    "lines that do not line up": (
        "a:\n   b: 1\n  c: 2\n", "yaml",
        "the YAML cannot be read here: the lines do not line up, or a ':' is missing",
        "let keys that belong together start in the same column, each followed by ': '", 3, 3,
    ),
    "two colons": (
        "a: b: c\n", "yaml", "the YAML cannot be read here: a second ': ' in one line",
        "put the text in quotes, or start a new line", 1, 5,
    ),
    "open bracket": (
        "a: [1\n", "yaml",
        "the YAML cannot be read here: a bracket or brace that is not closed, a missing comma, or a ': '"
        " inside a text",
        "close each { with } and each [ with ]; put text with commas or colons in quotes", 1, 4,
    ),
    "open quote": (
        'a: "x\n', "yaml", "the YAML cannot be read here: a quote that is not closed",
        "close the quote", 1, 4,
    ),
    "anchor": (
        "a: &x 1\n", "alias", "anchors (&) and aliases (*) are not used here",
        "write the value out; put text that starts with & or * in quotes", 1, 4,
    ),
    "alias": (
        "a: *x\n", "alias", "anchors (&) and aliases (*) are not used here",
        "write the value out; put text that starts with & or * in quotes", 1, 4,
    ),
    "tag": ("a: !!int 1\n", "tag", "a tag (!) is not used here",
         "take it out; put text that starts with ! in quotes", 1, 4),
    "second document": (
        "a: 1\n---\nb: 2\n", "second-document", "a second document starts here",
        "keep one document a file: take out the line '---' or '...'", 2, 1,
    ),
    "directive": (
        "%YAML 1.1\n---\na: no\n", "directive", "a line that starts with % is not used here",
        "take that line out", 1, 1,
    ),
    "text lost as a comment": (
        "a: gate #2 left\n", "lost-comment", "the text from '#' on would be lost as a comment",
        "put the whole text in quotes", 1, 4,
    ),
    "comma in braces": (
        "a: {note: gate is wide, driveway}\n", "bare-key", "'driveway' stands inside braces without a value",
        "put text that holds a comma in quotes, or give the key a value", 1, 25,
    ),
    "override of direction": (
        "a: x\u202ey\n", "hidden-sign",
        "the line holds a sign that cannot be seen, U+202E right-to-left override",
        "delete it and type the words again", 1, 5,
    ),
    "zero-width space": (
        "a: 12\u200b ft\n", "hidden-sign",
        "the line holds a sign that cannot be seen, U+200B zero width space",
        "delete it and type the words again", 1, 6,
    ),
    "marks heaped on a letter": (
        "a: xe\u0301\u0302\u0303\u0304\u0305y\n", "hidden-sign", "the line holds 5 marks on one letter",
        "delete them and type the word again", 1, 6,
    ),
    "marks heaped on a letter by their escapes": (
        'a: "e' + "\\u0301" * 200 + '"\n', "hidden-sign", "the text spells 200 marks on one letter",
        "delete them and type the word again", 1, 4,
    ),
    "NUL": (
        "a: \x00\n", "hidden-sign", "the line holds a sign that cannot be seen, U+0000 control sign",
        "delete it and type the words again", 1, 4,
    ),
    "nested too deeply": ("[" * 41 + "\n", "nested-too-deep", "values are nested deeper than 40",
         "write it flatter", 1, 41),
    "list as a key": (
        "? [a]\n: b\n", "no-key", "a list or braces stand here where a key belongs",
        "write 'key: value', or put the text in quotes", 1, 3,
    ),
}  # fmt: skip


@pytest.mark.parametrize("fault", FAULTS)
def test_fault_has_one_whole_message(fault: str) -> None:
    """Rule, message, what to do, line and column."""
    text, *expected = FAULTS[fault]
    found = finding_of(text)
    assert [found.rule, found.message, found.fix, found.place.line, found.place.column] == expected


@pytest.mark.parametrize("text", ["note: |\n \n  a\n#\t\n", "note: |\r\n \r\n  a\r\n"])
def test_blank_line_that_holds_spaces_before_a_text(text: str) -> None:
    """The parser in Python names only where the text begins."""
    found = finding_of(text)
    said = "the YAML cannot be read here: the first line of a text stands further left than the next"
    assert (found.rule, found.message, found.place.line, found.place.column) == ("yaml", said, 3, 3)
    assert found.fix.endswith("take the spaces out of a blank line above them")


def test_too_many_items_and_too_long_a_text() -> None:
    """Sizes that no job has are refused before they cost time."""
    around = 9  # the stream, the document, the mapping, the list: where each begins and ends, and a key
    assert len(parse("a: [" + "1," * (75_000 - around) + "]", "job.yaml").data["a"]) == 75_000 - around
    finding = finding_of("a: [" + "1," * (75_001 - around) + "]")
    assert finding.message == "there are more than 75,000 items"
    assert finding_of("a: " + "x" * 10_001).message == "a text has more than 10,000 characters"


def test_four_marks_on_a_letter_are_read() -> None:
    """As Vietnamese, Yoruba or a linguist may write them."""
    assert parse("a: e\u0301\u0302\u0303\u0304y\n", "job.yaml").data == {"a": "e\u0301\u0302\u0303\u0304y"}


def test_values_stay_text() -> None:
    """Nothing is guessed: no, 0010, 7:30, 1234.10 and 2027-03-19 stay as they were written."""
    text = "a: no\nb: 0010\nc: 7:30\nd: 1234.10\ne: 2027-03-19\nf: 1_000\n"
    assert parse(text, "job.yaml").data == {
        "a": "no", "b": "0010", "c": "7:30", "d": "1234.10", "e": "2027-03-19", "f": "1_000",
    }  # fmt: skip


def test_empty_values_are_none_and_quoted_ones_text() -> None:
    """An empty value and `~` are nothing; in quotes they are text."""
    assert parse("a:\nb: ~\nc: ''\nd: '~'\ne: {f: , g: 1}\n", "job.yaml").data == {
        "a": None, "b": None, "c": "", "d": "~", "e": {"f": None, "g": "1"},
    }  # fmt: skip


def test_every_value_knows_its_place() -> None:
    """Line and column of values and of keys, counted from 1; what is not there points at its parent."""
    source = parse("beds:\n  - name: A\n    edging: {decided: included}\n", "job.yaml")
    assert source.place(("beds", 0, "name")) == Place("job.yaml", 2, 11, "  - name: A")
    assert source.place(("beds", 0, "edging"), key=True).column == 5
    assert source.place(("beds", 0, "edging", 0, "decided")).column == 23  # a list of one stands as that one
    assert source.place(("beds", 0, "debris"), key=True) == Place("job.yaml", 2, 5, "  - name: A")


def test_windows_line_ends_and_a_byte_order_mark_are_read(tmp_path: Path) -> None:
    """What a Windows editor writes is the same data."""
    path = tmp_path / "job.yaml"
    path.write_bytes(b"\xef\xbb\xbfjob: A\r\nbeds: []\r\n")
    assert load(path, "job.yaml").data == {"job": "A", "beds": []}


WIDE = "job.yaml is text in UTF-16 or UTF-32, and only UTF-8 is read"
FILES = {
    "empty": (b"", "empty-file", "job.yaml is empty"),
    "only a comment": (b"# nothing\n", "empty-file", "job.yaml is empty"),
    "a list": (b"- a\n", "not-a-mapping", "job.yaml does not start with 'key: value' lines"),
    "a picture": (b"\x89PNG\r\n\x1a\n", "not-text", "job.yaml is not UTF-8 text"),
    "UTF-16": (
        "job: A\n".encode("utf-16"),
        "not-text",
        "job.yaml is text in UTF-16 or UTF-32, and only UTF-8 is read",
    ),
    "too large": (b"a: 1\n" * 250_000, "too-large", "job.yaml is larger than 1,000,000 bytes"),
}


@pytest.mark.parametrize("name", FILES)
def test_file_that_cannot_be_used(tmp_path: Path, name: str) -> None:
    """One finding says what is wrong with the file as a whole."""
    content, rule, message = FILES[name]
    path = tmp_path / "job.yaml"
    path.write_bytes(content)
    with pytest.raises(Unreadable) as unreadable:
        load(path, "job.yaml")
    assert (unreadable.value.finding.rule, unreadable.value.finding.message) == (rule, message)


def test_place_of_invalid_utf_8(tmp_path: Path) -> None:
    """The first byte that is no UTF-8 is named by line and column."""
    path = tmp_path / "job.yaml"
    path.write_bytes(b"job: A\nname: caf\xe9\n")
    with pytest.raises(Unreadable) as unreadable:
        load(path, "job.yaml")
    place = unreadable.value.finding.place
    assert (place.line, place.column) == (2, 10)


def test_missing_file_folder_and_path_under_a_file(tmp_path: Path) -> None:
    """What is not a readable file is said in a sentence."""
    (tmp_path / "file").write_text("a: 1")
    for path, message in (
        (tmp_path / "nowhere.yaml", "there is no file x"),
        (tmp_path, "x is a folder, not a file"),
        (tmp_path / "file" / "job.yaml", "x cannot be read: Not a directory"),
    ):
        with pytest.raises(Unreadable) as unreadable:
            load(path, "x")
        assert unreadable.value.finding.message == message


def test_long_lines_are_shown_around_the_place() -> None:
    """A finding on a line of 5,000 characters prints a piece of it, with the mark under the right sign."""
    finding = Finding(
        "r", Level.STOPS, "m", "f", Place("job.yaml", 1, 3001, "x" * 3000 + "HERE" + "y" * 2000)
    )
    _, line, mark, _ = finding.as_text().splitlines()
    assert len(line) < 120
    assert line[mark.index("^") :].startswith("HERE")


KEY = "k" * 1100


@pytest.mark.parametrize(
    ("text", "line", "column"),
    [
        (f'job: x\n"{KEY}": 1\n', 2, 1),
        (f"job: x\n'{KEY}': 1\n", 2, 1),
        (f"job: x\n{KEY}: 1\n", 2, 1),
        (f'"{KEY}": 1\n', 1, 1),
        (f'job:\n  "{KEY}": 1\n', 2, 3),
        (f'job: {{"{KEY}": 1}}\n', 1, 7),
        (f"job: {{a: 1, {KEY}: 1}}\n", 1, 13),
        (f"job: [{KEY}: 1]\n", 1, 7),
        (f'job: x\n"{KEY[:1023]}": 1\n', 2, 1),
    ],
)
def test_a_key_that_is_too_long_is_called_that(text: str, line: int, column: int) -> None:
    """YAML 1.2.2, 7.4.2: the ':' stands at most 1,024 characters beyond the start of the key."""
    with pytest.raises(Unreadable) as refused:
        parse(text, "job.yaml")
    found = refused.value.finding
    said = "the YAML cannot be read here: a key is longer than the 1,024 signs that YAML lets it be"
    assert (found.rule, found.message, found.place.line, found.place.column) == ("yaml", said, line, column)
    assert found.fix == "give it a short key, and write the long text as its value"


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (f'job: x\n"{KEY}"\n', "the lines do not line up, or a ':' is missing"),
        (f"job: {KEY} and: more\n", "a second ': ' in one line"),
    ],
)
def test_a_long_text_that_is_no_key_is_not_called_one(text: str, says: str) -> None:
    """Only what a colon follows is a key."""
    with pytest.raises(Unreadable) as refused:
        parse(text, "job.yaml")
    assert refused.value.finding.message == f"the YAML cannot be read here: {says}"
    assert parse(f'job: x\n"{KEY[:1020]}": 1\n', "job.yaml").data == {"job": "x", KEY[:1020]: "1"}
