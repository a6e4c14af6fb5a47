"""What must be so before anyone is served, for ``wareboard manage check``; each with a hint."""

import stat
import sys
from typing import Any

from django.conf import settings
from django.core.checks import CheckMessage, Error, Warning, register  # noqa: A004 - Django's own word

from wareboard.records.keeping import database

FIRST = ("wareboard.web.headers.SafeHeaders", "wareboard.web.hosts.OnlyKnownHosts")
LAST = "wareboard.web.members.MembersOnly"
ENGINE = "wareboard.web.sqlite"
OTHERS = stat.S_IRWXG | stat.S_IRWXO


@register("wareboard")
def middleware_in_order(**_options: Any) -> list[CheckMessage]:
    """See that hosts are looked at before anything answers, and members before any view."""
    found = tuple(settings.MIDDLEWARE)
    if found[: len(FIRST)] == FIRST and found[-1] == LAST:
        return []
    return [
        Error(
            "Something may answer before host and member are known.",
            hint=f"MIDDLEWARE must begin with {', '.join(FIRST)} and end with {LAST}.",
            id="wareboard.E001",
        )
    ]


@register("wareboard")
def storage_is_safe(**_options: Any) -> list[CheckMessage]:
    """See that the record lies in the engine that forces every entry to the disk."""
    found: dict[str, Any] = settings.DATABASES["default"]
    messages: list[CheckMessage] = []
    if found["ENGINE"] != ENGINE or found["OPTIONS"].get("transaction_mode") != "IMMEDIATE":
        messages.append(
            Error(
                "The record's engine may lose or refuse entries.",
                hint=f"Use {ENGINE} with transaction_mode IMMEDIATE.",
                id="wareboard.E002",
            )
        )
    if database.sqlite_version() < database.FIRST_SOUND_WAL:
        messages.append(
            Warning(
                "This SQLite's write-ahead log may be torn; the slower journal is used.",
                hint="Install the SQLite that comes with the program (pysqlite3).",
                id="wareboard.W003",
            )
        )
    return messages


@register("wareboard")
def nothing_is_shown_to_strangers(**_options: Any) -> list[CheckMessage]:
    """See that faults show no code, and that the folder is this user's alone."""
    messages: list[CheckMessage] = []
    if settings.DEBUG:
        messages.append(
            Error(
                "Faults would be shown with code and settings.",
                hint="Leave DEBUG off; the terminal shows what went wrong.",
                id="wareboard.E004",
            )
        )
    if sys.platform != "win32" and settings.DATA.is_dir() and settings.DATA.stat().st_mode & OTHERS:
        messages.append(
            Warning(
                f"Other users of this machine can look into {settings.DATA}.",
                hint=f'chmod -R go= "{settings.DATA}"',
                id="wareboard.W005",
            )
        )
    return messages
