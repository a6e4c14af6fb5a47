"""Photos read once, in full, when they arrive; and the smaller views made of them.

A file is only taken in as a photo when every pixel of it can be read. The views
are new pictures: upright, in the colours of a screen, and without anything the
camera wrote beside the picture, such as the place it was taken at.
"""

import io
import struct
import warnings
from dataclasses import dataclass
from typing import Final

from PIL import Image, ImageCms, UnidentifiedImageError

from .kinds import SIZES

# MPO, several JPEGs in one file, is opened as JPEG.
FORMATS: Final = ("JPEG", "PNG", "WEBP", "GIF")
# A phone of 200 megapixels writes JPEG, which is read at a fraction of its size;
# any other format is unpacked whole.
MOST_PIXELS_JPEG = 210_000_000
MOST_PIXELS = 60_000_000
QUALITY = 85
# What Pillow raises for damage differs from format to format.
DAMAGE = (
    OSError,
    SyntaxError,
    ValueError,
    TypeError,
    EOFError,
    LookupError,
    ArithmeticError,
    AttributeError,
    struct.error,
)
LONGEST_TIME = 40
# What the camera says of how it was held, and what sets it upright, as Pillow maps it too.
TURNS = {
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_270,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_90,
}
SIDEWAYS = frozenset(TURNS[turned] for turned in (5, 6, 7, 8))
ORIENTATION, EXIF_PART = 0x0112, 0x8769
TAKEN, TAKEN_OFFSET = 0x9003, 0x9011
PAPER = (255, 255, 255)

Image.MAX_IMAGE_PIXELS = MOST_PIXELS_JPEG
# A picture that claims to be larger is refused from its header alone.
warnings.simplefilter("error", Image.DecompressionBombWarning)
# A damaged note of the camera's is left unread, and nobody needs to be told.
warnings.filterwarnings("ignore", category=UserWarning, module=r"PIL\.TiffImagePlugin")


class PhotoUnreadable(Exception):
    """A photo that cannot be read; the text is one sentence."""


JPEG_START, JPEG_SCAN, JPEG_END, JPEG_MARK = b"\xff\xd8", b"\xff\xda", b"\xff\xd9", b"\xff"


@dataclass(frozen=True)
class Photo:
    """What was found in a photo.

    Attributes
    ----------
    width_px, height_px : int
        Size as seen upright.
    taken : str
        Time as the camera wrote it, with its offset where it wrote one.
    views : dict of str to bytes
        Smaller pictures as JPEG, by the name of their size.
    """

    width_px: int
    height_px: int
    taken: str
    views: dict[str, bytes]


@dataclass(frozen=True)
class CameraNote:
    """What the camera wrote beside the picture, as far as it is used.

    Attributes
    ----------
    taken : str
        The time.
    turned : Image.Transpose or None
        What sets the picture upright.
    """

    taken: str
    turned: Image.Transpose | None


def read_photo(content: bytes) -> Photo:
    """Read every pixel of a photo and make its views.

    Raises
    ------
    PhotoUnreadable
        If it is cut off, damaged, too large, or none of the formats read here.
    """
    image, (width_px, height_px), note = decoded(content)
    flat = on_paper(screen_colours(image))
    upright = flat if note.turned is None else flat.transpose(note.turned)
    if note.turned in SIDEWAYS:
        width_px, height_px = height_px, width_px
    views = {name: as_jpeg(upright, longest_px) for name, longest_px in SIZES.items()}
    return Photo(width_px, height_px, note.taken, views)


def decoded(content: bytes) -> tuple[Image.Image, tuple[int, int], CameraNote]:
    """Read every pixel; give the picture, its full size, and what the camera wrote."""
    try:
        image = Image.open(io.BytesIO(content), formats=FORMATS)
        refuse_too_large(image)
        size, note = image.size, camera_note(image)
        image.draft("RGB", fitted(size, SIZES["large"]))
        image.load()
        refuse_without_end(image, content)
    except (Image.DecompressionBombError, Image.DecompressionBombWarning) as error:
        raise too_large() from error
    except UnidentifiedImageError as error:
        raise PhotoUnreadable("This file is no photo that can be read.") from error
    except DAMAGE as error:
        raise PhotoUnreadable("This photo arrived incomplete or damaged; send it again.") from error
    return image, size, note


