"""docgen: one project file describes one piece of furniture; one packet of paper comes out."""

__version__ = "0.7.0"
