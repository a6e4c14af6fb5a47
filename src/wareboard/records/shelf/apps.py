"""The room of shelf."""

from django.apps import AppConfig


class ShelfConfig(AppConfig):
    """Shelf: how it came out, and why."""

    name = "wareboard.records.shelf"
    label = "wareboard_shelf"
    verbose_name = "Shelf"
