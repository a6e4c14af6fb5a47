"""The room of kiln."""

from django.apps import AppConfig


class KilnConfig(AppConfig):
    """Kiln: where a pot stood and what the fire did."""

    name = "wareboard.records.kiln"
    label = "wareboard_kiln"
    verbose_name = "Kiln"
