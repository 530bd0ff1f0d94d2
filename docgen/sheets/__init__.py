"""One file a kind of sheet."""
