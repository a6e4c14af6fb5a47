"""Where the studio listens: on this machine alone, or on its network too."""

import socket
import sys
from contextlib import closing
from dataclasses import dataclass

from wareboard.records.keeping.refusals import PortTaken

LOOPBACK = "127.0.0.1"
EVERYWHERE = "0.0.0.0"  # noqa: S104 - only where phones are let in, after a password is set
USUAL_PORT = 8473
LAST_PORT = 65_535
PLAIN_HTTP = (
    "Nothing hides what phones and this machine say to each other (plain HTTP): whoever shares the"
    " Wi-Fi can read along, the password too. Use a network of your own, and a password that you"
    " use nowhere else."
)


@dataclass(frozen=True)
class Place:
    """Where the server listens.

    Attributes
    ----------
    port : int
        The port.
    phones : bool
        Whether other machines of the network are let in.
    """

    port: int
    phones: bool = False

    @property
    def listens_on(self) -> str:
        """The address the server binds to."""
        return EVERYWHERE if self.phones else LOOPBACK

    @property
    def here(self) -> str:
        """The studio's address for a browser on this machine."""
        return f"http://{LOOPBACK}:{self.port}/"

    def on_network(self) -> str:
        """Give the studio's address for a phone; empty where there is no network."""
        own = own_address()
        return f"http://{own}:{self.port}/" if self.phones and own else ""


def own_address() -> str:
    """Find this machine's address on its network; nothing is sent for it."""
    with closing(socket.socket(socket.AF_INET, socket.SOCK_DGRAM)) as probe:
        try:
            # Connecting a datagram socket only asks the routing table.
            probe.connect(("192.168.255.255", 9))
            own: str = probe.getsockname()[0]
        except OSError:
            return ""
    return "" if own.startswith(("127.", "0.")) else own


def is_free(address: str, port: int) -> bool:
    """Say whether nobody listens on a port."""
    with closing(socket.socket(socket.AF_INET, socket.SOCK_STREAM)) as probe:
        if sys.platform == "win32":
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_EXCLUSIVEADDRUSE, 1)
        else:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
        try:
            probe.bind((address, port))
            probe.listen(1)
        except OSError:
            return False
    return True


def refuse_taken(place: Place) -> None:
    """Refuse a port that is taken, naming the next free one.

    Raises
    ------
    PortTaken
        If another program listens there; ``accepted`` is the next free port.
    """
    if is_free(place.listens_on, place.port):
        return
    following = (
        port
        for port in range(place.port + 1, min(place.port + 100, LAST_PORT + 1))
        if is_free(place.listens_on, port)
    )
    free = next(following, None)
    offer = f" Port {free} is free: add --port {free}" if free else " Give another with --port"
    raise PortTaken(
        f"Another program listens on port {place.port}.{offer}.",
        field="port",
        seen=place.port,
        accepted=str(free or "a free port"),
    )
