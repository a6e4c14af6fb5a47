import pytest
from record_folder_samples import PHOTO, SOUND, Studio, sha256

from wareboard.exchange.record_folder import Original


@pytest.fixture
def studio(tmp_path):
    store = tmp_path / "store"
    store.mkdir()
    (store / "photo").write_bytes(PHOTO)
    (store / "sound").write_bytes(SOUND)
    place = tmp_path / "out"
    place.mkdir()
    return Studio(
        place,
        [
            Original(sha256(PHOTO), "jpg", store / "photo"),
            Original(sha256(SOUND), "m4a", store / "sound", "sounds"),
        ],
    )
