"""What a file is meant to be, and what to do where it says nothing."""

from __future__ import annotations

from typing import Literal

Kind = Literal["job", "chart", "company", "clause", "law"]
FIRST_LINE: dict[Kind, str] = {
    "job": "job: Front beds",
    "chart": "season: 2027",
    "company": "name: Example Beds",
    "clause": "clause: terms.color",
    "law": "law: us-example",
}
EMPTY: dict[Kind, str] = {
    "job": "lay out a folder with `scopegen start`, and begin with the first job in it",
    "chart": "begin with 'season:' and your prices (`scopegen schema chart` has all keys); or delete it, and"
    " carry the last season's forward with `scopegen season open`",
    "company": "begin with 'name:', 'address:' and 'phone:' (`scopegen schema company` has all keys)",
    "clause": "begin with 'clause:' and its folder and file, like terms.color, then 'title:' and 'wording:'"
    " (`scopegen schema clause` has all keys); or delete the file",
    "law": "put back the page that came with the program",
}
