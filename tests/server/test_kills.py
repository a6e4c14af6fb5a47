"""What was acknowledged survives a killed server."""

import os
import signal
import time

import pytest

from .harness import Studio, kill_and_compare

pytestmark = pytest.mark.server
KILLS = 20


def test_nothing_acknowledged_is_lost_when_the_server_is_killed(data):
    figures = kill_and_compare(data, kills=KILLS, seed=20261125)

    assert (figures.kills, figures.lost) == (KILLS, [])
    assert figures.acknowledged > KILLS


def test_the_measure_notices_a_lost_entry(running):
    """What was never entered must show up as lost."""
    running.weigh("entered")

    running.kill()

    assert {"entered", "never-entered"} - running.kept() == {"never-entered"}


def test_entry_sent_again_after_a_kill_is_kept_once(data):
    studio = Studio(data).start()
    studio.weigh("sent-twice")
    studio.kill()

    again = Studio(data).start()
    status = again.weigh("sent-twice")
    again.stop()

    assert status == 302
    assert "sent-twice" in again.kept()


def test_workers_end_with_a_server_that_was_killed(running):
    os.kill(running.process.pid, signal.SIGKILL)
    running.end()

    until = time.monotonic() + 5
    while group_lives(running.process.pid) and time.monotonic() < until:
        time.sleep(0.05)

    assert not group_lives(running.process.pid)
    Studio(running.data, port=running.port).start().stop()


def group_lives(group: int) -> bool:
    """Say whether a process of the group is still there."""
    try:
        os.killpg(group, 0)
    except ProcessLookupError:
        return False
    return True
