"""Materials, analysis sheets with their doubt, lots, counts."""
