"""Writes the golden texts anew; read the difference before it is committed."""

from tests.golden import AGREEMENTS, HERE, as_text, document

for name in AGREEMENTS:
    (HERE / f"{name}.txt").write_text(as_text(document(name)), encoding="utf-8")
    print(f"Wrote {name}.txt")
