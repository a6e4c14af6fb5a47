"""Pictures of what was worked out: one drawing or chart a file.

Charts come as Vega-Lite specifications (plain dictionaries), drawings of pots
as SVG. Altair and its companions are slow to import, so each function imports
what it needs.
"""
