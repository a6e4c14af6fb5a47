"""The room of ware."""

from django.apps import AppConfig


class WareConfig(AppConfig):
    """Ware: the pots and what was done to them."""

    name = "wareboard.records.ware"
    label = "wareboard_ware"
    verbose_name = "Ware"
