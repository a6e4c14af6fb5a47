"""The command line: one command a file, loaded when it is called."""
