"""One file a check: looks at piece and schedules, gives findings."""
