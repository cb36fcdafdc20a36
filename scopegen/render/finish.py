"""The last touches on a PDF before it is written, so that it is PDF/A-3a and PDF/UA-1 at once.

They reach into WeasyPrint's and pydyf's own objects, which are no public contract: both are pinned, and
tests/render holds each touch.
"""

from __future__ import annotations

from typing import Any

# The mark of PDF/UA-1 (ISO 14289-1, 5), and the schema by which it may stand in XMP (ISO 19005-3, 6.6.2.3).
UA_MARK = b"""<rdf:Description rdf:about=""
 xmlns:pdfuaid="http://www.aiim.org/pdfua/ns/id/" pdfuaid:part="1"/>
<rdf:Description rdf:about=""
 xmlns:pdfaExtension="http://www.aiim.org/pdfa/ns/extension/"
 xmlns:pdfaSchema="http://www.aiim.org/pdfa/ns/schema#"
 xmlns:pdfaProperty="http://www.aiim.org/pdfa/ns/property#">
<pdfaExtension:schemas><rdf:Bag><rdf:li rdf:parseType="Resource">
<pdfaSchema:schema>PDF/UA Universal Accessibility Schema</pdfaSchema:schema>
<pdfaSchema:namespaceURI>http://www.aiim.org/pdfua/ns/id/</pdfaSchema:namespaceURI>
<pdfaSchema:prefix>pdfuaid</pdfaSchema:prefix>
<pdfaSchema:property><rdf:Seq><rdf:li rdf:parseType="Resource">
<pdfaProperty:name>part</pdfaProperty:name>
<pdfaProperty:valueType>Integer</pdfaProperty:valueType>
<pdfaProperty:category>internal</pdfaProperty:category>
<pdfaProperty:description>Indicates, which part of ISO 14289 standard is followed</pdfaProperty:description>
</rdf:li></rdf:Seq></pdfaSchema:property>
</rdf:li></rdf:Bag></pdfaExtension:schemas></rdf:Description>
"""

POINTS = 0.75  # to a CSS pixel: 96 pixels and 72 points to the inch
SIGNATURES_EXIST = 1  # ISO 32000-1, table 219: bit 1


def finish(document: Any, pdf: Any) -> None:
    """WeasyPrint calls this with its document and the PDF's objects."""
    objects = {entry.reference: entry for entry in pdf.objects if getattr(entry, "number", None)}
    _name_header_scopes(pdf, objects)
    _list_the_headers(pdf, objects)
    _place_figures(pdf, objects)
    _take_the_foot_out_of_the_reading(pdf, objects)
    _finish_fields(pdf, objects)
    _list_attachments_once(pdf)
    _mark_as_readable(pdf, objects)


def _name_header_scopes(pdf: Any, objects: dict[bytes, Any]) -> None:
    """Says of each header cell what it heads: ISO 32000-1, table 349 (Scope)."""
    import pydyf

    for entry in pdf.objects:
        if isinstance(entry, dict) and entry.get("S") == "/TH":
            group = objects[objects[entry["P"]]["P"]]
            attributes = entry.setdefault("A", pydyf.Dictionary({"O": "/Table"}))
            attributes["Scope"] = "/Column" if group.get("S") == "/THead" else "/Row"


def _list_the_headers(pdf: Any, objects: dict[bytes, Any]) -> None:
    """The tree by which a cell's headers are found, which is there where an element has an identifier: ISO
    32000-1, table 322 (IDTree)."""
    import pydyf

    heads = [
        each for each in pdf.objects if isinstance(each, dict) and each.get("S") == "/TH" and "ID" in each
    ]
    if heads:
        heads.sort(key=lambda head: bytes(head["ID"].data))
        names = pydyf.Array(entry for head in heads for entry in (head["ID"], head.reference))
        objects[pdf.catalog["StructTreeRoot"]]["IDTree"] = pydyf.Dictionary({"Names": names})


def _place_figures(pdf: Any, objects: dict[bytes, Any]) -> None:
    """Where a figure is, in points from the page's lower left corner: ISO 32000-1, table 344 (BBox).

    WeasyPrint 70.0 says it in pixels from the upper left one.
    """
    import pydyf

    for figure in [each for each in pdf.objects if isinstance(each, dict) and each.get("S") == "/Figure"]:
        height = objects[figure["Pg"]]["MediaBox"][3]
        left, top, right, bottom = (POINTS * side for side in figure["A"]["BBox"])
        figure["A"]["BBox"] = pydyf.Array((left, height - bottom, right, height - top))


