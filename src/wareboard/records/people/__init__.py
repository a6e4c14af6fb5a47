"""Studio, members and what each may do, devices; and what every entry has."""
