"""A description that strays, each kind once, and the sentence that tells of it."""

import pytest
from record_folder_damage import AS_WRITTEN, BESIDE, NEWER, TAKE_AWAY, redescribe, said
from record_folder_samples import COATS, PHOTO_PATH, POTS, SOUND_PATH, SPECS, sha256

from wareboard.exchange.record_folder import (
    Column,
    FolderRefused,
    TableSpec,
    read_record_folder,
)


def resource(package, number=0):
    return package["resources"][number]


def column(package, number):
    return resource(package)["schema"]["fields"][number]


# A change of the description, and the sentence.
PATHS = ["../pots.csv", "/etc/passwd", "C:\\pots.csv", "sub/pots.csv", "https://example.org/p.csv"]
DESCRIPTIONS = [
    *(
        (
            lambda package, path=path: resource(package).update(path=path),
            f'"{path}" is no path of a table in this folder; {BESIDE}',
        )
        for path in PATHS
    ),
    (
        lambda package: resource(package).update(path=["pots.csv", "../x.csv"]),
        f'"["pots.csv", "../x.csv"]" is no path of a table in this folder; {BESIDE}',
    ),
    (
        lambda package: resource(package).update(name="../pots", path="../pots.csv"),
        f'"../pots.csv" is no path of a table in this folder; {BESIDE}',
    ),
    (
        lambda package: package["resources"].append(resource(package)),
        f'"pots.csv" is listed twice; {AS_WRITTEN}',
    ),
    (
        lambda package: package["recordFolder"].update(layout=2),
        "says that the folder has layout 2, and this program reads layout 1; use a newer program.",
    ),
    (
        lambda package: package.update(title=""),
        f"does not say whose record it is and which program wrote it; {AS_WRITTEN}",
    ),
    (
        lambda package: package["recordFolder"].update(programVersion="0.1\n"),
        f"does not say whose record it is and which program wrote it; {AS_WRITTEN}",
    ),
    (
        lambda package: column(package, 3).update(unit="kg"),
        '"kg" is the unit of the column weight_g of pots; this program keeps g there.',
    ),
    (
        lambda package: column(package, 5).update(unit="kg"),
        '"kg" is the unit of the column note of pots; this program keeps no unit there.',
    ),
    (
        lambda package: column(package, 2).update(type="datetime"),
        '"datetime" is the type of the column thrown_on of pots; this program keeps date there.',
    ),
    (
        lambda package: resource(package)["schema"].update(primaryKey=["note"]),
        f"does not tell the rows of pots apart by id; {AS_WRITTEN}",
    ),
    # What has the right shape and contradicts itself all the same is found by the library.
    (
        lambda package: column(package, 5).update(name="id"),
        "breaks the rules of Data Packages (names of the fields are not unique); " + AS_WRITTEN,
    ),
]
# A change of the shape, and what is said of it.
SHAPES = [
    (
        lambda package: resource(package).update(schema="https://example.org/schema.json"),
        'resources[0].schema is "https://example.org/schema.json"',
    ),
    (
        lambda package: package.update(profile="https://example.org/profile.json"),
        "profile does not belong there",
    ),
    (
        lambda package: package.update({"$schema": "https://example.org/profile.json"}),
        '$schema is "https://example.org/profile.json"',
    ),
    (
        lambda package: resource(package).update(data=[["id"], ["p-1"]]),
        "resources[0].data does not belong there",
    ),
    (lambda package: resource(package).pop("path"), "resources[0].path is missing"),
    (
        lambda package: column(package, 0).update(example="p-1"),
        "resources[0].schema.fields[0].example does not belong there",
    ),
    (
        lambda package: resource(package).update(encoding="utf-16"),
        'resources[0].encoding is "utf-16"',
    ),
    (
        lambda package: resource(package).update(dialect={"delimiter": ";"}),
        'resources[0].dialect is {"delimiter": ";"}',
    ),
    (
        lambda package: resource(package)["schema"].update(missingValues=["", "-"]),
        'resources[0].schema.missingValues is ["", "-"]',
    ),
    (
        lambda package: column(package, 0).update(name=5),
        "resources[0].schema.fields[0].name is 5",
    ),
    (
        lambda package: column(package, 3)["constraints"].update(minimum=True),
        "resources[0].schema.fields[3].constraints.minimum is true",
    ),
    (
        lambda package: resource(package)["schema"].update(foreignKeys=5),
        "resources[0].schema.foreignKeys is 5",
    ),
    (
        lambda package: resource(package)["schema"].update(foreignKeys=[{"fields": ["pair_id"]}]),
        "resources[0].schema.foreignKeys[0].reference is missing",
    ),
    (lambda package: package.update(resources="pots"), 'resources is "pots"'),
    (lambda package: package.update(resources=["pots"]), 'resources[0] is "pots"'),
    (lambda package: package.update(recordFolder={}), "recordFolder.layout is missing"),
    (
        lambda package: package["recordFolder"].update(layout=True),
        "recordFolder.layout is true",
    ),
]


