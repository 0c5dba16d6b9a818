"""The report: what findings and plan came to, for those who sign a handover or for those who asked for a survey."""
