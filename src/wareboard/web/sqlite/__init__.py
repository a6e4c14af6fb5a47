"""The database engine: Django's SQLite backend on the SQLite that comes with the program."""
