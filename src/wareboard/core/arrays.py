"""numpy, loaded when an array is first needed.

Most pages and commands never touch one, and loading it takes longer than many
of them do. What stands here is numpy to a type checker, and to the rest of the
core; a module that works with arrays takes it from here.
"""

from importlib import import_module
from typing import TYPE_CHECKING, Any

__all__ = ["ArrayLike", "Bools", "Floats", "np"]

if TYPE_CHECKING:
    import numpy as np
    from numpy.typing import ArrayLike, NDArray

    Floats = NDArray[np.float64]
    Bools = NDArray[np.bool_]
else:

    class _Numpy:
        """What is asked of it the first time loads numpy; afterwards it is found here."""

        def __getattr__(self, name: str) -> Any:
            found = getattr(import_module("numpy"), name)
            setattr(self, name, found)
            return found

    np = _Numpy()
    ArrayLike = Floats = Bools = Any
