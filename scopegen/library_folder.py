"""Where the clause library that ships with the program lies."""

from importlib import resources
from pathlib import Path


def library_folder() -> Path:
    """The folder of clauses: inside the package when installed, beside it in a checkout.

    Raises FileNotFoundError, naming both places, where the installation has lost it.
    """
    package = Path(str(resources.files("scopegen")))
    places = (package / "clause_library", package.parent / "clause_library")
    for place in places:
        if place.is_dir():
            return place
    raise FileNotFoundError(
        f"the clause library is missing, it is neither at {places[0]} nor at {places[1]}: "
        "install scopegen again"
    )
