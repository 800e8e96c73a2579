"""What is wanted: fabrics, roles, blocks, the setting, borders; the design file; the drawing of the quilt."""
