"""What kind of file something is, by what is in it; never by its name.

Sources
-------
The first bytes are those of the formats' own specifications, as [WHATWG-SNIFF]_
collects them for the web; the brands of ISO files are those that phones write
(common practice).

.. [WHATWG-SNIFF] WHATWG, "MIME Sniffing", https://mimesniff.spec.whatwg.org/
"""

from dataclasses import dataclass

# As many bytes as the longest of the marks below needs.
HEAD_BYTES = 64
BOX = 8

PHOTO_TYPES = {
    "jpg": "image/jpeg",
    "png": "image/png",
    "webp": "image/webp",
    "gif": "image/gif",
    "heic": "image/heic",
    "avif": "image/avif",
    "jxl": "image/jxl",
    "tif": "image/tiff",
}
SOUND_TYPES = {
    "m4a": "audio/mp4",
    "3gp": "audio/3gpp",
    "webm": "audio/webm",
    "ogg": "audio/ogg",
    "mp3": "audio/mpeg",
    "aac": "audio/aac",
    "wav": "audio/wav",
    "amr": "audio/amr",
    "flac": "audio/flac",
}
# Photos that are read here; of the others the original is kept without a view.
READABLE = ("jpg", "png", "webp", "gif")

# Views of a photo: the longer side in pixels.
SIZES = {"large": 1600, "small": 480}

HEIC_BRANDS = frozenset({b"heic", b"heix", b"heim", b"heis", b"hevc", b"hevx", b"mif1", b"msf1"})
AVIF_BRANDS = frozenset({b"avif", b"avis"})
MP4_BRANDS = frozenset({b"M4A ", b"M4B ", b"mp41", b"mp42", b"isom", b"iso2", b"iso5", b"iso6"})
THREE_GP = b"3g"
JXL_BOX = b"\x00\x00\x00\x0cJXL \x0d\x0a\x87\x0a"

STARTS = (
    (b"\xff\xd8\xff", "jpg"),
    (b"\x89PNG\r\n\x1a\n", "png"),
    (b"GIF87a", "gif"),
    (b"GIF89a", "gif"),
    (JXL_BOX, "jxl"),
    (b"\xff\x0a", "jxl"),
    (b"II*\x00", "tif"),
    (b"MM\x00*", "tif"),
    (b"\x1aE\xdf\xa3", "webm"),
    (b"OggS", "ogg"),
    (b"ID3", "mp3"),
    (b"\xff\xfb", "mp3"),
    (b"\xff\xf3", "mp3"),
    (b"\xff\xf2", "mp3"),
    (b"\xff\xf1", "aac"),
    (b"\xff\xf9", "aac"),
    (b"#!AMR", "amr"),
    (b"fLaC", "flac"),
)


@dataclass(frozen=True)
class FileKind:
    """What a file is.

    Attributes
    ----------
    kind : str
        ``photo`` or ``sound``.
    suffix : str
        Ending of its name.
    """

    kind: str
    suffix: str


def kind_of(head: bytes) -> FileKind | None:
    r"""Tell a file by its first bytes; nothing where it is none of the known ones.

    Examples
    --------
    >>> kind_of(b"\xff\xd8\xff\xe0")
    FileKind(kind='photo', suffix='jpg')
    >>> kind_of(b"<html>") is None
    True
    """
    suffix = suffix_of(head)
    if suffix in PHOTO_TYPES:
        return FileKind("photo", suffix)
    return FileKind("sound", suffix) if suffix in SOUND_TYPES else None


def suffix_of(head: bytes) -> str:
    """Give the ending for a file's first bytes; empty where they say nothing."""
    if head[4:8] == b"ftyp":
        return suffix_of_brand(head[8:12])
    if head[:4] == b"RIFF":
        return {b"WEBP": "webp", b"WAVE": "wav"}.get(head[8:12], "")
    return next((suffix for start, suffix in STARTS if head.startswith(start)), "")


def suffix_of_brand(brand: bytes) -> str:
    """Give the ending for the first brand of an ISO file."""
    if brand in HEIC_BRANDS:
        return "heic"
    if brand in AVIF_BRANDS:
        return "avif"
    if brand[:2] == THREE_GP:
        return "3gp"
    return "m4a" if brand in MP4_BRANDS else ""


def has_views(suffix: str) -> bool:
    """Say whether views can be made of a photo of this kind."""
    return suffix in READABLE


def is_whole(content: bytes, suffix: str) -> bool:
    """Say whether a file's own structure reaches its end.

    A photo that is read is also decoded in full; this catches what a decoder
    forgives: a missing end mark, a last box that was cut off.
    """
    if suffix in {"heic", "avif", "m4a", "3gp"}:
        return boxes_reach_end(content)
    if suffix in {"webp", "wav"}:
        return len(content) >= BOX + int.from_bytes(content[4:8], "little")
    if suffix == "png":
        return b"IEND\xaeB`\x82" in content[-4096:]
    if suffix == "gif":
        return content.rstrip(b"\x00").endswith(b";")
    return True


def boxes_reach_end(content: bytes) -> bool:
    """Walk the boxes of an ISO file to its end."""
    at = 0
    while at < len(content):
        if at + BOX > len(content):
            return False
        size = int.from_bytes(content[at : at + 4], "big")
        if size == 1:
            size = int.from_bytes(content[at + BOX : at + 2 * BOX], "big")
        elif size == 0:
            return True
        if size < BOX:
            return False
        at += size
    return at == len(content)
