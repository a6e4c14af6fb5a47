"""Kilns and their places, loads, firings, log lines, cones, gas, openings."""
