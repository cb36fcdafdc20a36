"""A PDF held against ISO 32000-1 (PDF 1.7), ISO 14289-1 (PDF/UA-1) and ISO 19005-3 (PDF/A-3).

Each check is a function from an opened PDF to its complaints. The clauses beside the checks are from memory
of the published standards; those of PDF/UA-1 also stand in the Matterhorn Protocol.
"""

from __future__ import annotations

from collections.abc import Callable

import pikepdf

from . import catalog, content, fields, files, fonts, structure

Check = Callable[[pikepdf.Pdf], list[str]]

CHECKS: tuple[Check, ...] = (
    *catalog.CHECKS, *structure.CHECKS, *content.CHECKS, *fonts.CHECKS, *fields.CHECKS, *files.CHECKS,
)  # fmt: skip
