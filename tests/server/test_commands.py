"""``keep``, ``bring-back``, ``look-over`` and ``manage`` as programs."""

import json
import os
import sys
from pathlib import Path

import pytest

from wareboard.cli.main import VERBS

from .harness import Studio, error_of, run

pytestmark = pytest.mark.server


def test_backup_restore_and_look_over_as_commands(running, tmp_path):
    running.weigh("in-the-backup")
    kept = run("keep", tmp_path / "monday.zip", "--data", running.data, "--json")
    refused = run("bring-back", tmp_path / "monday.zip", "--data", running.data, "--json")
    running.weigh("after-the-backup")
    running.stop()

    brought = run("bring-back", tmp_path / "monday.zip", "--data", running.data, "--json")
    looked = run("look-over", "--data", running.data, "--json")

    assert (kept.returncode, brought.returncode, looked.returncode) == (0, 0, 0)
    assert error_of(refused)["field"] == "data"
    found = running.kept()
    assert ("in-the-backup" in found, "after-the-backup" in found) == (True, False)
    assert json.loads(looked.stdout)["result"]["sound"] is True
    old = Studio(type(running.data)(json.loads(brought.stdout)["result"]["kept"]))
    assert "after-the-backup" in old.kept()


def test_restored_studio_asks_everyone_to_sign_in_again(running, tmp_path):
    run("keep", tmp_path / "monday.zip", "--data", running.data)
    running.stop()
    run("bring-back", tmp_path / "monday.zip", "--data", running.data)
    with_old_cookie = dict(running.cookies)

    again = Studio(running.data, port=running.port).start()
    again.cookies = with_old_cookie
    reply = again.ask("GET", "/status/")
    again.stop()

    assert reply.status == 302


def test_look_over_ends_with_one_where_something_is_wrong(data):
    photo = next(path for path in (data / "originals").iterdir())
    photo.write_bytes(photo.read_bytes() + b"?")

    done = run("look-over", "--data", data, "--json")

    assert done.returncode == 1
    assert [f["name"] for f in json.loads(done.stdout)["result"]["faults"]] == [photo.name]


@pytest.mark.parametrize("command", ["keep", "bring-back", "look-over", "open", "manage"])
def test_every_command_has_an_example(command):
    done = run(command, "--help")

    assert done.returncode == 0
    assert f"Example: wareboard {command}" in done.stdout


@pytest.mark.parametrize("command", ["keep", "bring-back"])
def test_missing_path_is_said(command):
    error = error_of(run(command, "--json"))

    assert error["field"].casefold() == "path"


DEMO = Path(__file__).parents[2] / "src" / "wareboard" / "demo"
SOMEWHERE = "DATA"
EVERY_VERB = {
    "open": ("open", "--no-browser", "--json", "--data", SOMEWHERE),
    "why": ("why", "limpet", "pinhole", "--json", "--data", SOMEWHERE),
    "take-in": ("take-in", DEMO, "--json", "--data", SOMEWHERE),
    "hand-out": ("hand-out", "out", "--json", "--data", SOMEWHERE),
    "keep": ("keep", "monday.zip", "--json", "--data", SOMEWHERE),
    "bring-back": ("bring-back", "no.zip", "--json", "--data", SOMEWHERE),
    "look-over": ("look-over", "--json", "--data", SOMEWHERE),
    "manage": ("manage", "check", "--data", SOMEWHERE),
    "reckon": ("reckon", "slop", "--sg", "1.45", "--solid", "2.6", "--json"),
}


def test_no_command_leaves_anything_at_home_where_another_folder_is_named(
    data, tmp_path, monkeypatch
):
    home = tmp_path / "home"
    home.mkdir()
    monkeypatch.chdir(tmp_path)
    at_home = {"HOME": str(home), "USERPROFILE": str(home)}
    studio = Studio(data, settings=at_home).start()
    codes = {}

    for verb, arguments in EVERY_VERB.items():
        words = [data if word == SOMEWHERE else word for word in arguments]
        codes[verb] = run(*words, **at_home).returncode
    studio.stop()

    assert list(home.iterdir()) == []
    assert codes == dict.fromkeys(VERBS, 0) | {"take-in": 2, "bring-back": 2}


def test_data_folder_may_stand_behind_djangos_command_as_well(data):
    before, behind, joined = (
        run("manage", "--data", data, "check"),
        run("manage", "check", "--data", data),
        run("manage", "check", f"--data={data}"),
    )

    assert [one.returncode for one in (before, behind, joined)] == [0, 0, 0]
    assert before.stdout == behind.stdout == joined.stdout


def test_djangos_command_without_a_record_makes_no_folder(tmp_path):
    done = run("manage", "--data", tmp_path / "none", "check")

    assert (done.returncode, done.stdout) == (2, "")
    assert done.stderr == f"There is no record in {tmp_path / 'none'}.\n"
    assert not (tmp_path / "none").exists()


def test_data_option_of_a_django_command_needs_a_folder():
    done = run("manage", "check", "--data")

    assert done.stderr == "--data needs a folder behind it.\n"


@pytest.mark.parametrize("command", ["migrate", "flush", "runserver"])
def test_commands_that_could_harm_a_record_are_refused(data, command):
    done = run("manage", "--data", data, command)

    assert done.returncode == 2
    assert "wareboard open" in done.stderr or "empties" in done.stderr


def test_password_is_set_anew_from_the_command_line(running):
    pty = pytest.importorskip("pty", reason="it asks at a terminal, which Windows makes otherwise")
    command = ["-m", "wareboard", "manage", "--data", running.data, "changepassword", "potter"]
    settings = {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings", "PATH": os.environ["PATH"]}

    child, terminal = pty.fork()
    if child == 0:
        os.execve(sys.executable, [sys.executable, *map(str, command)], settings)  # noqa: S606 - no shell is wanted
    for _ in range(2):
        read_until(terminal, b"assword")
        os.write(terminal, b"three dry pots\n")
    _, status = os.waitpid(child, 0)
    os.close(terminal)

    old_session = running.ask("GET", "/status/").status
    typed = {"name": "potter", "password": "three dry pots"}
    assert os.waitstatus_to_exitcode(status) == 0
    assert running.ask("POST", "/sign-in/", typed).status == 302
    assert old_session == 302


def read_until(terminal: int, word: bytes) -> None:
    """Read what a program asks until it has asked it."""
    seen = b""
    while word not in seen or not seen.rstrip().endswith(b":"):
        seen += os.read(terminal, 1024)
