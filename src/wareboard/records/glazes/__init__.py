"""Recipes and versions, batches with their lots, buckets, readings."""
