"""A demo studio made once by the real program, and copied for each test."""

import pytest

from .harness import Studio, copied, demo_folder


@pytest.fixture(scope="session")
def demo_of_old(tmp_path_factory):
    return demo_folder(tmp_path_factory.mktemp("made") / "Wareboard demo")


@pytest.fixture
def data(demo_of_old, tmp_path):
    return copied(demo_of_old, tmp_path / "Wareboard")


@pytest.fixture
def running(data):
    studio = Studio(data).start()
    yield studio
    if studio.process is not None and studio.process.poll() is None:
        studio.kill()
