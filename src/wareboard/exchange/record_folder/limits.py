"""How big a record folder may be.

The limits are far above what a studio writes in a working life and low enough
that a folder from elsewhere cannot fill the memory or the disk. A folder that
keeps them can be written and read again.
"""

from dataclasses import dataclass

MIB = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Limits:
    """Limits of a record folder.

    Attributes
    ----------
    rows : int
        Rows of one table.
    cell_characters : int
        Characters of one cell.
    table_bytes : int
        Size of one CSV file.
    descriptor_bytes : int
        Size of ``datapackage.json``.
    original_bytes : int
        Size of one photo or sound.
    entries : int
        Files in one folder.
    problems : int
        Problems told before the search stops.
    """

    rows: int = 2_000_000
    cell_characters: int = 100_000
    table_bytes: int = 1024 * MIB
    descriptor_bytes: int = 8 * MIB
    original_bytes: int = 256 * MIB
    entries: int = 500_000
    problems: int = 100


USUAL = Limits()
