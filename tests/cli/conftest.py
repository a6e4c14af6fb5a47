"""Run the command line as its users do, in the folder with the examples."""

import json
from collections.abc import Callable
from pathlib import Path
from typing import Any, NamedTuple

import pytest

from wareboard.cli.main import main

EXAMPLES = Path(__file__).parents[2] / "examples"


class Run(NamedTuple):
    """What a run of the program left behind."""

    code: int
    out: str
    err: str

    @property
    def object(self) -> dict[str, Any]:
        """The one JSON object on standard output."""
        found: dict[str, Any] = json.loads(self.out, parse_constant=pytest.fail)
        assert self.out.endswith("}\n")
        assert self.err == ""
        return found

    @property
    def error(self) -> dict[str, Any]:
        """The error on standard output, and nothing beside it."""
        assert self.code == 2
        assert list(self.object) == ["error"]
        error: dict[str, Any] = self.object["error"]
        assert list(error) == ["field", "seen", "accepted", "say"]
        return error


@pytest.fixture
def run(capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch) -> Callable[..., Run]:
    """Run ``wareboard`` with arguments in the folder ``examples``."""
    monkeypatch.chdir(EXAMPLES)

    def running(*arguments: str) -> Run:
        code = main(arguments)
        return Run(code, *capsys.readouterr())

    return running
