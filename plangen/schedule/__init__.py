"""plan × people and hours → rounds, what is chosen, sessions and their timetable."""
