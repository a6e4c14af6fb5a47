"""Forms, pots, weighings, coats in order, decoration, marks, boards."""
