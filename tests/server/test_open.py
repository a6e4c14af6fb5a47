"""``wareboard open`` as a program: who is let in, what is refused, how it ends."""

import contextlib
import json
import os
import signal
import socket
import subprocess
import sys
import time

import pytest

from wareboard.records.keeping import database, lock
from wareboard.records.keeping.data_folder import DataFolder
from wareboard.web import listening

from .harness import Studio, error_of, free_port, run

pytestmark = pytest.mark.server


def test_first_run_makes_a_studio_and_shows_its_front_door(tmp_path):
    studio = Studio(tmp_path / "Töpferei & more").start()

    page = studio.ask("GET", "/")
    studio.stop()

    assert page.status == 200
    assert sorted(path.name for path in studio.data.iterdir()) == [
        "backups",
        "in-use",
        "originals",
        "record.sqlite3",
        "secret-key",
        "views",
        "wareboard-folder.json",
    ]


@pytest.mark.skipif(sys.platform == "win32", reason="Windows chooses the browser otherwise")
def test_browser_is_opened_on_the_address_that_was_printed(tmp_path):
    asked, browser = tmp_path / "asked", tmp_path / "browser"
    browser.write_text(
        f'#!/bin/sh\nprintf %s "$1" > "{asked}.part" && mv "{asked}.part" "{asked}"\n'
    )
    browser.chmod(0o700)
    process = subprocess.Popen(
        [
            *(sys.executable, "-m", "wareboard", "open", "--data", tmp_path / "w"),
            *("--port", str(free_port())),
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={k: v for k, v in os.environ.items() if k != "WAREBOARD_DATA"}
        | {"BROWSER": f"{browser} %s", "DJANGO_SETTINGS_MODULE": "wareboard.web.settings"},
    )
    until = time.monotonic() + 20
    while not asked.exists() and time.monotonic() < until:
        time.sleep(0.05)
    process.terminate()
    printed, _ = process.communicate(timeout=20)

    assert f"Open {asked.read_text()}\n" in printed


def test_second_run_finds_the_first_ones_record(data):
    first = Studio(data).start()
    first.weigh("kept-over-night")
    first.stop()
    marker = (data / "wareboard-folder.json").read_bytes()

    second = Studio(data).start()
    second.stop()

    assert "kept-over-night" in second.kept()
    assert (data / "wareboard-folder.json").read_bytes() == marker


@pytest.mark.parametrize("with_signal", [signal.SIGTERM, signal.SIGINT])
def test_studio_ends_within_five_seconds(running, with_signal):
    took_s = running.stop(with_signal)

    assert took_s < 5
    assert running.process.returncode in {0, 130}


def test_studio_ends_within_five_seconds_though_a_client_dawdles(running):
    with dawdle(running):
        time.sleep(0.3)

        assert running.stop() < 5


def dawdle(studio: Studio) -> socket.socket:
    """Announce a form, send its first letters, and fall silent."""
    line = socket.create_connection(("127.0.0.1", studio.port))
    line.sendall(
        f"POST /sign-in/ HTTP/1.1\r\nHost: localhost\r\nCookie: wareboard_csrf={'a' * 32}\r\n"
        "Content-Type: application/x-www-form-urlencoded\r\n"
        "Content-Length: 900\r\n\r\nname=".encode()
    )
    return line


def test_dawdling_phones_hold_nobody_up(running):
    lines = [dawdle(running) for _ in range(12)]
    time.sleep(0.3)
    began = time.monotonic()

    reply = running.ask("GET", "/")

    assert (reply.status, time.monotonic() - began < 5) == (200, True)
    for line in lines:
        line.close()


def test_nothing_listens_beyond_this_machine(running):
    own = listening.own_address()
    if not own:
        pytest.skip("this machine is on no network")

    with (
        pytest.raises(ConnectionRefusedError),
        socket.create_connection((own, running.port), timeout=2),
    ):
        pass


def test_opening_an_open_studio_prints_another_way_into_it(running):
    before = dict(running.cookies)
    running.cookies.pop("wareboard_session")

    done = run("open", "--data", running.data, "--port", free_port(), "--json")

    told = json.loads(done.stdout)["result"]
    address = str(told["address"])
    assert (done.returncode, told["already_open"]) == (0, True)
    assert address.startswith(f"http://127.0.0.1:{running.port}/sign-in/")
    key = address[address.index("/sign-in/") :]
    assert [running.ask("GET", key).status for _ in range(2)] == [302, 403]
    assert running.ask("GET", "/status/").status == 200
    assert running.cookies["wareboard_session"] != before["wareboard_session"]


def test_opening_an_open_studio_is_said_in_words(running):
    done = run("open", "--data", running.data, "--no-browser")

    first, second, third = done.stdout.splitlines()
    assert first == "The studio is open already, and stays open as it was started."
    assert second.startswith(f"Open http://127.0.0.1:{running.port}/sign-in/")
    assert third == "(the address works once, within ten minutes, on this machine)"


def test_a_folder_that_another_command_holds_is_refused(data):
    with lock.holding(DataFolder(data)):
        error = error_of(run("open", "--data", data, "--port", free_port(), "--json"))

    assert error["field"] == "data"
    assert f"process {os.getpid()}" in error["say"]


def test_taken_port_is_said_and_the_next_free_one_offered(tmp_path):
    with contextlib.closing(socket.socket()) as other:
        other.bind(("127.0.0.1", 0))
        other.listen()
        port = other.getsockname()[1]

        done = run("open", "--data", tmp_path / "w", "--port", port, "--no-browser", "--json")

    error = error_of(done)
    offered = int(error["accepted"])
    assert (error["field"], error["seen"]) == ("port", port)
    assert port < offered <= port + 99
    assert f"add --port {offered}" in error["say"]
    assert not (tmp_path / "w").exists()


@pytest.mark.parametrize("port", ["0", "65536", "-1", "x", "8_473"])
def test_port_that_is_none_is_refused(tmp_path, port):
    error = error_of(run("open", "--data", tmp_path / "w", "--port", port, "--json"))

    assert error["field"] == "port"


@pytest.mark.parametrize("harm", ["deleted", "emptied", "overwritten"])
def test_lost_record_is_not_started_anew(data, harm):
    record = data / "record.sqlite3"
    record.unlink()
    if harm != "deleted":
        record.write_bytes(b"" if harm == "emptied" else b"no tables here" * 500)
    before = record.read_bytes() if record.exists() else None

    done = run("open", "--data", data, "--no-browser", "--port", free_port())

    assert done.returncode == 2
    assert done.stdout == ""
    assert "wareboard bring-back" in done.stderr
    assert len(done.stderr.strip().splitlines()) == 1
    assert (record.read_bytes() if record.exists() else None) == before


def test_newer_record_is_refused_in_one_sentence(data):
    with database.opened(data / "record.sqlite3") as connection:
        connection.execute(
            "INSERT INTO django_migrations (app, name, applied)"
            " VALUES ('wareboard_kiln', '0099_wood', '2030-01-01')"
        )

    done = run("open", "--data", data, "--no-browser", "--port", free_port())

    assert done.returncode == 2
    assert "wareboard_kiln 0099_wood" in done.stderr


def test_server_alone_never_serves_an_older_record(data):
    """Whoever starts the program by other means than ``wareboard open`` gets nothing served."""
    with database.opened(data / "record.sqlite3") as connection:
        connection.execute("DELETE FROM django_migrations WHERE app = 'wareboard_shelf'")

    done = subprocess.run(
        [sys.executable, "-c", "import wareboard.web.wsgi"],
        env=os.environ
        | {"WAREBOARD_DATA": str(data), "DJANGO_SETTINGS_MODULE": "wareboard.web.settings"},
        capture_output=True,
        text=True,
        check=False,
    )

    assert done.returncode != 0
    assert "FolderRefused" in done.stderr


def test_phones_are_not_let_in_before_there_is_a_password(tmp_path):
    done = run("open", "--data", tmp_path / "w", "--phones", "--port", free_port(), "--json")

    error = error_of(done)
    assert error["field"] == "phones"


def test_password_for_phones_must_not_be_a_common_one(tmp_path):
    done = run(
        "open",
        "--data",
        tmp_path / "w",
        "--phones",
        "--port",
        free_port(),
        "--json",
        WAREBOARD_NEW_PASSWORD="password1",  # noqa: S106 - refused for being common
    )

    assert error_of(done)["field"] == "phones"


def test_phones_come_in_by_password_and_not_by_the_key(tmp_path):
    studio = Studio(
        tmp_path / "w",
        options=("--phones",),
        settings={"WAREBOARD_NEW_PASSWORD": "three dry pots"},
    ).start()
    own = listening.own_address()

    status = studio.ask("GET", "/status/").body.decode()
    studio.cookies.pop("wareboard_session")
    by_password = studio.ask("POST", "/sign-in/", {"name": "potter", "password": "three dry pots"})
    studio.stop()

    assert studio.told["network_address"] == (f"http://{own}:{studio.port}/" if own else None)
    assert "whoever shares the Wi-Fi can read along" in status
    assert by_password.status == 302


def test_code_and_warning_are_printed_for_phones(tmp_path):
    port = free_port()
    process = subprocess.Popen(
        [
            *(sys.executable, "-m", "wareboard", "open", "--data", tmp_path / "w"),
            *("--phones", "--no-browser", "--port", str(port)),
        ],
        stdout=subprocess.PIPE,
        stderr=subprocess.DEVNULL,
        text=True,
        env={k: v for k, v in os.environ.items() if k != "WAREBOARD_DATA"}
        | {"WAREBOARD_NEW_PASSWORD": "three dry pots"}
        | {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings"},
    )
    for _ in range(200):
        time.sleep(0.05)
        if not listening.is_free("127.0.0.1", port):
            break
    process.terminate()
    printed, _ = process.communicate(timeout=20)

    assert "http://" in printed
    assert "plain HTTP" in printed
    if listening.own_address():
        assert "\u2588" in printed


def test_workers_use_the_safe_settings(running):
    page = running.ask("GET", "/status/").body.decode()

    assert "Write-ahead log" in page


def test_record_taken_away_while_open_gets_no_more_entries(running):
    running.weigh("before")
    (running.data / "record.sqlite3").rename(running.data / "taken away.sqlite3")

    statuses = {running.weigh(f"after-{n}") for n in range(6)}

    assert statuses == {503}
    assert not (running.data / "record.sqlite3").exists()
