"""Who may be called by which name: the defence against a hostile page on the network.

A page from outside that has its own name point at this machine sends that name
as Host. So only names that cannot be pointed elsewhere are answered: this
machine itself, its own name, and plain private addresses, which involve no
look-up at all.
"""

import ipaddress
import re
import socket
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse, HttpResponseBase

HOST = re.compile(r"(?P<name>\[[0-9a-f:.]{2,45}\]|[a-z0-9.-]{1,253})(:(?P<port>[1-9]\d{0,4}))?\Z")


def own_names() -> frozenset[str]:
    """Give the names of this machine on its network."""
    name = socket.gethostname().lower()
    return frozenset({"localhost", name, f"{name.split('.')[0]}.local"})


def is_known(host: str, names: frozenset[str]) -> bool:
    """Say whether a Host header names this machine and nothing else.

    Parameters
    ----------
    host : str
        The header as sent.
    names : frozenset of str
        The machine's own names.
    """
    match = HOST.match(host)
    if match is None:
        return False
    name = match["name"].strip("[]")
    if name in names:
        return True
    try:
        address = ipaddress.ip_address(name)
    except ValueError:
        return False
    return (
        address.is_loopback
        or address.is_link_local
        or (address.is_private and not address.is_unspecified and not address.is_reserved)
    )


class OnlyKnownHosts:
    """Refuse a request that calls this machine by another's name."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response
        self.names = own_names()

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer 400 before anything else runs."""
        if not is_known(request.META.get("HTTP_HOST", ""), self.names):
            return HttpResponse(
                "This address is not one of this studio's.", status=400, content_type="text/plain"
            )
        return self.get_response(request)
