"""The engine that turns wanted dimensions into records on paper, in lanes and never one over another."""
