"""What would be on the disk if the power failed now, for any moment of a run that was watched.

A program is run under ``strace``. From its writes, its waits for the disk and
its renames, the disk is put together as it could be at a moment: everything
that was waited for is there; every later write to a file is there or not, one
by one, by the toss of a coin; of later changes to a folder the first few are
there, in order, and not the rest.

This looks at whole system calls: no torn sectors, and no disk that lies.
"""

import os
import random
import re
import shutil
import subprocess
import sys
from collections.abc import Iterator
from dataclasses import dataclass, field
from pathlib import Path

from wareboard.records.keeping import database

WRITER = Path(__file__).parent / "writer.py"
CALLS = (
    "openat,close,lseek,write,pwrite64,fsync,fdatasync,ftruncate,unlink,unlinkat,"
    "rename,renameat,renameat2,mkdir,mkdirat"
)
LINE = re.compile(r"^(?:\d+ +)?(\w+)\((.*)\) += +(-?\d+|0x[0-9a-f]+)")
QUOTED = re.compile(r'"((?:\\x[0-9a-f]{2})*)"')
NOT_THE_RECORD = ("-shm",)


@dataclass
class File:
    """One file: what the disk surely has of it, and what was written since."""

    sure: bytearray = field(default_factory=bytearray)
    since: list[tuple[int, bytes | None]] = field(default_factory=list)


@dataclass
class Disk:
    """A disk in the middle of a run.

    Attributes
    ----------
    names : dict of str to File
        Names as the running program sees them.
    sure_names : dict of str to File
        Names that the disk surely has.
    since : dict of str to list
        Changes of names since the folder was last waited for, folder by folder.
    """

    names: dict[str, File] = field(default_factory=dict)
    sure_names: dict[str, File] = field(default_factory=dict)
    since: dict[str, list[tuple[str, File | None]]] = field(default_factory=dict)

    def change_name(self, path: str, file: File | None) -> None:
        """Give a name to a file, or take it away."""
        if file is None:
            self.names.pop(path, None)
        else:
            self.names[path] = file
        self.since.setdefault(os.path.dirname(path), []).append((path, file))  # noqa: PTH120 - a name out of a trace, not a path of ours

    def wait_for_folder(self, folder: str) -> None:
        """Make a folder's names sure."""
        for path, file in self.since.pop(folder, []):
            set_name(self.sure_names, path, file)

    def image(self, draw: random.Random) -> dict[str, bytes]:
        """Give the files as they could be found after a power cut now."""
        names = dict(self.sure_names)
        for changes in self.since.values():
            for path, file in changes[: draw.randint(0, len(changes))]:
                set_name(names, path, file)
        return {path: found(file, draw) for path, file in names.items()}


def set_name(names: dict[str, File], path: str, file: File | None) -> None:
    """Change one name in a list of names."""
    if file is None:
        names.pop(path, None)
    else:
        names[path] = file


def found(file: File, draw: random.Random) -> bytes:
    """Give a file's bytes as they could be found."""
    content = bytearray(file.sure)
    for at, written in file.since:
        if draw.random() < 0.5:
            apply(content, at, written)
    return bytes(content)


def apply(content: bytearray, at: int, written: bytes | None) -> None:
    """Write at a place, or cut there."""
    if written is None:
        del content[at:]
        content.extend(bytes(at - len(content)))
    else:
        content.extend(bytes(max(0, at - len(content))))
        content[at : at + len(written)] = written


def unquoted(text: str) -> list[bytes]:
    """Give the texts of a call, as strace writes them in hexadecimal."""
    return [bytes.fromhex(match.replace("\\x", "")) for match in QUOTED.findall(text)]


