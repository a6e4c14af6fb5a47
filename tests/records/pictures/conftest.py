"""A folder of its own for each test, and one photo."""

import pytest

from .samples import two_halves, written


@pytest.fixture(autouse=True)
def own_folders(tmp_path, settings):
    settings.DATA = tmp_path


@pytest.fixture
def jpeg():
    return written(two_halves(), quality=95)
