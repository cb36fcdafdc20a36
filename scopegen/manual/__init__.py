"""The manual of the findings: what each asks, why, and what it looks like, rule by rule."""

from scopegen.manual.pages import MEANS, PAGES, Page, near, page_of
from scopegen.manual.pieces import Piece

__all__ = ["MEANS", "PAGES", "Page", "Piece", "near", "page_of"]