class Run:
    """The events of a watched run, played one by one onto a disk."""

    def __init__(self, before: Path, trace: Path, data: Path) -> None:
        self.disk = Disk()
        self.data, self.acks = str(data), str(data.parent / "acks")
        self.trace = trace
        self.open: dict[int, tuple[str, File | None, int]] = {}
        self.acknowledged: list[str] = []
        for path in before.rglob("*"):
            if path.is_file():
                file = File(bytearray(path.read_bytes()))
                name = str(data / path.relative_to(before))
                self.disk.names[name] = self.disk.sure_names[name] = file

    def play(self) -> Iterator[None]:
        """Play the events, stopping after each."""
        with self.trace.open(encoding="ascii") as lines:
            for line in lines:
                match = LINE.match(line)
                if match and int(match[3], 0) >= 0:
                    self.step(match[1], match[2], int(match[3], 0))
                    yield

    def step(self, call: str, text: str, result: int) -> None:
        """Play one call."""
        if call == "openat":
            self.opened(unquoted(text)[0].decode(), text, result)
        elif call in {"unlink", "unlinkat"}:
            self.named(unquoted(text)[0].decode(), None)
        elif call.startswith("rename"):
            source, target = (name.decode() for name in unquoted(text)[:2])
            file = self.disk.names.get(source)
            if file is not None:
                self.named(target, file)
                self.named(source, None)
        elif not call.startswith("mkdir"):
            self.on_handle(call, text, result)

    def named(self, path: str, file: File | None) -> None:
        """Change a name, where it is one of the data folder's."""
        if path.startswith(self.data):
            self.disk.change_name(path, file)

    def opened(self, path: str, text: str, handle: int) -> None:
        """Note what a handle stands for."""
        file = self.disk.names.get(path)
        if file is None and path.startswith(self.data) and "O_CREAT" in text:
            file = File()
            self.disk.change_name(path, file)
        elif file is not None and "O_TRUNC" in text:
            file.since.append((0, None))
        self.open[handle] = (path, file, 0)

    def on_handle(self, call: str, text: str, result: int) -> None:
        """Play a call that goes to a handle."""
        handle = int(text.partition(",")[0])
        path, file, at = self.open.get(handle, ("", None, 0))
        if call == "close":
            self.open.pop(handle, None)
        elif call == "lseek":
            self.open[handle] = (path, file, result)
        elif call == "write" and path == self.acks:
            self.acknowledged.extend(unquoted(text)[0].decode().split())
        elif call in {"fsync", "fdatasync"}:
            self.waited(path, file)
        elif file is None:
            return
        elif call == "ftruncate":
            file.since.append((int(text.rpartition(",")[2]), None))
        elif call == "pwrite64":
            file.since.append((int(text.rpartition(",")[2]), unquoted(text)[0][:result]))
        elif call == "write":
            file.since.append((at, unquoted(text)[0][:result]))
            self.open[handle] = (path, file, at + result)

    def waited(self, path: str, file: File | None) -> None:
        """Make sure what was waited for."""
        if file is None:
            self.disk.wait_for_folder(path.rstrip("/"))
            return
        for at, written in file.since:
            apply(file.sure, at, written)
        file.since.clear()


@dataclass
class Cuts:
    """What a number of power cuts came to."""

    cuts: int = 0
    corrupt: int = 0
    losing: int = 0
    most_lost: int = 0
    acknowledged: int = 0


def watched(data: Path, place: Path, *, entries: int, synchronous: str, journal: str) -> Run:
    """Run the writer on a copy of a studio, watching; give what happened."""
    before = Path(shutil.copytree(data, place / "before"))
    running = Path(shutil.copytree(data, place / "running"))
    trace = place / "trace"
    subprocess.run(
        [
            *("strace", "-f", "-xx", "-s", "300000", "-o", trace, "-e", f"trace={CALLS}"),
            *(sys.executable, WRITER, running, str(entries), synchronous, journal),
        ],
        env={key: value for key, value in os.environ.items() if key != "WAREBOARD_DATA"}
        | {"DJANGO_SETTINGS_MODULE": "wareboard.web.settings"},
        check=True,
        capture_output=True,
    )
    return Run(before, trace, running)


def may_watch() -> bool:
    """Say whether this machine lets a program be watched."""
    if shutil.which("strace") is None:
        return False
    tried = subprocess.run(["strace", "-o", os.devnull, "true"], capture_output=True, check=False)
    return tried.returncode == 0


def cut_power(run: Run, place: Path, *, cuts: int, seed: int) -> Cuts:
    """Cut the power at random moments of a run and look at what would be found."""
    draw = random.Random(seed)  # noqa: S311 - a sample, not a secret
    with run.trace.open(encoding="ascii") as lines:
        events = sum(1 for line in lines if (m := LINE.match(line)) and int(m[3], 0) >= 0)
    moments = sorted(draw.randrange(events) for _ in range(cuts))
    result = Cuts()
    for number, _ in enumerate(run.play()):
        while moments and moments[0] == number:
            moments.pop(0)
            result.cuts += 1
            lost = lost_in(run.disk.image(draw), run, place / "found")
            result.corrupt += lost is None
            result.losing += bool(lost)
            result.most_lost = max(result.most_lost, lost or 0)
    result.acknowledged = len(run.acknowledged)
    return result


def lost_in(image: dict[str, bytes], run: Run, place: Path) -> int | None:
    """Count what was acknowledged and is not in an image; None where record or backup is torn."""
    shutil.rmtree(place, ignore_errors=True)
    for name, content in image.items():
        if not name.endswith(NOT_THE_RECORD):
            target = place / Path(name).relative_to(run.data)
            target.parent.mkdir(parents=True, exist_ok=True)
            target.write_bytes(content)
    record = place / "record.sqlite3"
    if database.all_faults(record):
        return None
    with database.opened(record) as connection:
        here = {row[0] for row in connection.execute("SELECT id FROM wareboard_reading")}
        for entry_id, name in connection.execute(
            "SELECT id, sha256 || '.' || suffix FROM wareboard_original"
        ):
            if is_whole(place / "originals" / name):
                here.add(entry_id)
    for backup in place.glob("backups/[!.]*.zip"):
        if backup.read_bytes() != (Path(run.data) / "backups" / backup.name).read_bytes():
            return None
        here.add("backup")
    return len(set(run.acknowledged) - here)


def is_whole(original: Path) -> bool:
    """Say whether an original is there, byte for byte."""
    from wareboard.records.keeping.backup import hash_of  # noqa: PLC0415 - here alone

    return original.is_file() and hash_of(original) == original.stem
