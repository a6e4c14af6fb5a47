"""The project itself, for its checks and templates."""

from django.apps import AppConfig


class WebConfig(AppConfig):
    """Pages that need several rooms."""

    name = "wareboard.web"
    label = "wareboard_web"
    verbose_name = "Wareboard"

    def ready(self) -> None:
        """Register the checks."""
        from . import checks  # noqa: F401, PLC0415 - loaded for its effect, once the apps are there
