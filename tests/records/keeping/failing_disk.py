"""A disk that fails, or a machine that dies, at the n-th operation."""

import errno
import os
import signal
import traceback
from pathlib import Path

from wareboard.records.pictures.disk import Disk


class FailingDisk(Disk):
    """Fail the n-th operation; with ``for_ever`` every one from there on."""

    def __init__(self, fails_at: int, *, for_ever: bool = False) -> None:
        self.fails_at, self.for_ever, self.steps = fails_at, for_ever, 0

    def step(self, name: str, path: Path) -> None:
        self.steps += 1
        if self.steps == self.fails_at or (self.for_ever and self.steps > self.fails_at):
            raise OSError(errno.EIO, f"the disk failed at step {self.steps}, {name}", str(path))


class DyingMachine(Disk):
    """Kill the process itself at the n-th operation, as a power cut would."""

    def __init__(self, dies_at: int) -> None:
        self.dies_at, self.steps = dies_at, 0

    def step(self, name: str, path: Path) -> None:
        self.steps += 1
        if self.steps == self.dies_at:
            del name, path
            os.kill(os.getpid(), signal.SIGKILL)


def in_a_child(action) -> bool:
    """Do something in a process of its own; say whether it came to its end."""
    child = os.fork()
    if child == 0:
        code = 1
        try:
            action()
            code = 0
        except BaseException:  # noqa: BLE001 - said here, since the child is about to end
            traceback.print_exc()
        finally:
            os._exit(code)
    _, status = os.waitpid(child, 0)
    if os.WIFSIGNALED(status):
        return False
    assert os.WEXITSTATUS(status) == 0
    return True
