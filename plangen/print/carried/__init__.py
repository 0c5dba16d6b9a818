"""What is carried aboard: the sheets of each person's clipboard, the timetable, and what to bring."""
