"""Photographs: upright, small, without the place they were taken at; and what is no picture is told."""

from __future__ import annotations

import struct
import subprocess
import sys
import zlib
from io import BytesIO
from pathlib import Path
from typing import Any

import pytest
from PIL import Image, ImageCms, ImageFile

from scopegen.photos import LONG_SIDE, MOST_MEMORY, Photograph, Unusable, read_photograph

RED, BLUE = (200, 30, 30), (30, 30, 200)


def halves(width: int = 80, height: int = 60) -> Image.Image:
    """A picture whose left half is red and whose right half is blue."""
    image = Image.new("RGB", (width, height), RED)
    image.paste(BLUE, (width // 2, 0, width, height))
    return image


def taken(folder: Path, image: Image.Image, name: str = "bed.jpg", **options: Any) -> Photograph:
    path = folder / name
    image.save(path, **options)
    photograph = read_photograph(path)
    assert isinstance(photograph, Photograph), photograph
    return photograph


def shown(photograph: Photograph) -> Image.Image:
    image = Image.open(BytesIO(photograph.jpeg))
    assert (image.format, image.mode, image.size) == ("JPEG", "RGB", (photograph.width, photograph.height))
    return image


def near(one: tuple[int, ...], other: tuple[int, ...]) -> bool:
    return all(abs(a - b) < 12 for a, b in zip(one, other, strict=True))


def why(path: Path) -> str:
    unusable = read_photograph(path)
    assert isinstance(unusable, Unusable) and unusable.fix
    return unusable.why


# What each value of Exif's Orientation says of where the picture's top is (Exif 2.32, JEITA CP-3451, 4.6.4),
# and where the red half then comes to lie: (size, a point in the red).
ORIENTATIONS = {
    1: ((80, 60), (10, 30)),
    2: ((80, 60), (70, 30)),
    3: ((80, 60), (70, 30)),
    4: ((80, 60), (10, 30)),
    5: ((60, 80), (30, 10)),
    6: ((60, 80), (30, 10)),
    7: ((60, 80), (30, 70)),
    8: ((60, 80), (30, 70)),
}


@pytest.mark.parametrize("orientation", ORIENTATIONS)
def test_turned_upright(tmp_path: Path, orientation: int) -> None:
    """However the phone was held, up is up."""
    exif = Image.Exif()
    exif[0x0112] = orientation
    size, red = ORIENTATIONS[orientation]
    image = shown(taken(tmp_path, halves(), exif=exif))
    assert image.size == size
    assert near(image.getpixel(red), RED)


def test_location_and_all_else_is_left_behind(tmp_path: Path) -> None:
    """The place, the time, the camera, a comment: nothing of it is in what is printed."""
    exif = Image.Exif()
    exif[0x010F], exif[0x9003] = "Camera of Rosa", "2027:03:18 10:11:12"
    exif.get_ifd(0x8825).update({1: "N", 2: (40.0, 26.0, 46.0), 3: "W", 4: (79.0, 58.0, 56.0)})
    path = tmp_path / "bed.jpg"
    halves().save(path, exif=exif, comment=b"secret remark")
    with Image.open(path) as image:
        assert b"Camera of Rosa" in path.read_bytes() and image.getexif().get_ifd(0x8825)
    photograph = read_photograph(path)
    assert isinstance(photograph, Photograph)
    for remark in (b"Exif", b"Rosa", b"secret", b"2027", b"ICC_PROFILE"):
        assert remark not in photograph.jpeg
    assert not shown(photograph).getexif()


def test_scaled_down_and_never_up(tmp_path: Path) -> None:
    """A large picture ends at the long side's limit with its proportions; a small one stays."""
    large = taken(tmp_path, halves(4000, 3000))
    assert (large.width, large.height) == (LONG_SIDE, LONG_SIDE * 3 // 4)
    assert len(large.jpeg) < 200_000
    assert taken(tmp_path, halves(80, 60)).width == 80


@pytest.mark.parametrize("name", ["bed.png", "bed.webp", "bed.jpeg", "bed"])
def test_read_by_what_it_is_and_not_by_its_name(tmp_path: Path, name: str) -> None:
    """PNG, WebP and JPEG are read, whatever the file is called."""
    kind = {"bed.png": "PNG", "bed.webp": "WEBP"}.get(name, "JPEG")
    image = shown(taken(tmp_path, halves(), name, format=kind))
    assert near(image.getpixel((10, 30)), RED) and near(image.getpixel((70, 30)), BLUE)


def test_every_kind_of_color_comes_out_as_seen(tmp_path: Path) -> None:
    """What lets the ground through stands on white; gray of 16 bits, a palette and inks keep their tones."""
    through = Image.new("RGBA", (40, 40), (0, 0, 0, 0))
    assert near(shown(taken(tmp_path, through, "a.png")).getpixel((5, 5)), (255, 255, 255))
    deep = Image.new("I;16", (40, 40), 0x8000)
    assert near(shown(taken(tmp_path, deep, "b.png")).getpixel((5, 5)), (128, 128, 128))
    palette = halves().quantize(4)
    assert near(shown(taken(tmp_path, palette, "c.png")).getpixel((10, 30)), RED)
    inks = Image.new("CMYK", (40, 40), (0, 255, 255, 0))
    red, green, blue = shown(taken(tmp_path, inks, "d.jpg")).getpixel((5, 5))
    assert red > 200 and green < 60 and blue < 60


def test_a_cameras_own_colors_become_those_of_a_screen(tmp_path: Path) -> None:
    """In a profile whose red and blue primaries are swapped, what is written as red is blue. A profile that
    is not sound changes nothing."""
    profile = ImageCms.ImageCmsProfile(ImageCms.createProfile("sRGB")).tobytes()
    for old, new in ((b"rXYZ", b"????"), (b"bXYZ", b"rXYZ"), (b"????", b"bXYZ")):
        profile = profile.replace(old, new)
    red = Image.new("RGB", (40, 40), RED)
    assert near(shown(taken(tmp_path, red, icc_profile=profile)).getpixel((5, 5)), BLUE)
    assert near(shown(taken(tmp_path, red, icc_profile=b"no profile")).getpixel((5, 5)), RED)


def test_same_picture_same_bytes(tmp_path: Path) -> None:
    """Read twice it is the same, so that a paper stays the same."""
    assert taken(tmp_path, halves(3000, 2000)) == taken(tmp_path, halves(3000, 2000))


def test_what_is_no_picture_is_told(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Another kind of file, one of nothing, one cut short, one from a phone that writes HEIF."""
    monkeypatch.setattr(ImageFile, "LOAD_TRUNCATED_IMAGES", True)  # as WeasyPrint leaves it
    path = tmp_path / "bed.jpg"
    path.write_bytes(b"%PDF-1.7 no picture")
    assert why(path) == "is no JPEG, PNG or WebP picture"
    path.write_bytes(b"")
    assert why(path) == "is no JPEG, PNG or WebP picture"
    path.write_bytes(b"\0\0\0\x18ftypheic\0\0\0\0mif1heic")
    assert why(path) == "is a HEIF picture, which cannot be printed"
    halves(800, 600).save(path)
    whole = path.read_bytes()
    path.write_bytes(whole[: len(whole) // 2])
    assert why(path) == "is damaged or cut short"
    Image.new("RGB", (40, 40)).save(path, "GIF")
    assert why(path) == "is no JPEG, PNG or WebP picture"
    path.unlink()
    assert why(path).startswith("cannot be read: ")


@pytest.mark.parametrize(("width", "height"), [(16_000, 12_500), (60_000, 60_000)])
def test_far_too_large_a_picture_is_not_unpacked(tmp_path: Path, width: int, height: int) -> None:
    """A small file that says it has 200 megapixels, or thousands, is told without being read."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = chunk(b"IHDR", struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0))
    path = tmp_path / "bed.png"
    path.write_bytes(
        b"\x89PNG\r\n\x1a\n" + head + chunk(b"IDAT", zlib.compress(b"\0" * 1000)) + chunk(b"IEND", b"")
    )
    assert why(path) in ("has 200 megapixels", "has far too many pixels")


@pytest.mark.parametrize("size", [(1, 1), (31, 400), (400, 31)])
def test_a_dot_or_a_line_is_no_picture(tmp_path: Path, size: tuple[int, int]) -> None:
    """It would print as nothing over its caption; 32 pixels on each side are taken."""
    path = tmp_path / "bed.png"
    Image.new("RGB", size, RED).save(path)
    assert why(path) == f"is only {size[0]} by {size[1]} pixels, and shows nothing"
    Image.new("RGB", (32, 400), RED).save(path)
    assert isinstance(read_photograph(path), Photograph)


def test_a_file_of_many_megabytes_is_not_taken(tmp_path: Path) -> None:
    """Nothing beyond the limit is read."""
    path = tmp_path / "bed.jpg"
    with path.open("wb") as file:
        file.truncate(61_000_000)
    assert why(path) == "is larger than 60 MB"


def test_damaged_anywhere_it_never_breaks_the_program(tmp_path: Path) -> None:
    """Bytes changed all over a picture give a picture or a sentence, never anything else."""
    path = tmp_path / "bed.jpg"
    exif = Image.Exif()
    exif[0x0112] = 6
    halves(120, 90).save(path, exif=exif)
    whole, ends = path.read_bytes(), set()
    for position in range(0, len(whole), 3):
        damaged = bytearray(whole)
        damaged[position] ^= 0xFF
        path.write_bytes(damaged)
        ends.add(type(read_photograph(path)))
    assert ends == {Photograph, Unusable}


# Pictures that are small as files and large when they are unpacked, each just within what is taken.
@pytest.mark.parametrize(
    ("mode", "size"),
    [("RGBA", (9_900, 10_000)), ("RGB", (9_900, 10_000)), ("L", (13_000, 13_700)), ("P", (8_900, 8_900)),
     ("I;16", (5_700, 5_800)), ("1", (8_900, 8_900))],
)  # fmt: skip
def test_a_large_picture_takes_no_more_memory_than_said(
    tmp_path: Path, mode: str, size: tuple[int, int]
) -> None:
    """Twice the most that the picture itself may take, beside the program (getrusage(2))."""
    Image.MAX_IMAGE_PIXELS = None
    Image.new(mode, size).save(tmp_path / "wide.png")
    script = (
        "import resource, sys; from pathlib import Path; from scopegen.photos import read_photograph;"
        "import PIL.Image, PIL.ImageOps, PIL.ImageCms;"
        "before = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss;"
        "print(type(read_photograph(Path(sys.argv[1]))).__name__);"
        "print(resource.getrusage(resource.RUSAGE_SELF).ru_maxrss - before)"
    )
    run = subprocess.run(
        [sys.executable, "-c", script, str(tmp_path / "wide.png")], capture_output=True, text=True, check=True
    )
    kind, more = run.stdout.split()
    assert kind == "Photograph"
    assert int(more) * 1024 < 2 * MOST_MEMORY


def test_a_picture_that_is_too_large_for_its_colors_is_told(tmp_path: Path) -> None:
    """With four bytes a pixel less fits than with one; where memory ends, that is what is said."""
    Image.MAX_IMAGE_PIXELS = None
    Image.new("RGBA", (10_900, 11_000)).save(tmp_path / "wide.png")
    unusable = read_photograph(tmp_path / "wide.png")
    assert unusable == Unusable("has 120 megapixels", "save it smaller: 100 megapixels at the most")
