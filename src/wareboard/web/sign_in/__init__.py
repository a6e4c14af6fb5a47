"""Coming in and going out."""
