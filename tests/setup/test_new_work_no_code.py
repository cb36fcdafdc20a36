"""New work, a new material and their clauses in YAML alone, with the program as it is shipped.

The wheel is unpacked elsewhere and run from a foreign folder that has a `clause_library` of its own, and
every connection to a network is refused.
"""

from __future__ import annotations

import json
import os
import re
import subprocess
import sys
import zipfile
from pathlib import Path

import pytest

from scopegen.setup.environments import CHECKOUT

BASE = CHECKOUT / "tests" / "rules" / "base"
NO_NETWORK = """\
import socket
def refused(*_, **__):
    raise OSError("no network here")
socket.socket.connect = socket.socket.connect_ex = socket.create_connection = socket.getaddrinfo = refused
"""
STREAM = "  rubble: {name: broken brick, swell: 50 %, in_ground_weight: 3000 lb/yd3}\n"
MATERIAL = """\
  crushed-brick:
    {name: crushed brick, kind: stone, unit: ton, price: 150.00, sold_in: 0.5 ton, weight: 2000 lb/yd3,
     lays: 0.4 yd3/h, clause: material.crushed-brick}
"""
WORK = """\
  lay-cobbles:
    decides: edging
    name: Lay a cobble edge
    price: {per: ft, amount: 10.00}
    does: 8 ft/h
    spoil: {depth: 6 in, width: 6 in, profile: box, stream: rubble}
    suits: {edge: [soft, missing]}
    clause: edging.cobbles
    cautions: [digging]
"""
CLAUSES = {
    "edging/cobbles.yaml": """\
clause: edging.cobbles
decides: edging
title: {en: Cobble edge}
ways: [included]
needs: [beds, length]
calls_for: [debris]
name_if_absent: {en: cobble edges}
wording: [{season: 2027, en: {included: "We set {{ length }} of cobbles along {{ beds }}."}}]
""",
    "material/crushed-brick.yaml": """\
clause: material.crushed-brick
decides: material
title: {en: Crushed brick}
ways: [included]
needs: [beds, depth, material]
wording: [{season: 2027, en: {included: "We spread {{ material }} {{ depth }} deep in {{ beds }}."}}]
""",
}


