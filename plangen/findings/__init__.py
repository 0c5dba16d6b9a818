"""What was read aboard: the findings file, filled PDFs, and merging several people's."""