@pytest.mark.parametrize(("change", "misfit"), SHAPES)
def test_a_description_of_another_shape_is_refused(studio, change, misfit):
    folder = studio.write()

    redescribe(folder, change)

    assert said(folder) == [
        f"datapackage.json: is not as the program writes it ({misfit}); {AS_WRITTEN}"
    ]


@pytest.mark.parametrize(("change", "sentence"), DESCRIPTIONS)
def test_a_description_that_strays_is_refused(studio, change, sentence):
    folder = studio.write()

    redescribe(folder, change)

    assert said(folder) == [f"datapackage.json: {sentence}"]


def test_a_table_of_a_newer_program_is_named(studio):
    folder = studio.write()

    assert said(folder, specs=SPECS[:2]) == [
        f'datapackage.json: "log_lines" is a table that this program does not know; {NEWER}',
        f"log_lines.csv: is a table that datapackage.json does not name; {TAKE_AWAY}",
        (
            f'originals.csv, row 3, column path: "{SOUND_PATH[:60]}..." belongs to no row of any '
            "table; refer to it, or take out the row and the file."
        ),
    ]


def test_a_column_of_a_newer_program_is_named(studio):
    folder = studio.write()
    older = TableSpec("coats", "Coats", "", COATS.columns[:2], key=("pot_id", "place"))

    assert said(folder, specs=(POTS, older, SPECS[2]))[0] == (
        f'datapackage.json: "glaze" is a column of coats that this program does not know; {NEWER}'
    )


def test_a_table_that_must_be_there_is_named_where_the_description_leaves_it_out(studio):
    folder = studio.write()
    plates = TableSpec("plates", "Plates", "", (Column("id", "integer"),))

    assert said(folder, specs=(*SPECS, plates)) == [
        f"datapackage.json: has no table plates; {AS_WRITTEN}"
    ]


def test_a_column_that_must_be_there_is_named_where_the_description_leaves_it_out(studio):
    folder = studio.write()
    newer = TableSpec(
        "coats",
        "Coats",
        "",
        (*COATS.columns, Column("litres", "number", required=True)),
        key=("pot_id", "place"),
    )

    assert said(folder, specs=(POTS, newer, SPECS[2])) == [
        f"datapackage.json: has no column litres in coats; {AS_WRITTEN}"
    ]


def test_nothing_of_a_refused_folder_is_handed_on(studio):
    folder = studio.write()
    (folder / PHOTO_PATH).write_bytes(b"\x00" * 18)

    with pytest.raises(FolderRefused) as refusal:
        read_record_folder(folder, SPECS)

    assert vars(refusal.value).keys() == {
        *("say", "field", "seen", "accepted", "problems", "all_told"),
    }
    assert sha256(b"\x00" * 18) not in str(refusal.value)
