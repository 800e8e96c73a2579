"""From a design and a workroom to a plan that has been replayed, and all that is printed with it."""
