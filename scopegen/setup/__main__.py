"""Checks the Python version, then hands over.

Written so that a much older Python can still read this file and say so.
"""

import sys

OLDEST = (3, 11)


def too_old(version):
    """The sentence for a Python that is too old, or None. `version` starts with major and minor."""
    if tuple(version[:2]) >= OLDEST:
        return None
    return (
        "scopegen needs Python {}.{} or later and this is {}.{}: run the same command with a newer one, "
        "for example python{}.{}.".format(OLDEST[0], OLDEST[1], version[0], version[1], OLDEST[0], OLDEST[1])
    )


if __name__ == "__main__":
    sentence = too_old(sys.version_info)
    if sentence:
        sys.exit(sentence)
    try:
        from scopegen.setup.command import main
    except ImportError as error:
        sys.exit(
            "This Python lacks a part of its own standard library ({}): install the whole Python, for "
            "example with `apt-get install python3`, then run the same command again.".format(error.name)
        )
    sys.exit(main(sys.argv[1:]))
