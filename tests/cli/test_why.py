"""``wareboard why`` on the demo studio."""

import json
import subprocess
import sys
from pathlib import Path

import pytest

DEMO = Path(__file__).parents[2] / "src" / "wareboard" / "demo"


def wareboard(*arguments: object, code: int = 0) -> str:
    done = subprocess.run(
        [sys.executable, "-m", "wareboard", *map(str, arguments)],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == code, done.stdout + done.stderr
    return done.stdout


@pytest.fixture(scope="module")
def data(tmp_path_factory) -> Path:
    folder = tmp_path_factory.mktemp("why") / "data"
    wareboard("take-in", DEMO, "--data", folder)
    return folder


def test_the_counts_are_right_and_what_is_not_known_is_null(data):
    asked = ("why", "limpet", "pinhole", "--until", "2026-11-14", "--json", "--data", data)

    told = json.loads(wareboard(*asked))

    result = told["result"]
    first = result["suspects"][0]
    assert (result["faulty"], result["sound"], result["verdict"]) == (3, 3, "likely")
    assert (first["attribute"], first["value"]) == ("lot of potash feldspar", "B")
    assert [first[k] for k in ("faulty_with", "sound_with", "faulty_without", "sound_without")] == [
        3,
        0,
        0,
        3,
    ]
    assert first["same_as"] == ["batch", "bucket"]
    assert first["probability"] is result["none_of_these"] is None


def test_before_the_fourth_firing_it_cannot_tell(data):
    asked = ("why", "Limpet", "pinhole", "--until", "2026-10-24", "--json", "--data", data)

    result = json.loads(wareboard(*asked))["result"]

    assert result["verdict"] == "cannot tell"
    assert result["say"].startswith("Cannot tell yet")
    assert result["next_test"]["make"][0].startswith("Put one piece from each bucket")


@pytest.mark.parametrize(
    ("asked", "field"),
    [
        (("nothing", "pinhole"), "glaze"),
        (("limpet", "ugly"), "fault"),
        (("limpet", "pinhole", "--until", "spring"), "until"),
        (("limpet",), "fault"),
    ],
)
def test_what_cannot_be_asked_is_one_sentence(data, asked, field):
    said = json.loads(wareboard("why", *asked, "--json", "--data", data, code=2))

    assert said["error"]["field"] == field
    assert said["error"]["say"]
