"""What the commands say on the terminal, a module for each thing that is said."""
