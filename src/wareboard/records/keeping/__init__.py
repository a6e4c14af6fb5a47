"""What concerns the whole record: its folder, taking in, handing out, backups."""
