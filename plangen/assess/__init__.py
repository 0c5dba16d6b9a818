"""Findings and plan become verdicts, derived figures, the snag list and the retest."""
