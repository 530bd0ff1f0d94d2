"""The lists as plain rows, no paper."""
