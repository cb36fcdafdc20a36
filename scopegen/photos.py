"""Photographs of what was found: read, turned upright, made small, and stripped of all but the picture.

A camera writes the place and the time into a photograph, and which way it was held. Nothing of that goes on:
what is kept is a new picture of the same colors.
"""

from __future__ import annotations

import warnings
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from io import BytesIO
from pathlib import Path
from typing import Any

MOST_BYTES = 60_000_000
MOST_MEMORY = 400_000_000  # bytes of a picture while it is read
# Bytes a pixel, with what it is turned into before it can be made small; Pillow keeps colors in fours.
_A_PIXEL = {"1": 5, "L": 1, "LA": 4, "P": 5, "PA": 8, "RGB": 4, "RGBA": 4, "CMYK": 4, "YCbCr": 4}
_A_PIXEL_OF_OTHERS = 12  # 16 bits of gray, and what else there may be
FEWEST = 32  # pixels on each side: less is a dot or a line on the paper
LONG_SIDE = 1000  # pixels: at 3 3/8 in wide, half a page, about 300 to the inch
QUALITY = 80  # of 100: JPEG as it is saved for print
FORMATS = ("JPEG", "PNG", "WEBP")
_OTHER_PHONE = (b"ftypheic", b"ftypheix", b"ftypmif1", b"ftyphevc", b"ftypavif")  # ISO/IEC 23008-12


@dataclass(frozen=True, slots=True)
class Photograph:
    """A picture ready for a page: JPEG in plain RGB, its size in pixels."""

    jpeg: bytes
    width: int
    height: int


@dataclass(frozen=True, slots=True)
class Unusable:
    """Why a photograph cannot be printed, and what to do."""

    why: str
    fix: str


def read_photograph(path: Path) -> Photograph | Unusable:
    """The picture in a file, or why there is none. The file is read once."""
    try:
        with path.open("rb") as file:
            raw = file.read(MOST_BYTES + 1)
    except (OSError, ValueError) as error:
        why = f"cannot be read: {getattr(error, 'strerror', None) or error}"
        return Unusable(why, "check the file and your right to read it")
    if len(raw) > MOST_BYTES:
        return Unusable(f"is larger than {MOST_BYTES // 1_000_000} MB", "save it smaller, as JPEG")
    if raw[4:12] in _OTHER_PHONE:
        return Unusable("is a HEIF picture, which cannot be printed", "export it from the phone as JPEG")
    return _photograph(raw)


def _photograph(raw: bytes) -> Photograph | Unusable:
    from PIL import (  # noqa: F401  the readers
        Image,
        JpegImagePlugin,
        PngImagePlugin,
        UnidentifiedImageError,
        WebPImagePlugin,
    )

    with warnings.catch_warnings(), _cut_short_is_found():
        warnings.simplefilter("ignore")  # of size, which is looked at here, and of odd tags
        try:
            with Image.open(BytesIO(raw), formats=FORMATS) as image:
                if min(image.size) < FEWEST:
                    why = f"is only {image.width} by {image.height} pixels, and shows nothing"
                    return Unusable(why, "name the picture as the camera took it")
                image.draft("RGB", (2 * LONG_SIDE, 2 * LONG_SIDE))  # a JPEG is decoded no larger than needed
                pixels, most = image.width * image.height, MOST_MEMORY // _a_pixel(image)
                if pixels > most:
                    return _too_large(f"has {pixels / 1_000_000:,.0f} megapixels", most)
                return _made_small(image)
        except UnidentifiedImageError:
            return Unusable("is no JPEG, PNG or WebP picture", "save it as JPEG, or name another file")
        except Image.DecompressionBombError:
            return _too_large("has far too many pixels", MOST_MEMORY // _A_PIXEL["RGB"])
        except MemoryError:
            return Unusable("needs more memory than there is", "save it smaller")
        except Exception:  # a damaged picture can end a decoder in any way
            return Unusable("is damaged or cut short", "copy it from the camera again")


@contextmanager
def _cut_short_is_found() -> Iterator[None]:
    """Other parts of the process may have told Pillow to be content with half a picture."""
    from PIL import ImageFile

    before, ImageFile.LOAD_TRUNCATED_IMAGES = ImageFile.LOAD_TRUNCATED_IMAGES, False
    try:
        yield
    finally:
        ImageFile.LOAD_TRUNCATED_IMAGES = before


def _a_pixel(image: Any) -> int:
    more = 8 if "transparency" in image.info else 0
    return more + _A_PIXEL.get(image.mode, _A_PIXEL_OF_OTHERS)


def _too_large(why: str, most: int) -> Unusable:
    return Unusable(why, f"save it smaller: {most // 1_000_000} megapixels at the most")


def _made_small(image: Any) -> Photograph:
    from PIL import Image, ImageOps

    image.load()
    written, profile = image.getexif(), image.info.get("icc_profile")
    small = _reduced(image)
    if written:
        small.info["exif"] = written.tobytes()  # which way it was held
    plain = _in_rgb(ImageOps.exif_transpose(small), profile)
    plain.thumbnail((LONG_SIDE, LONG_SIDE), Image.Resampling.LANCZOS)
    clean = Image.new("RGB", plain.size)
    clean.paste(plain)  # nothing but the colors: what was written beside them stays behind
    content = BytesIO()
    clean.save(content, "JPEG", quality=QUALITY, optimize=True)
    return Photograph(content.getvalue(), *clean.size)


def _reduced(image: Any) -> Any:
    """The picture about twice as large as it is to be, so that no later step copies all of it."""
    factor = max(image.size) // (2 * LONG_SIDE)
    if factor < 2:
        return image
    if _has_no_means(image):
        image = _in_rgb(image, None)
    return image.reduce(factor)


def _has_no_means(image: Any) -> bool:
    """Colors by number, or one that stands for nothing, cannot be averaged as they are."""
    return image.mode in ("1", "P", "PA") or image.mode.startswith(("I", "F")) or "transparency" in image.info


def _in_rgb(image: Any, profile: bytes | None) -> Any:
    """The picture in the colors that every screen takes for granted; on white where it lets through."""
    from PIL import Image

    if image.mode.startswith(("I", "F")):  # 16 bits of gray
        image = image.point(lambda value: value / 256).convert("L")
    if "A" in image.mode or "transparency" in image.info:
        over = image.convert("RGBA")
        image = Image.new("RGB", over.size, "white")
        image.paste(over, mask=over.getchannel("A"))
    if profile and image.mode in ("RGB", "L", "CMYK"):
        image = _from_profile(image, profile)
    return image.convert("RGB")


def _from_profile(image: Any, profile: bytes) -> Any:
    """From the camera's own colors to sRGB; as it is where the profile is not sound."""
    from PIL import ImageCms

    try:
        own = ImageCms.ImageCmsProfile(BytesIO(profile))
        return ImageCms.profileToProfile(image, own, ImageCms.createProfile("sRGB"), outputMode="RGB")
    except (ImageCms.PyCMSError, OSError, ValueError, TypeError):
        return image
