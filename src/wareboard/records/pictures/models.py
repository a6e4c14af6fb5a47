"""Originals: photos and spoken notes, kept byte for byte under their hash."""

from typing import ClassVar

from django.core.validators import RegexValidator
from django.db import models

from wareboard.records.people.entry import Entry
from wareboard.records.people.limits import between, one_of

check_sha256 = RegexValidator(r"\A[0-9a-f]{64}\Z", message="A hash has 64 hexadecimal digits.")


class OriginalKind(models.TextChoices):
    """What kind of file."""

    PHOTO = "photo", "photo"
    SOUND = "sound", "spoken note"


class Original(Entry):
    """One file as it came, named by what is in it."""

    sha256 = models.CharField(
        max_length=64, validators=[check_sha256], help_text="SHA-256 of the file's bytes."
    )
    kind = models.CharField(
        max_length=5,
        choices=OriginalKind,
        default=OriginalKind.PHOTO,
        help_text="Photo or spoken note.",
    )
    suffix = models.CharField(
        max_length=5, help_text="Ending of the file's name: jpg, png, webp, heic, m4a …"
    )
    size_bytes = models.PositiveBigIntegerField(help_text="Size of the file.")
    width_px = models.PositiveIntegerField(
        null=True, blank=True, help_text="Width as seen upright."
    )
    height_px = models.PositiveIntegerField(
        null=True, blank=True, help_text="Height as seen upright."
    )
    taken = models.CharField(
        max_length=40,
        blank=True,
        help_text="Time the camera wrote, as it wrote it; its zone may be unknown.",
    )
    came_as = models.CharField(max_length=200, blank=True, help_text="Name the file came with.")

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_original"
        indexes: ClassVar = [models.Index(fields=["sha256"], name="original_sha256")]
        constraints: ClassVar = [
            one_of("original", "kind", OriginalKind),
            between("original", "size_bytes", 1, 2e9),
        ]

    def __str__(self) -> str:
        """Give the start of the hash."""
        return self.sha256[:12]

    @property
    def file_name(self) -> str:
        """Name in the folder of originals."""
        return f"{self.sha256}.{self.suffix}"
