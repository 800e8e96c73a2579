"""What is printed: the job sheet as plain data, and the Typst pages that set it."""
