"""The DXF file for a cutting machine: millimetres, release R2010, layers CUT, SEW, MARK and TEXT.

The same bytes for the same sheet: no date of the day and no number of chance is in the file.
"""

from __future__ import annotations

import io

import ezdxf
from ezdxf import units
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.filemanagement import new

from piecewright.drawing.machine_lines import LAYERS, LayerName, MachineSheet

RELEASE = "R2010"
COLOURS: dict[LayerName, int] = {"cut": 1, "sew": 5, "mark": 7, "text": 8}
"""The colours of the layers by number: red, blue, black on white or white on black, grey."""


def machine_dxf(sheet: MachineSheet) -> bytes:
    """The file; outlines are closed polylines, curves are polylines of many short sides."""
    # Without this the library writes the time of day and new random numbers into every file.
    options = ezdxf.options  # type: ignore[attr-defined]
    before, options.write_fixed_meta_data_for_testing = options.write_fixed_meta_data_for_testing, True
    try:
        document = _document(sheet)
        stream = io.StringIO()
        document.write(stream)
    finally:
        options.write_fixed_meta_data_for_testing = before
    return document.encode(stream.getvalue())


def _document(sheet: MachineSheet) -> Drawing:
    document = new(RELEASE, units=units.MM)
    for layer in LAYERS:
        document.layers.add(_name(layer), color=COLOURS[layer])
    space = document.modelspace()
    for line in (*sheet.lines, *sheet.check):
        points = line.points[:-1] if line.closed else line.points
        space.add_lwpolyline(points, close=line.closed, dxfattribs={"layer": _name(line.layer)})
    for words in sheet.words:
        looks = {"layer": _name("text"), "rotation": words.turn}
        text = space.add_text(_plain(words.text), height=words.height, dxfattribs=looks)
        text.set_placement(words.at, align=TextEntityAlignment.MIDDLE_CENTER)
    width, height = sheet.size
    document.header["$EXTMIN"], document.header["$EXTMAX"] = (0.0, 0.0, 0.0), (width, height, 0.0)
    document.set_modelspace_vport(height=max(width, height), center=(width / 2, height / 2))
    return document


def _name(layer: LayerName) -> str:
    return layer.upper()


def _plain(words: str) -> str:
    """The words without signs that DXF takes for orders: `%%`, `^`, and whatever cannot be printed."""
    printable = "".join(sign if sign.isprintable() else " " for sign in words)
    return printable.replace("%%", "% %").replace("^", "^ ")
