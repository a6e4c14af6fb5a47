"""What comes in from people and other programs, and what goes out to them.

One file for each format. Whatever a person types passes through
``typed_number`` and ``typed_text``; whatever a file holds passes through
``csv_table`` first.
"""
