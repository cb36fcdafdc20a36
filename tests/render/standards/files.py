"""The files that travel inside."""

from __future__ import annotations

import re
from collections import Counter

import pikepdf

RELATIONSHIPS = {"/Source", "/Data", "/Alternative", "/Supplement", "/Unspecified"}
MEDIA_TYPE = re.compile(r"/[a-z]+/[a-z0-9.+-]+")  # RFC 6838, 4.2
DAY = re.compile(r"D:\d{14}Z")


def inside(pdf: pikepdf.Pdf) -> dict[str, pikepdf.Dictionary]:
    """Each file's entry, by the name in the tree of names."""
    tree = pdf.Root.get("/Names", {}).get("/EmbeddedFiles")
    return dict(pikepdf.NameTree(tree).items()) if tree is not None else {}


def told(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.8: what a file is to the paper, its name in Unicode, its type, and when it was made."""
    wrong = [] if inside(pdf) else ["no file inside"]
    for name, entry in inside(pdf).items():
        wrong += (
            []
            if str(entry.get("/AFRelationship")) in RELATIONSHIPS
            else [f"{name}: what is it to the paper?"]
        )
        wrong += (
            [] if str(entry.get("/UF", "")) == str(entry.get("/F", "")) == name else [f"{name}: other names"]
        )
        wrong += [] if str(entry.get("/Desc", "")) else [f"{name}: no description"]
        file = entry.get("/EF", {}).get("/F")
        if file is None:
            wrong.append(f"{name}: nothing in it")
            continue
        wrong += [] if MEDIA_TYPE.fullmatch(str(file.get("/Subtype", ""))) else [f"{name}: no type"]
        said = file.get("/Params", {})
        wrong += [
            f"{name}: {key}" for key in ("/ModDate", "/CreationDate") if not DAY.fullmatch(str(said.get(key)))
        ]
        wrong += [] if int(said.get("/Size", -1)) == len(file.read_bytes()) else [f"{name}: another size"]
    return wrong


def belong(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.8 and annex E: each file belongs to the paper, and is listed once."""
    listed = Counter(entry.objgen for entry in pdf.Root.get("/AF", []))
    return [
        f"{name} is listed {listed[e.objgen]} times"
        for name, e in inside(pdf).items()
        if listed[e.objgen] != 1
    ]


def sorted_names(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 32000-1, 7.9.6: the names of a tree stand in the order of their bytes."""
    names = [bytes(name) for name in pdf.Root.Names.EmbeddedFiles.get("/Names", [])[::2]]
    return [] if names == sorted(names) else [f"names out of order: {names}"]


CHECKS = (told, belong, sorted_names)
