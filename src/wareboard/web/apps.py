"""The project itself, for its checks and templates."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    """Pages that need several rooms."""

    name = "wareboard.web"
    label = "wareboard_web"
    verbose_name = "Wareboard"
