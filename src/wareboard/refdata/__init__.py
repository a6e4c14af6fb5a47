"""Reference tables and the typed ways to read them.

Each table is a CSV file in ``tables/`` with a provenance file of the same name
beside it. Nothing is read until it is asked for, and nothing here needs more
than the standard library, so a short command stays short.

A value keeps its standing: verified, from memory, computed or illustrative.
Whoever shows a value can therefore say how far it is to be trusted.
"""
