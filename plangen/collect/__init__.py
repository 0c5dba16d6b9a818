"""What comes back from the boat, one file for each way, merged into the findings."""
