"""The field page: one HTML file that works on a telephone without a network."""
