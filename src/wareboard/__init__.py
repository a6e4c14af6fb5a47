"""Wareboard remembers and reckons for the potter.

The chain it keeps: lot, batch, bucket, coat, pot, place, firing, verdict. The
rooms are drawn in ``docs/architecture.md``.
"""

__version__ = "0.1.0"
