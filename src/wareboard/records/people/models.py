"""Studio, people, and what each member may do."""

from typing import ClassVar

from django.contrib.auth.base_user import AbstractBaseUser, BaseUserManager
from django.core.validators import MaxValueValidator, MinValueValidator
from django.db import models
from django.db.models import CheckConstraint, UniqueConstraint
from django.utils import timezone

from .limits import between, one_of


class StudioWords(models.TextChoices):
    """Which trade words the pages use."""

    BRITISH = "british", "British"
    AMERICAN = "american", "American"


class StudioTemperature(models.TextChoices):
    """Which degrees the forms read and the pages show."""

    CELSIUS = "celsius", "°C"
    FAHRENHEIT = "fahrenheit", "°F"


class StudioMass(models.TextChoices):
    """Which weights the pages show; small ones stay in grams."""

    KILOGRAM = "kilogram", "g, kg"
    POUND = "pound", "g, lb"


class StudioVolume(models.TextChoices):
    """Which volumes the pages show."""

    LITRE = "litre", "ml, l"
    US_GALLON = "us gallon", "ml, US gal"


class Studio(models.Model):
    """One pottery: whose record it is, its words, its units, its scale."""

    id = models.CharField(primary_key=True, max_length=40)
    name = models.CharField(max_length=120)
    words = models.CharField(max_length=10, choices=StudioWords, default=StudioWords.BRITISH)
    temperature = models.CharField(
        max_length=10, choices=StudioTemperature, default=StudioTemperature.CELSIUS
    )
    mass = models.CharField(max_length=10, choices=StudioMass, default=StudioMass.KILOGRAM)
    volume = models.CharField(max_length=10, choices=StudioVolume, default=StudioVolume.LITRE)
    currency = models.CharField(max_length=8, blank=True)
    time_zone = models.CharField(max_length=60, default="UTC")
    scale_step_g = models.FloatField(
        default=1.0,
        validators=[MinValueValidator(0.001), MaxValueValidator(100)],
        help_text="Smallest step of the scale the pots are weighed on [g].",
    )

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_studio"
        constraints: ClassVar = [
            between("studio", "scale_step_g", 0.001, 100),
            one_of("studio", "words", StudioWords),
            one_of("studio", "temperature", StudioTemperature),
            one_of("studio", "mass", StudioMass),
            one_of("studio", "volume", StudioVolume),
        ]

    def __str__(self) -> str:
        """Give the name."""
        return self.name


class People(BaseUserManager["Person"]):
    """Everybody who can sign in."""

    def create_user(self, username: str, password: str | None = None) -> "Person":
        """Make somebody; without a password only a one-time key lets him in."""
        person = self.model(username=username)
        person.set_password(password)
        person.save()
        return person


class Person(AbstractBaseUser):
    """Somebody who can sign in."""

    username = models.CharField(max_length=60, unique=True)
    is_active = models.BooleanField(default=True)
    made_at = models.DateTimeField(default=timezone.now)

    objects = People()
    asks_as: "Member | None" = None  # set for the length of a request by people.backend

    USERNAME_FIELD = "username"
    REQUIRED_FIELDS: ClassVar[list[str]] = []

    class Meta:
        """Table."""

        db_table = "wareboard_person"

    def __str__(self) -> str:
        """Give the name."""
        return self.username


class MemberRole(models.TextChoices):
    """What a member may do."""

    OWNER = "owner", "owner"
    POTTER = "potter", "potter"
    READER = "reader", "reader"


class Member(models.Model):
    """A person in a studio, or somebody named in an old record."""

    id = models.CharField(primary_key=True, max_length=40)
    studio = models.ForeignKey(Studio, on_delete=models.PROTECT, related_name="members")
    person = models.ForeignKey(
        Person, on_delete=models.PROTECT, null=True, blank=True, related_name="memberships"
    )
    name = models.CharField(max_length=80)
    role = models.CharField(max_length=10, choices=MemberRole, default=MemberRole.POTTER)

    class Meta:
        """Table and constraints."""

        db_table = "wareboard_member"
        constraints: ClassVar = [
            UniqueConstraint(fields=["studio", "person"], name="member_once_a_studio"),
            one_of("member", "role", MemberRole),
        ]

    def __str__(self) -> str:
        """Give the name."""
        return self.name

    @property
    def may_write(self) -> bool:
        """Whether this member may add to the record."""
        return self.role != MemberRole.READER


class SignInKey(models.Model):
    """A one-time key printed on this machine; only its hash is kept."""

    key_hash = models.CharField(max_length=64, primary_key=True)
    member = models.ForeignKey(Member, on_delete=models.CASCADE, related_name="keys")
    made_at = models.DateTimeField(default=timezone.now)
    used_at = models.DateTimeField(null=True, blank=True)

    class Meta:
        """Table."""

        db_table = "wareboard_sign_in_key"


class Attempt(models.Model):
    """A sign-in that failed, so that guessing gets slower."""

    name = models.CharField(max_length=60)
    address = models.CharField(max_length=60)
    at = models.DateTimeField(default=timezone.now)

    class Meta:
        """Table and index."""

        db_table = "wareboard_attempt"
        indexes: ClassVar = [models.Index(fields=["at"], name="attempt_at")]
        constraints: ClassVar = [
            CheckConstraint(condition=~models.Q(name=""), name="attempt_has_name")
        ]
