"""Photos and spoken notes by content hash, their views, slips with codes."""
