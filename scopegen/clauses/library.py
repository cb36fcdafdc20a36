"""The clause library: the folder that ships, with a contractor's own folder laid over it."""

from __future__ import annotations

from dataclasses import dataclass, field
from pathlib import Path

from pydantic import ValidationError

from scopegen.clauses.clause import Clause
from scopegen.findings import Finding, Level
from scopegen.load import Source, Unreadable, load


@dataclass(frozen=True)
class Library:
    """Clauses by name, each with the file that it was read from, and what is wrong with the others."""

    clauses: dict[str, Clause] = field(default_factory=dict)
    sources: dict[str, Source] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()

    def folder(self, name: str) -> tuple[Clause, ...]:
        """The clauses of one folder, by their printing order, then by name."""
        inside = [clause for key, clause in self.clauses.items() if key.startswith(f"{name}.")]
        return tuple(sorted(inside, key=lambda clause: (clause.order, clause.clause)))


def read_library(shipped: Path, own: Path | None = None) -> Library:
    """Every clause of the shipped folder; a file of the contractor's own replaces the clause of its name.

    A file that is not sound is left out, with a finding.
    """
    clauses: dict[str, Clause] = {}
    sources: dict[str, Source] = {}
    findings: list[Finding] = []
    for folder in (shipped, *([own] if own and own.is_dir() else [])):
        for path in sorted(folder.glob("*/*.yaml")):
            if path.parent.name == "law":
                continue
            name = f"{path.parent.name}.{path.stem}"
            try:
                source = load(path, f"{folder.name}/{path.parent.name}/{path.name}")
                clause = Clause.model_validate(source.data)
            except Unreadable as error:
                findings.append(error.finding)
                continue
            except ValidationError as error:
                findings += [_fault(source, fault) for fault in error.errors(include_url=False)]
                continue
            if clause.clause != name:
                findings.append(
                    Finding(
                        "clause-name",
                        Level.STOPS,
                        f"the clause calls itself '{clause.clause}', but its file makes it '{name}'",
                        f"write 'clause: {name}', or rename the file",
                        source.place(("clause",)),
                    )
                )
                continue
            clauses[name], sources[name] = clause, source
    return Library(clauses, sources, tuple(findings))


def _fault(source: Source, fault: object) -> Finding:
    loc = tuple(getattr(fault, "loc", None) or fault["loc"])  # type: ignore[index]
    kind, context = fault["type"], fault.get("ctx", {})  # type: ignore[index, attr-defined]
    key = str(loc[-1]) if loc else ""
    message, fix = context.get("message", ""), context.get("fix", "")
    if kind == "extra_forbidden":
        message, fix = (
            f"'{key}' is not a key of a clause",
            "look at a clause of that folder for the keys that are known",
        )
    elif kind == "missing":
        message, fix = f"'{key}' is missing", f"add '{key}: …'"
    return Finding(
        "clause",
        Level.STOPS,
        message or f"this does not fit in a clause: {fault['msg']}",
        fix or "look at another clause of that folder",
        source.place(loc, key=kind == "extra_forbidden"),
    )  # type: ignore[index]
