"""Pages that need several rooms, put together from each room's queries."""
