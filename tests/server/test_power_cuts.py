"""What was acknowledged survives a power cut; and the measure notices when it would not."""

import pytest

from .power_cuts import cut_power, may_watch, watched

pytestmark = [
    pytest.mark.server,
    pytest.mark.skipif(not may_watch(), reason="no strace on this machine, or not allowed"),
]
ENTRIES, CUTS, SEED = 60, 60, 20261125


@pytest.mark.parametrize(("journal", "synchronous"), [("WAL", "FULL"), ("DELETE", "EXTRA")])
def test_nothing_acknowledged_is_lost_in_a_power_cut(data, tmp_path, journal, synchronous):
    run = watched(data, tmp_path, entries=ENTRIES, synchronous=synchronous, journal=journal)

    result = cut_power(run, tmp_path, cuts=CUTS, seed=SEED)

    assert result.acknowledged == ENTRIES + 1
    assert (result.cuts, result.corrupt, result.losing) == (CUTS, 0, 0)


def test_setting_that_waits_less_would_lose_entries(data, tmp_path):
    run = watched(data, tmp_path, entries=ENTRIES, synchronous="NORMAL", journal="WAL")

    result = cut_power(run, tmp_path, cuts=CUTS, seed=SEED)

    assert result.corrupt == 0
    assert result.losing > 0


def test_setting_that_never_waits_would_tear_the_record(data, tmp_path):
    run = watched(data, tmp_path, entries=ENTRIES, synchronous="OFF", journal="DELETE")

    result = cut_power(run, tmp_path, cuts=CUTS, seed=SEED)

    assert result.corrupt > 0
