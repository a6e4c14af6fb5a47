"""Files that came from elsewhere, sent so that nothing in them can run."""

import os
import re
from collections.abc import Iterator
from pathlib import Path

from django.http import FileResponse, HttpRequest, HttpResponse, StreamingHttpResponse
from django.http.response import HttpResponseBase

INERT = {
    "X-Content-Type-Options": "nosniff",
    "Content-Security-Policy": "sandbox; default-src 'none'",
    "Cache-Control": "private, max-age=86400",
}
ONE_RANGE = re.compile(r"bytes=(\d{0,15})-(\d{0,15})\Z")
CHUNK_BYTES = 1 << 16


def inert_file(
    request: HttpRequest, path: Path, *, content_type: str, name: str, attachment: bool
) -> HttpResponseBase:
    """Send a file; a part of it where a player asks for one.

    Parameters
    ----------
    request : HttpRequest
        May ask for one range of bytes; more than one gets the whole file.
    path : Path
        The file.
    content_type : str
        What it is, as this program knows it and not as it was announced.
    name : str
        Name to save it under.
    attachment : bool
        Whether a browser is to save it rather than show it.
    """
    size = path.stat().st_size
    way = "attachment" if attachment else "inline"
    asked = wanted_range(request.headers.get("Range", ""), size)
    if asked is None:
        answer: HttpResponseBase = FileResponse(
            path.open("rb"), as_attachment=attachment, filename=name, content_type=content_type
        )
    elif not asked:
        answer = HttpResponse(status=416, headers={"Content-Range": f"bytes */{size}"})
    else:
        answer = StreamingHttpResponse(
            part_of(path, asked),
            status=206,
            content_type=content_type,
            headers={
                "Content-Range": f"bytes {asked.start}-{asked.stop - 1}/{size}",
                "Content-Length": str(len(asked)),
                "Content-Disposition": f'{way}; filename="{name}"',
            },
        )
    answer.headers["Accept-Ranges"] = "bytes"
    for header, value in INERT.items():
        answer.headers[header] = value
    return answer


def wanted_range(header: str, size: int) -> range | None:
    """Read the one range a player asks for.

    Returns
    -------
    range or None
        None for the whole file; an empty range for one that cannot be met.

    Examples
    --------
    >>> wanted_range("bytes=0-1", 10), wanted_range("bytes=-3", 10), wanted_range("", 10)
    (range(0, 2), range(7, 10), None)
    """
    match = ONE_RANGE.match(header)
    if match is None or not (match[1] or match[2]):
        return None
    if not match[1]:
        return range(max(0, size - int(match[2])), size)
    first = int(match[1])
    last = min(int(match[2]), size - 1) if match[2] else size - 1
    return range(first, last + 1) if first <= last else range(0)


def part_of(path: Path, asked: range) -> Iterator[bytes]:
    """Give the bytes of a range."""
    with path.open("rb") as file:
        file.seek(asked.start, os.SEEK_SET)
        left = len(asked)
        while left and (chunk := file.read(min(CHUNK_BYTES, left))):
            left -= len(chunk)
            yield chunk
