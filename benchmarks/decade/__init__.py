"""A made-up record of ten years: 20,000 pots with all that happened to them.

The same seed and the same last day give the same record. Nothing in it is
anybody's: names, recipes and weights are drawn at random within what such
things usually are.
"""
