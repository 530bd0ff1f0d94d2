"""What may be written in a layout, and the layouts as plain values."""
