"""The room of glazes."""

from django.apps import AppConfig


class GlazesConfig(AppConfig):
    """Glazes: from recipe to batch to bucket."""

    name = "wareboard.records.glazes"
    label = "wareboard_glazes"
    verbose_name = "Glazes"
