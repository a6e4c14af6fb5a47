"""The key that signs sessions is made once, is this user's alone, and heals."""

import os
import stat
import sys
from concurrent.futures import ThreadPoolExecutor

import pytest

from wareboard.web.settings.secret import FILE, SHORTEST, secret_key


def test_key_is_made_once_and_found_again(tmp_path):
    first, second = secret_key(tmp_path / "new"), secret_key(tmp_path / "new")

    assert first == second
    assert len(first) > SHORTEST
    assert [path.name for path in (tmp_path / "new").iterdir()] == [FILE]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows keeps rights otherwise")
def test_key_is_for_its_owner_alone(tmp_path):
    secret_key(tmp_path)

    assert stat.S_IMODE((tmp_path / FILE).stat().st_mode) == 0o600


@pytest.mark.parametrize("torn", [b"", b"short", b"\xff\xfe" * 40])
def test_torn_key_is_made_anew(tmp_path, torn):
    (tmp_path / FILE).write_bytes(torn)

    key = secret_key(tmp_path)

    assert len(key) > SHORTEST
    assert (tmp_path / FILE).read_text() == key


def test_two_folders_have_two_keys(tmp_path):
    assert secret_key(tmp_path / "a") != secret_key(tmp_path / "b")


def test_programs_that_start_at_once_agree(tmp_path):
    with ThreadPoolExecutor(8) as pool:
        keys = set(pool.map(lambda _: secret_key(tmp_path), range(32)))

    assert len(keys) == 1


def test_disk_without_second_names_still_keeps_the_key(tmp_path, monkeypatch):
    def refuse(*_names):
        raise PermissionError("this file system has no links")

    monkeypatch.setattr(os, "link", refuse)

    assert secret_key(tmp_path) == secret_key(tmp_path)
