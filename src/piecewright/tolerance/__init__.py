"""What a plan will measure with one person's own machine and hands. It never changes what the plan is."""