def _take_the_foot_out_of_the_reading(pdf: Any, objects: dict[bytes, Any]) -> None:
    """What stands in a page's margin is an artifact (ISO 14289-1, 7.8), which nobody is read on every page.

    WeasyPrint 70.0 marks it as text of an element that hangs on no other.
    """
    import pydyf

    root = objects[pdf.catalog["StructTreeRoot"]]
    read = _reachable(root["K"], objects)
    numbers = objects[root["ParentTree"]]["Nums"]
    by_page = dict(zip(numbers[::2], numbers[1::2], strict=True))
    for page in [each for each in pdf.objects if isinstance(each, dict) and each.get("Type") == "/Page"]:
        elements = by_page[page["StructParents"]]
        loose = {number for number, element in enumerate(elements) if element not in read}
        content = objects[page["Contents"]].stream
        for place, operand in enumerate(content):
            if isinstance(operand, dict) and operand.get("MCID") in loose:
                content[place - 1] = "/Artifact"
                content[place] = pydyf.Dictionary({"Type": "/Pagination", "Subtype": "/Footer"})
        elements[:] = [b"null" if number in loose else each for number, each in enumerate(elements)]
    for element in pdf.objects:
        if (
            isinstance(element, dict)
            and element.get("Type") == "/StructElem"
            and element.reference not in read
        ):
            element.clear()  # its number stays: the table of a compressed file counts every object


def _reachable(kids: Any, objects: dict[bytes, Any]) -> set[bytes]:
    """The references of all elements below some."""
    found: set[bytes] = set()
    waiting = list(kids)
    while waiting:
        reference = waiting.pop()
        if isinstance(reference, bytes) and reference not in found and reference in objects:
            found.add(reference)
            waiting += objects[reference].get("K", [])
    return found


def _finish_fields(pdf: Any, objects: dict[bytes, Any]) -> None:
    """Gives each field the look that it has while nothing is filled in (ISO 19005-3, 6.3.3), and makes the
    places to sign fields for a signature."""
    form = pdf.catalog.get("AcroForm")
    if form is None:
        return
    form.pop("NeedAppearances", None)  # ISO 19005-3, 6.4.1: what a field looks like is in the file
    for field in [
        entry for entry in pdf.objects if isinstance(entry, dict) and entry.get("Subtype") == "/Widget"
    ]:
        if field.get("FT") == "/Btn":
            field["AP"]["N"]["Off"] = _empty(pdf, field, form)
        elif field["T"].string.endswith("_signature"):
            for key in ("DA", "V", "MaxLen", "Ff"):
                field.pop(key, None)
            field["FT"] = "/Sig"
            form["SigFlags"] = SIGNATURES_EXIST
            field["AP"] = _look(_empty(pdf, field, form))
        else:
            field["AP"] = _look(_empty(pdf, field, form, b"/Tx BMC", b"EMC"))


def _look(reference: bytes) -> Any:
    import pydyf

    return pydyf.Dictionary({"N": reference})


def _empty(pdf: Any, field: Any, form: Any, *content: bytes) -> bytes:
    """A drawing of the field's size with nothing to be seen in it."""
    import pydyf

    x1, y1, x2, y2 = (float(value) for value in field["Rect"])
    box = pydyf.Array((0, 0, round(abs(x2 - x1), 3), round(abs(y2 - y1), 3)))
    extra = {"Type": "/XObject", "Subtype": "/Form", "BBox": box, "Resources": form["DR"]}
    stream = pydyf.Stream(list(content) or [b""], extra, compress=True)
    pdf.add_object(stream)
    reference: bytes = stream.reference
    return reference


def _list_attachments_once(pdf: Any) -> None:
    """WeasyPrint 70.0 lists each attachment of a PDF/A-3 twice."""
    import pydyf

    if "AF" in pdf.catalog:
        pdf.catalog["AF"] = pydyf.Array(dict.fromkeys(pdf.catalog["AF"]))


def _mark_as_readable(pdf: Any, objects: dict[bytes, Any]) -> None:
    metadata = objects[pdf.catalog["Metadata"]]
    (content,) = metadata.stream
    metadata.stream = [content.replace(b"</rdf:RDF>", UA_MARK + b"</rdf:RDF>")]
