"""The plan on paper: templates, style and PDF."""
