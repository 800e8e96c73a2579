"""The virtual sewing bench: how cloth behaves, the steps, the plan, and its replay."""
