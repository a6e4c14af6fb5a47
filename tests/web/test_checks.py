"""The start-up checks are silent on our settings and speak up on others."""

import stat

import pytest
from django.core.checks import run_checks

from wareboard.records.keeping import database


def found() -> list[str]:
    return [message.id for message in run_checks(tags=["wareboard"])]


@pytest.fixture(autouse=True)
def own_folder(tmp_path, settings):
    tmp_path.chmod(0o700)
    settings.DATA = tmp_path


def test_our_settings_pass():
    assert found() == []


@pytest.mark.parametrize(
    "change",
    [
        lambda order: order[1:],
        lambda order: order[:-1],
        lambda order: ["django.middleware.common.CommonMiddleware", *order],
        lambda order: [order[1], order[0], *order[2:]],
    ],
)
def test_order_of_middleware_is_held(settings, change):
    settings.MIDDLEWARE = change(list(settings.MIDDLEWARE))

    assert found() == ["wareboard.E001"]


@pytest.mark.parametrize(
    ("engine", "mode"),
    [("django.db.backends.sqlite3", "IMMEDIATE"), ("wareboard.web.sqlite", "DEFERRED")],
)
def test_engine_is_held(settings, monkeypatch, engine, mode):
    default = settings.DATABASES["default"]
    monkeypatch.setitem(default, "ENGINE", engine)
    monkeypatch.setitem(default["OPTIONS"], "transaction_mode", mode)

    assert found() == ["wareboard.E002"]


def test_older_sqlite_is_told(monkeypatch):
    monkeypatch.setattr(database, "sqlite_version", lambda: (3, 51, 2))

    assert found() == ["wareboard.W003"]


def test_code_is_never_shown(settings):
    settings.DEBUG = True

    assert found() == ["wareboard.E004"]


def test_folder_that_others_can_read_is_told(settings):
    settings.DATA.chmod(stat.S_IRWXU | stat.S_IRGRP)

    assert found() == ["wareboard.W005"]
