"""`python -m scopegen`."""

from scopegen.cli import main

main()
