"""The room of pictures."""

from django.apps import AppConfig


class PicturesConfig(AppConfig):
    """Pictures: originals kept byte for byte."""

    name = "wareboard.records.pictures"
    label = "wareboard_pictures"
    verbose_name = "Pictures"
