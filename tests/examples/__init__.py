"""The pieces in examples/ and the starter."""
