"""How many queries every page takes, and how long the database had to think."""

import time
from dataclasses import dataclass

from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from wareboard.records.people.models import Member

from .addresses import addresses

FOUND = 200
WAITED_FOR = ("text/html", "application/json")


@dataclass(frozen=True)
class Counted:
    """One page, looked at once.

    Attributes
    ----------
    route, path : str
        The page.
    status : int
        What it answered.
    content : str
        What kind of answer.
    queries : int
        How many questions it asked the database.
    ms : float
        How long it took in this process, once it was warm [ms].
    kb : float
        How large it was [kB].
    sql : tuple of str
        The questions.
    """

    route: str
    path: str
    status: int
    content: str
    queries: int
    ms: float
    kb: float
    sql: tuple[str, ...]

    @property
    def is_page(self) -> bool:
        """Whether a person waits for it: a page, or the figures of its chart."""
        return self.status == FOUND and self.content.startswith(WAITED_FOR)


def count_all(member: Member, *, warm: bool = True) -> list[Counted]:
    """Look at every page and count what it asks.

    Parameters
    ----------
    member : Member
        Who looks; must be a person who can sign in.
    warm : bool
        Whether each page is looked at once before, so that loading its code
        does not count.
    """
    client = Client(raise_request_exception=False, headers={"host": "localhost"})
    if member.person is None:
        raise ValueError("somebody who cannot sign in sees no page")
    client.force_login(member.person)
    found = []
    for address in addresses(member):
        if warm:
            list(client.get(address.path))
        with CaptureQueriesContext(connection) as asked:
            start = time.perf_counter()
            reply = client.get(address.path)
            ms = (time.perf_counter() - start) * 1e3
        size = sum(len(part) for part in reply)
        found.append(
            Counted(
                address.route,
                address.path,
                reply.status_code,
                reply.headers.get("Content-Type", ""),
                len(asked),
                ms,
                size / 1e3,
                tuple(query["sql"] for query in asked.captured_queries),
            )
        )
    return found
