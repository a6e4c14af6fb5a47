"""Whatever stands in a folder, it is read or refused; nothing else happens."""

import json

import hypothesis.strategies as st
from hypothesis import HealthCheck, given, settings
from record_folder_samples import ROWS, SPECS

from wareboard.exchange.record_folder import FolderRefused, read_record_folder

# The folder is written once, and what was damaged is put back each time.
ON_ONE_FOLDER = settings(
    deadline=None, max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
JUNK = st.recursive(
    st.none() | st.booleans() | st.integers() | st.text(max_size=3) | st.sampled_from(["../x", ""]),
    lambda inner: st.lists(inner, max_size=2) | st.dictionaries(st.text(max_size=3), inner),
    max_leaves=4,
)


def places_in(piece, place=()):
    """The way to every member and item of a piece of JSON."""
    parts = piece.items() if isinstance(piece, dict) else enumerate(piece)
    for name, part in parts:
        yield (*place, name)
        if isinstance(part, (dict, list)):
            yield from places_in(part, (*place, name))


@settings(
    deadline=None, max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data(), junk=JUNK)
def test_a_description_with_anything_in_any_place_is_read_or_refused(studio, data, junk):
    folder = studio.place / "record"
    if not folder.exists():
        studio.write()
    file = folder / "datapackage.json"
    sound = file.read_bytes()
    package = json.loads(sound)
    *way, last = data.draw(st.sampled_from(list(places_in(package))))
    part = package
    for name in way:
        part = part[name]
    part[last] = junk

    file.write_text(json.dumps(package), encoding="utf-8")
    try:
        seen = read_record_folder(folder, SPECS)
    except FolderRefused as refusal:
        seen = refusal
    finally:
        file.write_bytes(sound)

    assert isinstance(seen, FolderRefused) or seen.rows_by_table.keys() == ROWS.keys()


@settings(
    deadline=None, max_examples=300, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(data=st.data(), junk=st.binary(max_size=4), gone=st.integers(0, 3))
def test_a_table_with_anything_in_any_place_is_read_or_refused(studio, data, junk, gone):
    folder = studio.place / "record"
    if not folder.exists():
        studio.write()
    file = folder / data.draw(st.sampled_from(["pots.csv", "coats.csv", "originals.csv"]))
    sound = file.read_bytes()
    at = data.draw(st.integers(0, len(sound)))

    file.write_bytes(sound[:at] + junk + sound[at + gone :])
    try:
        seen = read_record_folder(folder, SPECS)
    except FolderRefused as refusal:
        seen = refusal
    finally:
        file.write_bytes(sound)

    assert isinstance(seen, FolderRefused) or seen.rows_by_table.keys() == ROWS.keys()
