"""True size: a drawing on endless paper, cut into tiles with match marks, names and check lines."""
