"""The demo studio as data: an invented pottery, one autumn, eighteen pots told in full.

Nobody and nothing in it exists. ``make_demo.py`` turns it into a record folder.
"""
