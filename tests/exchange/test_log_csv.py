"""LOG.csv: hours or times, Celsius or Fahrenheit."""

from pathlib import Path

import pytest

from wareboard.exchange.log_csv import NO_OFFSET, LogRows, read_log_csv
from wareboard.exchange.refusals import FileRefused


def log(folder: Path, content: str) -> str:
    path = folder / "log.csv"
    path.write_text(content)
    return str(path)


def test_hours_and_celsius_are_taken_as_they_stand(tmp_path: Path) -> None:
    path = log(tmp_path, "hours,temp_c\n1.5,160\n0,20\n")

    assert read_log_csv(path) == LogRows([1.5, 0.0], [160.0, 20.0], ())


# Freezing and boiling point of water on both scales; common knowledge.
def test_fahrenheit_becomes_celsius(tmp_path: Path) -> None:
    path = log(tmp_path, "hours,temp_f\n0,32\n1,212\n")

    assert read_log_csv(path).temp_c == [0.0, 100.0]


def test_times_count_from_the_earliest(tmp_path: Path) -> None:
    path = log(
        tmp_path,
        "time,temp_c\n2026-11-25T08:30:00Z,100\n2026-11-25T06:00:00Z,20\n",
    )

    assert read_log_csv(path) == LogRows([2.5, 0.0], [100.0, 20.0], ())


# The autumn change in central Europe: 2026-10-25 03:00 summer time becomes 02:00.
def test_offsets_are_honoured_over_the_autumn_change(tmp_path: Path) -> None:
    path = log(
        tmp_path,
        "time,temp_c\n2026-10-25T02:30:00+02:00,800\n2026-10-25T02:30:00+01:00,900\n",
    )

    assert read_log_csv(path).hours == [0.0, 1.0]


def test_times_without_offset_are_read_with_a_caution(tmp_path: Path) -> None:
    path = log(tmp_path, "time,temp_c\n2026-11-25T06:00,20\n2026-11-25 07:30:00,100\n")

    assert read_log_csv(path) == LogRows([0.0, 1.5], [20.0, 100.0], (NO_OFFSET,))


@pytest.mark.parametrize(
    ("content", "field", "say"),
    [
        (
            "time,temp_c\n2026-11-25T06:00:00Z,20\n25.11.2026 07:00,30\n",
            "time",
            (
                'line 3: time: "25.11.2026 07:00" is no date and time; '
                "accepted is a date and time such as 2026-11-25T14:30:00+01:00."
            ),
        ),
        (
            "time,temp_c\n2026-11-25,20\n",
            "time",
            (
                'line 2: time: "2026-11-25" lacks the time of day; '
                "accepted is a date and time such as 2026-11-25T14:30:00+01:00."
            ),
        ),
        (
            "time,temp_c\n2026-11-25T06:00:00Z,20\n2026-11-25T07:00:00,30\n",
            "time",
            (
                'line 3: time: "2026-11-25T07:00:00" has no offset, others have one; '
                "accepted is a date and time such as 2026-11-25T14:30:00+01:00."
            ),
        ),
        (
            "time,temp_c\n2026-11-25T06:00:00,20\n2026-11-25T07:00:00Z,30\n",
            "time",
            (
                'line 3: time: "2026-11-25T07:00:00Z" has an offset, others none; '
                "accepted is a date and time such as 2026-11-25T14:30:00+01:00."
            ),
        ),
        (
            "hours,time,temp_c\n0,2026-11-25T06:00:00Z,20\n",
            "time",
            "line 1: the columns hours and time say the same twice; keep one.",
        ),
        (
            "hours,temp_c\n0,20\n1,2232\n",
            "temp_c",
            "line 3: temp_c: 2232: do you mean 2232 \N{DEGREE SIGN}F (1222 \N{DEGREE SIGN}C)?",
        ),
        (
            "hours,temp_f\n0,4000\n",
            "temp_f",
            (
                'line 2: temp_f: temperature: "4000" is out of range; '
                "accepted is \N{DEGREE SIGN}F from -76 to 3632."
            ),
        ),
        (
            "hours,temp_c\n1:30,20\n",
            "hours",
            (
                'line 2: hours: time: "1:30" is not a plain number; '
                "accepted is hours as a number, such as 2.5."
            ),
        ),
        (
            "hours,degrees\n0,20\n",
            "degrees",
            (
                'line 1: the heading "degrees" is unknown; '
                "the columns are hours or time, temp_c or temp_f."
            ),
        ),
    ],
)
def test_a_bad_log_is_refused(tmp_path: Path, content: str, field: str, say: str) -> None:
    with pytest.raises(FileRefused) as refused:
        read_log_csv(log(tmp_path, content))

    assert (refused.value.field, refused.value.say) == (field, f"log.csv, {say}")


def test_a_firing_logged_every_second_is_read_whole(tmp_path: Path) -> None:
    lines = "".join(f"{second / 3600!r},{20 + second / 100!r}\n" for second in range(108_000))

    rows = read_log_csv(log(tmp_path, "hours,temp_c\n" + lines))

    assert rows.hours == [second / 3600 for second in range(108_000)]
    assert rows.temp_c[-1] == 20 + 107_999 / 100
