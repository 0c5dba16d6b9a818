"""What is looked up: a card for each rule, the gear by clause, what is assumed, and the sources."""
