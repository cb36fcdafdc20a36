"""The whole file: its title, its language, its marks, its colors, and that nothing in it runs."""

from __future__ import annotations

import re
from xml.etree import ElementTree

import pikepdf

RDF = "{http://www.w3.org/1999/02/22-rdf-syntax-ns#}"
PDFA = "{http://www.aiim.org/pdfa/ns/id/}"
PDFUA = "{http://www.aiim.org/pdfua/ns/id/}"
SCHEMA = "{http://www.aiim.org/pdfa/ns/schema#}"
PROPERTY = "{http://www.aiim.org/pdfa/ns/property#}"
LANGUAGE = re.compile(r"[a-z]{2,3}(-[A-Za-z0-9]{2,8})*")  # IETF BCP 47, as far as papers need it
# ISO 19005-3, 6.5.1: what may not happen
ACTIONS = {
    "/Launch", "/Sound", "/Movie", "/ResetForm", "/ImportData", "/Hide", "/SetOCGState", "/Rendition",
    "/Trans", "/GoTo3DView", "/JavaScript",
}  # fmt: skip


def marked(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.1; ISO 19005-3, 6.7.2.2: the file says that it is tagged, and doubts no tag."""
    info = pdf.Root.get("/MarkInfo", {})
    wrong = [] if info.get("/Marked") is True else ["not marked as tagged"]
    return wrong + (["its tags are suspect"] if info.get("/Suspects") is True else [])


def language(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.2; ISO 32000-1, 14.9.2.2: the language of the whole."""
    said = str(pdf.Root.get("/Lang", ""))
    return [] if LANGUAGE.fullmatch(said) else [f"no language: '{said}'"]


def title(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 7.1: a title in the metadata, shown in place of the file's name; ISO 19005-3, 6.6.3: what
    the old dictionary says beside it is the same."""
    wrong = []
    if pdf.Root.get("/ViewerPreferences", {}).get("/DisplayDocTitle") is not True:
        wrong.append("its title is not shown")
    with pdf.open_metadata(set_pikepdf_as_editor=False, update_docinfo=False) as metadata:
        named = metadata.get("dc:title", "")
    if not named:
        wrong.append("no title")
    if str(pdf.docinfo.get("/Title", "")) != named:
        wrong.append("two titles")
    return wrong


def standards(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 14289-1, 5; ISO 19005-3, 6.6.4: the marks of both; 6.6.2.3.3: the one that PDF/A does not know is
    described; 6.6.2.1: the metadata are well-formed."""
    if "/Metadata" not in pdf.Root:
        return ["no metadata"]
    tree = ElementTree.fromstring(pdf.Root.Metadata.read_bytes())
    said = {key: value for element in tree.iter(f"{RDF}Description") for key, value in element.items()}
    wanted = {f"{PDFA}part": "3", f"{PDFA}conformance": "A", f"{PDFUA}part": "1"}
    wrong = [f"no mark {key}={value}" for key, value in wanted.items() if said.get(key) != value]
    described = {element.text for element in tree.iter(f"{SCHEMA}prefix")}
    properties = {element.text for element in tree.iter(f"{PROPERTY}name")}
    if "pdfuaid" not in described or "part" not in properties:
        wrong.append("the mark of PDF/UA is not described")
    return wrong


def colors(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.2.3: one profile for all colors that are named by their device."""
    intents = [each for each in pdf.Root.get("/OutputIntents", []) if each.S == "/GTS_PDFA1"]
    if len(intents) != 1:
        return [f"{len(intents)} output intents"]
    profile = intents[0].DestOutputProfile
    sound = int(profile.N) == 3 and profile.read_bytes()[36:40] == b"acsp"  # ICC.1:2010, 7.2.13
    return [] if sound else ["no sound profile of three colors"]


def nothing_runs(pdf: pikepdf.Pdf) -> list[str]:
    """ISO 19005-3, 6.5.1 and 6.5.2 (actions), 6.1.3 (no lock), 6.4.1 (no field left to be drawn)."""
    wrong = [key for key in ("/OpenAction", "/AA") if key in pdf.Root]
    wrong += ["scripts"] if "/JavaScript" in pdf.Root.get("/Names", {}) else []
    wrong += ["locked"] if "/Encrypt" in pdf.trailer or pdf.is_encrypted else []
    wrong += ["NeedAppearances"] if pdf.Root.get("/AcroForm", {}).get("/NeedAppearances") is True else []
    for each in pdf.objects:
        if isinstance(each, pikepdf.Dictionary):
            wrong += ["additional actions"] if "/AA" in each else []
            wrong += [f"action {each.S}"] if str(each.get("/S", "")) in ACTIONS else []
    return wrong


def syntax(pdf: pikepdf.Pdf) -> list[str]:
    """What `qpdf --check` finds (the same library); ISO 19005-3, 6.1.3: the file has an identifier."""
    wrong = [str(problem) for problem in pdf.check_pdf_syntax()]
    return wrong + ([] if "/ID" in pdf.trailer else ["no identifier"])


CHECKS = (marked, language, title, standards, colors, nothing_runs, syntax)
