"""Shapes cut from strips and squares: triangles, diamonds, hexagons, trapezoids, wanted beside rectangles.

From what is wanted (`wanted`, `kinds`, `reading`) to the strips and squares that it is cut from (`rows`,
`splitting`), the layout of these with all else that is wanted of the cloth (`laying`), and what is told of
it (`telling`, `steps`); `checking` reads all of it again.
"""
