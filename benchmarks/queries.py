"""Count what every page of a data folder asks its database; run once a folder.

python benchmarks/queries.py FOLDER [--json] [--sql ROUTE]
"""

import argparse
import json
import sys
from dataclasses import asdict
from pathlib import Path

from wareboard.cli.preparing import held_record
from wareboard.records.keeping.data_folder import DataFolder


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--json", action="store_true", help="for another program")
    parser.add_argument("--examples", action="store_true", help="say what phones may write to")
    parser.add_argument("--sql", default="", help="show the questions of routes that begin so")
    asked = parser.parse_args()
    with held_record(DataFolder(asked.folder.absolute())):
        from decade.addresses import written_to  # noqa: PLC0415 - needs Django set up
        from decade.counting import count_all  # noqa: PLC0415 - as above

        from wareboard.records.keeping import first_run  # noqa: PLC0415 - as above

        owner = first_run.owner()
        if asked.examples:
            print(json.dumps(written_to(owner)))
            return 0
        found = count_all(owner)
        if asked.json:
            print(json.dumps([{**asdict(one), "sql": [], "is_page": one.is_page} for one in found]))
            return 0
        for one in found:
            print(f"{one.status} {one.queries:>3} {one.ms:8.1f} ms {one.kb:8.1f} kB  {one.route}")
            if asked.sql and one.route.startswith(asked.sql):
                explain(one.sql)
    return 0


def explain(questions: tuple[str, ...]) -> None:
    """Show each question, how the database looks for its answer, and how long that takes."""
    import time  # noqa: PLC0415 - as above

    from django.db import connection  # noqa: PLC0415 - as above

    for sql in questions:
        print("    ", sql[:3000])
        if not sql.startswith("SELECT"):
            continue
        with connection.cursor() as cursor:
            start = time.perf_counter()
            rows = len(cursor.execute(sql).fetchall())
            print(f"    => {rows} rows, {(time.perf_counter() - start) * 1e3:.1f} ms")
            for step in cursor.execute(f"EXPLAIN QUERY PLAN {sql}").fetchall():
                print("        ", step[1], step[3])


if __name__ == "__main__":
    sys.exit(main())
