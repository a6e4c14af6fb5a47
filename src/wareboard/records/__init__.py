"""The record: one Django app for each room of the pottery, in the order of the craft.

people, pictures, stores, glazes, ware, kiln, shelf; a room knows the rooms
before it and never those after it. ``keeping`` stands above them all: what
concerns the whole record at once.
"""