def refuse_too_large(image: Image.Image) -> None:
    """Refuse a picture by its header, before any of it is unpacked."""
    most = MOST_PIXELS_JPEG if image.format in {"JPEG", "MPO"} else MOST_PIXELS
    if image.width * image.height > most:
        raise too_large()


def refuse_without_end(image: Image.Image, content: bytes) -> None:
    """Refuse a JPEG that lost its last bytes, though a decoder may make do without them.

    In what is scanned no byte like the mark of the end can stand, so it is looked for
    behind the head of the first scan: a small picture in the camera's note has an end too.
    """
    at = content.find(JPEG_START) + len(JPEG_START)
    while image.format in {"JPEG", "MPO"} and content[at : at + 1] == JPEG_MARK:
        if content[at : at + 2] == JPEG_SCAN:
            if JPEG_END not in content[at:]:
                raise OSError("no mark of the end")
            return
        at += 2 + int.from_bytes(content[at + 2 : at + 4], "big")


def too_large() -> PhotoUnreadable:
    """Say that a picture has too many pixels."""
    return PhotoUnreadable(
        f"This picture has too many pixels: at most {MOST_PIXELS_JPEG // 1_000_000} million as"
        f" JPEG, {MOST_PIXELS // 1_000_000} million otherwise."
    )


def fitted(size: tuple[int, int], longest_px: int) -> tuple[int, int]:
    """Give the size at which the longer side is so long, never larger than it is."""
    scale = min(1.0, longest_px / max(size))
    return max(1, round(size[0] * scale)), max(1, round(size[1] * scale))


def screen_colours(image: Image.Image) -> Image.Image:
    """Turn a picture into red, green and blue as a screen shows them."""
    if image.mode.startswith("I"):
        # Sixteen bits of grey: the upper eight are what a screen can show.
        upper = [level // 256 for level in range(65_536)]
        return image.convert("I").point(upper, "L").convert("RGB")
    has_clear_parts = image.mode in {"RGBA", "LA", "PA"} or "transparency" in image.info
    flat = image.convert("RGBA" if has_clear_parts else "RGB") if image.mode != "RGB" else image
    profile = image.info.get("icc_profile")
    if profile is None or flat.mode != "RGB" or image.mode != "RGB":
        return flat
    try:
        found = ImageCms.profileToProfile(
            flat, ImageCms.ImageCmsProfile(io.BytesIO(profile)), ImageCms.createProfile("sRGB")
        )
    except (ImageCms.PyCMSError, OSError, ValueError):
        return flat
    return flat if found is None else found


def on_paper(picture: Image.Image) -> Image.Image:
    """Lay clear parts on white."""
    if picture.mode != "RGBA":
        return picture
    paper = Image.new("RGB", picture.size, PAPER)
    paper.paste(picture, mask=picture.getchannel("A"))
    return paper


def as_jpeg(picture: Image.Image, longest_px: int) -> bytes:
    """Write a smaller picture, with nothing beside it."""
    smaller = picture.resize(
        fitted(picture.size, longest_px), Image.Resampling.LANCZOS, reducing_gap=2.0
    )
    written = io.BytesIO()
    Image.frombytes("RGB", smaller.size, smaller.tobytes()).save(
        written, "JPEG", quality=QUALITY, optimize=True, progressive=True
    )
    return written.getvalue()


def camera_note(image: Image.Image) -> CameraNote:
    """Read what the camera wrote; a note that cannot be read says nothing."""
    try:
        exif = image.getexif()
        turned = TURNS.get(exif.get(ORIENTATION, 0))
        part = exif.get_ifd(EXIF_PART)
        words = [str(part.get(tag) or "").strip("\x00 ") for tag in (TAKEN, TAKEN_OFFSET)]
    except DAMAGE:
        return CameraNote("", None)
    text = " ".join(word for word in words if word)
    fits = text.isascii() and text.isprintable() and len(text) <= LONGEST_TIME
    return CameraNote(text if fits else "", turned)
