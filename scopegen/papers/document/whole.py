"""The paper round the blocks: sections, who it comes from, what travels inside it."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date
from typing import Literal

from scopegen.papers.document.blocks import Block


@dataclass(frozen=True, slots=True)
class Section:
    """A heading with what stands under it. `number` is printed where it is not empty.

    `role`: `front` is the first page's head matter (its title is not printed), `notice` a form on a
    page of its own that can be torn off, `terms` close-set text, `exhibit` what starts on a page of its own.
    """

    key: str
    title: str
    blocks: tuple[Block | Section, ...]
    number: str = ""
    role: Literal["plain", "front", "notice", "terms", "signing", "exhibit"] = "plain"


@dataclass(frozen=True, slots=True)
class Masthead:
    """Who the paper comes from: the business name, and lines of address, phone, license."""

    name: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Attachment:
    """A file that travels inside a PDF. `relationship` is what it is to the paper: ISO 32000-2, 7.11.3."""

    name: str
    content: bytes
    relationship: Literal["Source", "Data"]
    description: str
    media_type: str


@dataclass(frozen=True, slots=True)
class Document:
    """A whole paper, ready to be drawn.

    `page_of` is the page count's wording with the blanks {page} and {pages}; `draft` is the word that
    is printed over every page of a draft, or empty. `job` is the job description that it was made from, as it
    lies below the folder of company.yaml, or empty.
    """

    kind: str
    title: str
    subtitle: str
    language: str
    page_size: Literal["letter", "A4"]
    masthead: Masthead
    running_head: str
    page_of: str
    dated: date
    sections: tuple[Section, ...]
    draft: str = ""
    direction: Literal["ltr", "rtl"] = "ltr"
    attachments: tuple[Attachment, ...] = ()
    job: str = ""
