"""What the law asks of a sale, page by page of a jurisdiction: data, never code, and no legal advice."""

from scopegen.law.days import FEDERAL, LastDay
from scopegen.law.listing import Jurisdiction, jurisdictions
from scopegen.law.page import Deposit, Form, Law
from scopegen.law.reading import read_laws
from scopegen.law.rights import Given, Right, Rights, latest, pages_for, rights_of, unworded_in

__all__ = [
    "FEDERAL",
    "Deposit",
    "Form",
    "Given",
    "Jurisdiction",
    "LastDay",
    "Law",
    "Right",
    "Rights",
    "jurisdictions",
    "latest",
    "pages_for",
    "read_laws",
    "rights_of",
    "unworded_in",
]
