"""What cannot be done with a season, in the contractor's words."""

from __future__ import annotations


class Refused(Exception):
    """The text says why, and what to do."""
