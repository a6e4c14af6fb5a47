"""PROFILE.csv."""

from pathlib import Path

import pytest

from wareboard.exchange.profile_csv import read_profile_csv
from wareboard.exchange.refusals import FileRefused


def profile(folder: Path, content: str) -> str:
    path = folder / "profile.csv"
    path.write_text(content)
    return str(path)


def test_points_keep_their_order(tmp_path: Path) -> None:
    path = profile(tmp_path, "z_cm,r_cm\n0,3.5\n-0.2,3.7\n8,9\n")

    assert read_profile_csv(path) == [(3.5, 0.0), (3.7, -0.2), (9.0, 8.0)]


def test_a_point_beyond_the_axis_is_refused(tmp_path: Path) -> None:
    with pytest.raises(FileRefused) as refused:
        read_profile_csv(profile(tmp_path, "r_cm,z_cm\n3,0\n-1,1\n"))

    assert refused.value.say == (
        'profile.csv, line 3: r_cm: distance from the axis: "-1" is out of range; '
        "accepted is centimetres from 0 to 10000."
    )
