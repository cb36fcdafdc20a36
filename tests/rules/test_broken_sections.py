"""One broken value gives one finding, at its line: no rule follows on with what it only seems to say."""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

import pytest
from ruamel.yaml import YAML

from scopegen.build import open_case
from scopegen.check import check
from scopegen.findings import Finding
from tests.rules.laid_over import written

PLAIN = YAML(typ="safe", pure=True)
PLAIN.default_flow_style, PLAIN.width, PLAIN.sort_base_mapping_type_on_output = False, 10_000, False
Step = tuple[str | int, ...]
READING = {"value", "unknown-word", "not-a-group", "not-a-list", "missing-key", "unknown-key"}
GONE = "(gone)"
# Every entry of the price chart is at work here, so that a broken one could be missed by a rule.
ALL_AT_WORK = """
company: {applicator_license: PA-5550}
job:
  beds:
    - name: Mulch bed
      bed_prep: [{decided: included, work: hand-weed}, {decided: add-on, work: weed-preventer}]
      material: {use: hardwood, depth: 3.5 in}
      substrate: {decided: included, work: strip-old-mulch}
    - name: Fabric bed
      found: {edge: missing, weeds: heavy, ground: fabric}
      bed_prep: {decided: included, work: heavy-weed}
      edging: {decided: included, work: new-edge}
      material: {use: pine-bark, depth: 2 in}
      substrate: {decided: included, work: pull-fabric}
    - name: Stone bed
      found: {edge: soft, weeds: light, ground: fabric}
      material: {use: river-stone, depth: 2 in}
      substrate: {decided: included, work: pull-fabric}
    - name: Own bed
      bed_prep: {decided: customer, by: start, if_not_done: we do it, work: hand-weed}
  site: {access: {decided: included, way: stairs}}
  if_found: [{what: thick roots, work: cut-roots, not_over: 150.00}]
  extras: [{work: shrub-trim, worker_hours: 2 h, decided: add-on}]
"""
SOUND, RICH = written(""), written(ALL_AT_WORK)
JOB, CHART, COMPANY = "job.yaml", "prices-2027.yaml", "company.yaml"


def data_of(texts: dict[str, str], file: str) -> Any:
    return PLAIN.load(texts[file])


def paths(node: Any, path: Step = ()) -> Iterator[Step]:
    """Every key and list entry inside a value."""
    steps = node if isinstance(node, dict) else range(len(node)) if isinstance(node, list) else ()
    for step in steps:
        yield (*path, step)
        yield from paths(node[step], (*path, step))


def replaced(texts: dict[str, str], file: str, path: Step, value: Any) -> str:
    """The file's text with the value at a path replaced, or its key gone."""
    data = data_of(texts, file)
    node = data
    for step in path[:-1]:
        node = node[step]
    if value == GONE:
        del node[path[-1]]
    else:
        node[path[-1]] = value
    text = io.StringIO()
    PLAIN.dump(data, text)
    return text.getvalue()


def found_in(folder: Path, texts: dict[str, str], file: str, text: str) -> tuple[Finding, ...]:
    for name, kept in texts.items():
        (folder / name).write_text(text if name == file else kept, encoding="utf-8")
    return check(open_case(folder / JOB)).findings


def assert_one_finding(folder: Path, texts: dict[str, str], file: str, path: Step, value: Any) -> None:
    """Exactly one finding, of reading, in that file on the line of the nonsense."""
    text = replaced(texts, file, path, value)
    line = next(number for number, each in enumerate(text.splitlines(), 1) if "qqq" in each)
    found = found_in(folder, texts, file, text)
    assert [(Path(f.place.file).name, f.place.line) for f in found] == [(file, line)], found
    assert found[0].rule in READING


# Where a text is what belongs there, or a name that is sound and looked up by a rule of its own.
TEXTS = {
    ("job",), ("customer", "name"), ("customer", "property"), ("customer", "phone"), ("payments", "rest"),
    ("beds", 0, "name"), ("beds", 0, "against", "wall"), ("beds", 0, "material", "use"),
    *(("beds", 0, decision, "work") for decision in ("bed_prep", "edging", "debris", "substrate")),
}  # fmt: skip
EVERY_PATH = tuple(paths(data_of(SOUND, JOB)))
WHOLE = {path for path in EVERY_PATH if len(path) == 1 or path[0] in ("beds", "site") and len(path) < 4}


def named(path: Step) -> str:
    return ".".join(map(str, path))


def each(paths: Iterable[Step]) -> list[Any]:
    """The paths as cases of a test, by name."""
    return [pytest.param(path, id=named(path)) for path in paths]


@pytest.mark.parametrize("path", each(path for path in EVERY_PATH if path not in TEXTS))
def test_text_where_none_belongs(path: Step, tmp_path: Path) -> None:
    """A word in place of any section or value of the job description."""
    assert_one_finding(tmp_path, SOUND, JOB, path, "qqq")


@pytest.mark.parametrize("path", each(sorted(WHOLE, key=named)))
def test_list_where_none_belongs(path: Step, tmp_path: Path) -> None:
    """A list in place of any key of the job's head, of a bed or of the site."""
    assert_one_finding(tmp_path, SOUND, JOB, path, ["qqq"])


