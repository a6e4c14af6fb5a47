"""Who may be called by which name: the defence against a hostile page on the network.

A page from outside that has its own name point at this machine sends that name
as Host. So only names that cannot be pointed elsewhere are answered: this
machine itself, its own name, and plain private addresses, which involve no
look-up at all. The header is read as it came, and nothing a proxy may add is
believed.
"""

import ipaddress
import re
import socket
from collections.abc import Callable

from django.http import HttpRequest, HttpResponse, HttpResponseBase

HOST = re.compile(
    r"(?P<name>\[[0-9a-f:.]{2,45}\]|[a-z0-9](?:[a-z0-9-]|\.(?=[a-z0-9])){0,252})"
    r"(?::(?P<port>[1-9]\d{0,4}))?\Z",
    re.IGNORECASE | re.ASCII,
)
HIGHEST_PORT = 65_535
# RFC 1918, RFC 3927, RFC 4193, RFC 4291: addresses of one house, one cable, one machine.
OWN_NETWORKS = tuple(
    ipaddress.ip_network(network)
    for network in (
        "127.0.0.0/8",
        "10.0.0.0/8",
        "172.16.0.0/12",
        "192.168.0.0/16",
        "169.254.0.0/16",
        "::1/128",
        "fe80::/10",
        "fc00::/7",
    )
)


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
        The machine's own names, in small letters.

    Examples
    --------
    >>> is_known("192.168.1.20:8473", frozenset({"localhost"}))
    True
    >>> is_known("evil.example", frozenset({"localhost"}))
    False
    """
    match = HOST.match(host)
    if match is None or int(match["port"] or 1) > HIGHEST_PORT:
        return False
    name = match["name"].lower()
    if name in names:
        return True
    try:
        address = ipaddress.ip_address(name.strip("[]"))
    except ValueError:
        return False
    if (address.version == 6) != name.startswith("["):  # noqa: PLR2004 - the protocol's own number
        return False
    return any(address in network for network in OWN_NETWORKS)


class OnlyKnownHosts:
    """Refuse a request that calls this machine by another's name."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponseBase]) -> None:
        self.get_response = get_response
        self.names = own_names()

    def __call__(self, request: HttpRequest) -> HttpResponseBase:
        """Answer 400 before anything else runs."""
        if not is_known(request.META.get("HTTP_HOST", ""), self.names):
            return HttpResponse(
                "This address is not one of this studio's.\n", status=400, content_type="text/plain"
            )
        return self.get_response(request)
