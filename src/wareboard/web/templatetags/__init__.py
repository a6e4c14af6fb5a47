"""Words and numbers as templates show them."""
