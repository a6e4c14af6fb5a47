"""What tests of an opening stand on."""

import pytest
from django.urls import reverse


@pytest.fixture
def firing(member):
    """Three mugs on two shelves, fired and not opened yet."""
    from opened_kiln import firing_to_open  # noqa: PLC0415 - needs Django set up

    return firing_to_open(member)


@pytest.fixture
def url(firing):
    """The page of its opening."""
    return reverse("pages:opening", args=[firing.pk])


@pytest.fixture
def thumb_url(firing):
    """Where one tap judges the first mug."""
    return reverse("pages:thumb", args=[firing.pk, "mug-0"])


@pytest.fixture
def pot_url(firing):
    """Where it is said what is wrong with the first mug."""
    return reverse("pages:opened-pot", args=[firing.pk, "mug-0"])
