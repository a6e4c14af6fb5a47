"""Whatever stands in a file, a calculation answers or refuses it."""

import contextlib
import io
import json
import tempfile
from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from wareboard.cli.main import main

NUMBERS = st.sampled_from(
    ["0", "1", "40", "1e-12", "1e9", "2000", "-60", "-1", "0.5", "1e7", "", "x", "100", "110"]
)
MATERIALS = st.sampled_from(
    ["calcite_ideal", "quartz_ideal", "silicon_carbide", "feldspar_potash_grade2", "ours", "x"]
)
TIMES = st.sampled_from(["2026-11-25T06:00:00Z", "2026-11-25T07:00:00+01:00", "9999-12-31T23:59Z"])


def rows(*columns: st.SearchStrategy[str]) -> st.SearchStrategy[str]:
    row = st.tuples(*columns).map(",".join)
    return st.lists(row, max_size=6).map("\n".join)


@pytest.mark.parametrize("name", ["unity", "solid", "cone", "pot"])
@settings(deadline=None)
@given(data=st.data())
def test_any_rows_are_answered_or_refused(name: str, data: st.DataObject) -> None:
    heading, body = {
        "unity": ("material,parts", rows(MATERIALS, NUMBERS)),
        "solid": ("material,parts", rows(MATERIALS, NUMBERS)),
        "cone": data.draw(
            st.sampled_from(
                [("hours,temp_c", rows(NUMBERS, NUMBERS)), ("time,temp_f", rows(TIMES, NUMBERS))]
            )
        ),
        "pot": ("r_cm,z_cm", rows(NUMBERS, NUMBERS)),
    }[name]
    sheet = data.draw(rows(st.just("ours"), NUMBERS, NUMBERS, NUMBERS, NUMBERS))
    out = io.StringIO()

    with tempfile.TemporaryDirectory() as folder:
        file, own = Path(folder, "file.csv"), Path(folder, "own.csv")
        file.write_text(f"{heading}\n{data.draw(body)}\n")
        own.write_text(f"id,SiO2,F,LOI,density_g_cm3\n{sheet}\n")
        more = {
            "unity": ["--materials", str(own)],
            "solid": ["--materials", str(own)],
            "pot": data.draw(st.sampled_from([[], ["--wall-mm", "6"], ["--wall-mm", "1e5"]])),
        }.get(name, [])
        with contextlib.redirect_stdout(out):
            code = main(["reckon", name, str(file), *more, "--json"])

    assert code in (0, 2), out.getvalue()
    assert ("error" in json.loads(out.getvalue(), parse_constant=pytest.fail)) is (code == 2)
