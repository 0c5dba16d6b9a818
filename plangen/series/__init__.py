"""Many hulls' assessments: what fails most, how readings spread, what is open, what one instrument read."""