CHART_SECTIONS = ("materials", "work", "streams", "taxes", "access")
CHART_ENTRIES = [(section, key) for section in CHART_SECTIONS for key in data_of(RICH, CHART)[section]]
ONE_OF_EACH = [("materials", "river-stone"), ("work", "recut-edge"), ("work", "haul-away"), ("delivery",)]
CHART_VALUES = [
    path
    for path in paths(data_of(RICH, CHART))
    if any(path[: len(entry)] == entry != path for entry in ONE_OF_EACH)
    and path[-1] not in ("name", "clause", "tax", "stream")
    and not {"suits", "takes", "cautions"} & set(path)
]


def test_job_with_all_at_work_is_sound(tmp_path: Path) -> None:
    """What is broken below is sound before."""
    assert found_in(tmp_path, RICH, JOB, RICH[JOB]) == ()


@pytest.mark.parametrize("path", each([*((key,) for key in data_of(RICH, CHART)), *CHART_ENTRIES]))
def test_broken_entry_of_the_chart(path: Step, tmp_path: Path) -> None:
    """A word in place of any key or entry of the price chart, with all of them at work."""
    assert_one_finding(tmp_path, RICH, CHART, path, "qqq")


@pytest.mark.parametrize("path", each(CHART_VALUES))
def test_broken_value_of_the_chart(path: Step, tmp_path: Path) -> None:
    """A word in place of any number of a material, of work by the foot and of hauling."""
    assert_one_finding(tmp_path, RICH, CHART, path, "qqq")


# The rule that misses an optional key of the chart.
LEFT_OUT: dict[str, set[str]] = {
    "job": set(), "barrow": set(), "delivery": {"no-delivery"}, "access": {"unknown-access"},
    "taxes": {"unknown-tax"}, "streams": {"unknown-stream"}, "materials": {"unknown-material"},
    "work": {"unknown-work"},
}  # fmt: skip


@pytest.mark.parametrize("path", each((key,) for key in data_of(RICH, CHART)))
def test_key_of_the_chart_left_out(path: Step, tmp_path: Path) -> None:
    """A key that has to be there is missed by name; one that need not is missed by the rule that asks for
    it, and by no other."""
    key = path[0]
    found = found_in(tmp_path, RICH, CHART, replaced(RICH, CHART, (key,), GONE))
    assert {f.rule for f in found} == LEFT_OUT.get(key, {"missing-key"})
    if key not in LEFT_OUT:
        assert [f.message for f in found] == [f"'{key}' is missing"]


@pytest.mark.parametrize("path", each(path for path in paths(data_of(RICH, COMPANY)) if path != ("address",)))
def test_broken_company(path: Step, tmp_path: Path) -> None:
    """A group of keys in place of any of the contractor's particulars that is no group."""
    if path[0] == "terms":
        assert_one_finding(tmp_path, RICH, COMPANY, path, "qqq")
    else:
        assert_one_finding(tmp_path, RICH, COMPANY, path, {"qqq of": "a test"})  # no language has such a name


@pytest.mark.parametrize("key", list(data_of(SOUND, COMPANY)))
def test_particulars_left_out(key: str, tmp_path: Path) -> None:
    """Each of the contractor's particulars that the papers print is missed by name, once."""
    found = found_in(tmp_path, SOUND, COMPANY, replaced(SOUND, COMPANY, (key,), GONE))
    assert [(Path(f.place.file).name, f.message) for f in found] == [(COMPANY, f"'{key}' is missing")]


SHAPES = {
    "rectangle": {"length": "20 ft", "width": "6 ft"},
    "triangle": {"sides": ["9 ft", "10 ft", "6 ft"]},
    "quadrilateral": {"sides": ["9 ft", "10 ft", "9 ft", "10 ft"], "diagonal": "13 ft"},
    "trapezoid": {"sides": ["9 ft", "10 ft"], "apart": "4 ft"},
    "circle": {"diameter": "6 ft"},
    "ring": {"outer": "9 ft", "inner": "2 ft"},
    "ellipse": {"length": "9 ft", "width": "2 ft"},
    "polygon": [["0 ft", "0 ft"], ["4 ft", "0 ft"], ["4 ft", "5 ft"]],
    "widths": {"every": "3 ft", "across": ["0 ft", "3 ft", "0 ft"]},
    "area": "33 ft2",
}
EMPTIED = [
    path
    for shape, said in SHAPES.items()
    for path in [(shape,), *((shape, key) for key in said if isinstance(said, dict))]
]


@pytest.mark.parametrize("path", each(EMPTIED))
def test_shape_with_a_key_left_empty(path: Step, tmp_path: Path) -> None:
    """A shape whose name or measure has no value is one finding inside that shape."""
    shape = str(path[0])
    area = written("job: {beds: [{shape: {area: 60 ft2}, outline: 56 ft, against: {wall: 2 ft}}]}")
    texts = {**area, JOB: replaced(area, JOB, ("beds", 0, "shape"), {shape: SHAPES[shape]})}
    assert found_in(tmp_path, texts, JOB, texts[JOB]) == ()
    emptied = replaced(texts, JOB, ("beds", 0, "shape", *path), None)
    (found,) = found_in(tmp_path, texts, JOB, emptied)
    assert found.rule in READING and found.bed == "Front bed"
    lines = emptied.splitlines()
    empty = next(number for number, line in enumerate(lines, 1) if line.endswith(" null"))
    assert lines.index("- name: Front bed") + 1 < found.place.line <= empty
