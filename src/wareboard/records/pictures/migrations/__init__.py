"""Migrations of this room."""
