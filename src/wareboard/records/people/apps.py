"""The room of people."""

from django.apps import AppConfig


class PeopleConfig(AppConfig):
    """People: who keeps the record and who may read it."""

    name = "wareboard.records.people"
    label = "wareboard_people"
    verbose_name = "People"
