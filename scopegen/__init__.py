"""From the notes of a walk to a written agreement for landscape bed work.

This file imports nothing: `python3 -m scopegen.setup` runs before any package is installed.
"""

__version__ = "0.1.0"
