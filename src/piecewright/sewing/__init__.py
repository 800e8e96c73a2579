"""What is at the machine together, and in what order."""
