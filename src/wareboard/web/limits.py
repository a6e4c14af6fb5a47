"""How much a request may bring, checked before any of it is read."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse, HttpResponseBase

# The largest photo that is taken in, and what a form has around it.
LARGEST_BODY_BYTES = 100_000_000


def announced_bytes(length: str | None) -> int | None:
    """Give the announced length of a body; None for one that is too much or no number."""
    text = length or "0"
    if not text.isascii() or not text.isdigit() or int(text[:20]) > LARGEST_BODY_BYTES:
        return None
    return int(text)


class NotTooMuch:
    """Refuse a body that announces more than the studio takes in.

    A body without an announced length is read as an empty one, so nothing
    larger than this gets further.
    """

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer 413 before the body is read."""
        if announced_bytes(request.META.get("CONTENT_LENGTH")) is None:
            answer = HttpResponse(
                f"That is too much at once: at most {LARGEST_BODY_BYTES // 1_000_000} MB.\n",
                status=413,
                content_type="text/plain",
            )
            answer.headers["Connection"] = "close"
            return answer
        return self.get_response(request)
