"""The one set-up command of a checkout: `python3 -m scopegen.setup example` and `... test`.

Standard library only: it runs before any package is installed.
"""
