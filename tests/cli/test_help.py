"""Help texts: each has an example, and each example works as it stands."""

import shlex
from collections.abc import Callable

import pytest

from wareboard.cli.reckon import CALCULATIONS

from .conftest import Run


def examples(text: str) -> list[list[str]]:
    lines = [line.strip() for line in text.splitlines()]
    return [shlex.split(line)[1:] for line in lines if line.startswith("wareboard reckon ")]


@pytest.mark.parametrize("name", CALCULATIONS)
def test_the_example_of_each_calculation_works_as_pasted(
    run: Callable[..., Run], name: str
) -> None:
    text = run("reckon", name, "--help").out

    assert len(examples(text)) == 1
    for example in examples(text):
        assert run(*example).code == 0
        assert run(*example, "--json").object["reckoned"] == name


@pytest.mark.parametrize("name", CALCULATIONS)
def test_each_option_is_explained(run: Callable[..., Run], name: str) -> None:
    text = run("reckon", name, "--help").out.partition("Options:\n")[2]

    options = [line for line in text.splitlines() if line.startswith("  --")]
    assert options
    for line in options:
        assert len(line.split(maxsplit=2)) == 3


def test_the_list_of_calculations_says_what_each_does(run: Callable[..., Run]) -> None:
    text = run("reckon", "--help").out

    for name in CALCULATIONS:
        assert f"\n  {name} " in text
