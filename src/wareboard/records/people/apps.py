"""The room of people."""

from django.apps import AppConfig
from django.db.backends.signals import connection_created


class PeopleConfig(AppConfig):
    """People: who keeps the record and who may read it."""

    name = "wareboard.records.people"
    label = "wareboard_people"
    verbose_name = "People"

    def ready(self) -> None:
        """Teach every new connection what searching needs."""
        from .folding import teach  # noqa: PLC0415 - lookups need Django set up

        connection_created.connect(teach, dispatch_uid="wareboard-fold")
