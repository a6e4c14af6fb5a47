"""The page about the record folder says what the program does."""

import re
from dataclasses import asdict
from pathlib import Path

from record_folder_damage import replace, said

from wareboard.exchange.record_folder import Limits

PAGE = Path(__file__).parents[3] / "docs" / "record-folder.md"


def test_the_page_gives_the_limits_as_they_are():
    table = PAGE.read_text(encoding="utf-8").partition("## Limits")[2].partition("\n## ")[0]

    numbers = [
        int(number.replace(",", "")) * (1024 * 1024 if unit else 1)
        for number, unit in re.findall(r"\| ([0-9,]+)( MiB)? \|", table)
    ]

    assert numbers == list(asdict(Limits()).values())


def test_the_page_shows_a_sentence_as_it_is_said(studio):
    folder = studio.write()
    replace(folder / "pots.csv", ",412.0,", ',"1,5",')
    shown = re.search(r"^    (pots\.csv, row .*)$", PAGE.read_text(encoding="utf-8"), re.MULTILINE)

    assert said(folder) == [shown[1].replace("row 12", "row 3")]