@pytest.fixture(scope="module")
def site(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel's contents, beside a switch that refuses every connection."""
    built, site = tmp_path_factory.mktemp("built"), tmp_path_factory.mktemp("site")
    command = [sys.executable, "-m", "pip", "wheel", "--no-deps", "--no-build-isolation", "--no-index"]
    subprocess.run([*command, "--quiet", "--wheel-dir", built, CHECKOUT], check=True, timeout=120)
    (wheel,) = built.glob("scopegen-*.whl")
    zipfile.ZipFile(wheel).extractall(site)
    (site / "sitecustomize.py").write_text(NO_NETWORK, encoding="utf-8")
    return site


@pytest.fixture(scope="module")
def foreign(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """A folder with the contractor's files, and a clause library that is nobody's business."""
    folder = tmp_path_factory.mktemp("foreign")
    (folder / "clause_library" / "edging").mkdir(parents=True)
    (folder / "clause_library" / "edging" / "cobbles.yaml").write_text(
        "clause: not this one\n", encoding="utf-8"
    )
    for name, text in CLAUSES.items():
        path = folder / "clauses" / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_text(text, encoding="utf-8")
    chart = (BASE / "prices.yaml").read_text(encoding="utf-8")
    for heading, more in (("streams:\n", STREAM), ("materials:\n", MATERIAL), ("work:\n", WORK)):
        assert heading in chart
        chart = chart.replace(heading, heading + more, 1)
    chart = chart.replace("fabric: 30.00/yd3}", "fabric: 30.00/yd3, rubble: 40.00/yd3}")
    chart = chart.replace("takes: [sod, green, mulch, fabric]", "takes: [sod, green, mulch, fabric, rubble]")
    (folder / "prices-2027.yaml").write_text(chart, encoding="utf-8")
    (folder / "company.yaml").write_text(
        (BASE / "company.yaml").read_text(encoding="utf-8"), encoding="utf-8"
    )
    plain = (BASE / "job.yaml").read_text(encoding="utf-8")
    (folder / "plain.yaml").write_text(plain, encoding="utf-8")
    job = plain.replace("use: hardwood, depth: 2 in", "use: crushed-brick, depth: 3 in")
    job = job.replace("work: recut-edge", "work: lay-cobbles")
    job = job.replace("ground: old mulch, ground_depth: 1 in", "ground: bare soil")
    job = job.replace(
        "substrate: {decided: included, work: rake-and-top-up}",
        "substrate: {decided: not-needed, because: no fabric is wanted}",
    )
    (folder / "cobbles.yaml").write_text(job, encoding="utf-8")
    return folder


def run(site: Path, foreign: Path, *words: str) -> str:
    """The shipped program, from the foreign folder."""
    env = {**os.environ, "PYTHONPATH": str(site)}
    command = [sys.executable, "-P", "-m", "scopegen", *words]
    done = subprocess.run(command, cwd=foreign, env=env, capture_output=True, text=True, timeout=120)
    assert done.returncode == 0, done.stdout + done.stderr
    return done.stdout


def test_it_is_the_shipped_program_that_runs(site: Path, foreign: Path) -> None:
    """Not the checkout's, and no network."""
    code = "import scopegen, socket; print(scopegen.__file__); socket.create_connection(('example.org', 80))"
    env = {**os.environ, "PYTHONPATH": str(site)}
    command = [sys.executable, "-P", "-c", code]
    done = subprocess.run(command, cwd=foreign, env=env, capture_output=True, text=True, timeout=60)
    assert done.stdout.strip() == str(site / "scopegen" / "__init__.py")
    assert "no network here" in done.stderr


def test_new_work_and_material_reach_price_hours_and_spoil(site: Path, foreign: Path) -> None:
    """32 ft × 10.00 = 320.00 and 32 ÷ 8 = 4 h; 6 × 6 in × 32 ft = 8 ft³ = 0.2963 yd³ of rubble, half more
    when loose, 888.89 lb. 120 ft² × 3 in = 30 ft³ = 1.1111 yd³ = 1.1111 ton, sold as 1.5 at 150.00."""
    before = json.loads(run(site, foreign, "price", "plain.yaml", "--json"))
    after = json.loads(run(site, foreign, "price", "cobbles.yaml", "--json"))
    lines = {line["id"]: line for line in after["lines"]}
    assert (lines["work:lay-cobbles"]["quantity"], lines["work:lay-cobbles"]["amount"]) == ("32", "320.00")
    brick = lines["material:crushed-brick"]
    assert (brick["quantity"], brick["unit"], brick["amount"]) == ("1.5", "ton", "225.00")
    rubble = after["spoil"]["by_stream"]["rubble"]
    assert (rubble["in_ground_yd3"], rubble["loose_yd3"], rubble["weight_lb"]) == (
        "0.2963",
        "0.4444",
        "888.8889",
    )
    assert "rubble" not in before["spoil"]["by_stream"]
    # Spread 1.1111 ÷ 0.4 = 2.7778 for 0.7407; edge 4 for 0.3556; no raking, 0.15; loading 0.4444 for 0.0412.
    more = float(after["worker_hours"]) - float(before["worker_hours"])
    assert more == pytest.approx(2.7778 - 0.7407 + 4 - 0.3556 - 0.15 + (0.4444 - 0.0412) / 1.5, abs=2e-4)


def test_new_work_and_material_reach_the_paper(site: Path, foreign: Path) -> None:
    """A word and its work in the table, a sentence for each; and the work is named as left out elsewhere."""
    run(site, foreign, "write", "agreement", "cobbles.yaml", "-o", "cobbles.html")
    run(site, foreign, "write", "agreement", "plain.yaml", "-o", "plain.html")
    cobbles, plain = (
        re.sub(r"\s+", " ", re.sub(r"<[^>]+>", " ", (foreign / f"{name}.html").read_text(encoding="utf-8")))
        for name in ("cobbles", "plain")
    )
    assert "We set 32 ft of cobbles along Front bed." in cobbles
    assert "We spread crushed brick 3 in deep in Front bed." in cobbles
    assert "included Lay a cobble edge" in cobbles
    assert "cobble edges" in plain and "cobble edges" not in cobbles
