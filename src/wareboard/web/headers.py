"""Headers that keep a page to itself."""

from collections.abc import Callable

from django.http import HttpRequest, HttpResponseBase

POLICY = "; ".join(  # noqa: FLY002 - one line a source reads better than one long line
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self' blob:",
        "media-src 'self' blob:",
        "font-src 'self'",
        "connect-src 'self'",
        "manifest-src 'self'",
        "worker-src 'self'",
        "form-action 'self'",
        "base-uri 'none'",
        "frame-ancestors 'none'",
    )
)
# For files that came from elsewhere: nothing in them runs, whatever they are.
INERT = "sandbox; default-src 'none'"

COMPANIONS = {
    "Content-Security-Policy": POLICY,
    "X-Frame-Options": "DENY",
    "X-Content-Type-Options": "nosniff",
    "Referrer-Policy": "same-origin",
    "Cross-Origin-Opener-Policy": "same-origin",
    "Cross-Origin-Resource-Policy": "same-origin",
    "Permissions-Policy": "geolocation=(), payment=(), usb=()",
}


class SafeHeaders:
    """Set the content security policy and its companions on every answer."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Add what the answer does not set itself."""
        response = self.get_response(request)
        for name, value in COMPANIONS.items():
            response.headers.setdefault(name, value)
        if not request.path.startswith("/static/"):
            response.headers.setdefault("Cache-Control", "no-store")
        return response
