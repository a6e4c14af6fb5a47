"""What changed: which differences go with a fault, counted and said honestly."""

from .changes import Change, Piece, Strand, count_changes
from .verdict import Finding, Leaning, Reason, find_change, one_time_in, side_by_side

__all__ = [
    "Change",
    "Finding",
    "Leaning",
    "Piece",
    "Reason",
    "Strand",
    "count_changes",
    "find_change",
    "one_time_in",
    "side_by_side",
]
