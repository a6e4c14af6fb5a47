"""Pure numbers of the craft, one package for each kind of physics.

Nothing here opens a file, reads a clock, prints or keeps state.
"""
