"""Text to a tree in which each value knows its place; the error type; the nearest word."""
