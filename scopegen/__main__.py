"""`python -m scopegen`."""

from scopegen.cli import main

if __name__ == "__main__":  # the processes of `write` import this module too
    main()
