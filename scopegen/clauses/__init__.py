"""The clause library: read, choose, fill, with the reason for each choice."""

from scopegen.clauses.choose import choose
from scopegen.clauses.clause import Clause, Version
from scopegen.clauses.library import Library, read_library
from scopegen.clauses.values import Chosen, ClauseTrouble, Said, Term

__all__ = [
    "Chosen",
    "Clause",
    "ClauseTrouble",
    "Library",
    "Said",
    "Term",
    "Version",
    "choose",
    "read_library",
]
