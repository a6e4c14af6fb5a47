"""The room of stores."""

from django.apps import AppConfig


class StoresConfig(AppConfig):
    """Stores: what came in, and what it is made of."""

    name = "wareboard.records.stores"
    label = "wareboard_stores"
    verbose_name = "Stores"
