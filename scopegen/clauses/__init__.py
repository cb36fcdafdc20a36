"""The clause library: read, choose, fill, with the reason for each choice."""

from scopegen.clauses.asked import clauses_named
from scopegen.clauses.choose import choose
from scopegen.clauses.clause import Clause, Version
from scopegen.clauses.in_force import InForce, Ruling, Wording
from scopegen.clauses.library import Library, read_library
from scopegen.clauses.values import Chosen, ClauseTrouble, Said, Term

__all__ = [
    "Chosen",
    "Clause",
    "ClauseTrouble",
    "InForce",
    "Library",
    "Ruling",
    "Said",
    "Term",
    "Version",
    "Wording",
    "choose",
    "clauses_named",
    "read_library",
]
