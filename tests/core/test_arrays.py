"""numpy is there when it is asked for, and is numpy itself."""

import subprocess
import sys

import numpy as np

from wareboard.core import arrays


def test_what_is_asked_of_it_is_numpys_own():
    assert arrays.np.exp is np.exp
    assert arrays.np.float64 is np.float64


def test_naming_it_loads_nothing_and_using_it_does():
    script = (
        "import sys\n"
        "from wareboard.core.firing import heatwork\n"
        "before = 'numpy' in sys.modules\n"
        "heatwork.np.zeros(1)\n"
        "print(before, 'numpy' in sys.modules)\n"
    )

    done = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True
    )

    assert done.stdout == "False True\n"
