"""The house file: what a surveyor or a yard adds to, drops from or alters in the shipped checks."""
