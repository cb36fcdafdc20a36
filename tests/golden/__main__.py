"""Writes the golden texts and the examples' `clauses.lock` anew; read the difference first."""

from tests.golden import AGREEMENTS, EXAMPLES, HERE, as_text, document, lock

for name in AGREEMENTS:
    (HERE / f"{name}.txt").write_text(as_text(document(name)), encoding="utf-8")
    print(f"Wrote {name}.txt")
(EXAMPLES / "clauses.lock").write_text(lock(), encoding="utf-8")
print("Wrote clauses.lock")
