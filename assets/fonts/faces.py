"""Makes the program's faces out of the published ones in original/.

The toolkit can ask a font for none of its features and gives a line no room beyond the
face's own, so what the window needs is baked in:

  TwinloafText-*.ttf         digits of one width, the zero plain
  TwinloafHeading.ttf        room below the line for the tails of g and y
  TwinloafHeadingCount.ttf   the same with digits in cells of one width, for what counts down

Both families are under the SIL Open Font License 1.1 and reserve no name (read in the two
licences beside this file); the changed faces have names of their own all the same.

Run it in this folder with Debian's python3-fonttools: /usr/bin/python3 faces.py
"""

from fontTools.pens.boundsPen import BoundsPen
from fontTools.pens.recordingPen import DecomposingRecordingPen
from fontTools.pens.reverseContourPen import ReverseContourPen
from fontTools.pens.transformPen import TransformPen
from fontTools.pens.ttGlyphPen import TTGlyphPen
from fontTools.ttLib import TTFont

DIGITS = ["zero", "one", "two", "three", "four", "five", "six", "seven", "eight", "nine"]
# Thickness of the upright strokes, in units of the face, measured in each.
STEMS = {"Regular": 74, "Italic": 74, "SemiBold": 118, "SemiBoldItalic": 118}
DESCENT = -620  # of 2000; the published -510 cuts the last row of pixels of a g


def contours(glyphs, name):
    """The contours of a glyph, each a list of pen calls."""
    pen = DecomposingRecordingPen(glyphs)
    glyphs[name].draw(pen)
    out, one = [], []
    for call in pen.value:
        one.append(call)
        if call[0] in ("closePath", "endPath"):
            out.append(one)
            one = []
    return out


def bounds(glyphs, contour):
    pen = BoundsPen(glyphs)
    for op, args in contour:
        getattr(pen, op)(*args)
    return pen.bounds


def plain_zero(glyphs, stem):
    """The outline of a zero without its slash: the outer contour, and the same made smaller."""

    def area(contour):
        x0, y0, x1, y1 = bounds(glyphs, contour)
        return (x1 - x0) * (y1 - y0)

    outer = max(contours(glyphs, "zero.tf"), key=area)
    x0, y0, x1, y1 = bounds(glyphs, outer)
    # A counter is a little narrower at the sides than at the top, as in the face's own o.
    sx = (x1 - x0 - 2 * stem * 1.12) / (x1 - x0)
    sy = (y1 - y0 - 2 * stem * 0.98) / (y1 - y0)
    cx, cy = (x0 + x1) / 2, (y0 + y1) / 2
    pen = TTGlyphPen(None)
    inner = ReverseContourPen(TransformPen(pen, (sx, 0, 0, sy, cx * (1 - sx), cy * (1 - sy))))
    for to in (pen, inner):
        for op, args in outer:
            getattr(to, op)(*args)
    return pen.glyph(), int(x0)


def rename(font, family):
    name = font["name"]
    style = name.getDebugName(17) or name.getDebugName(2)
    for record in list(name.names):
        if record.nameID in (1, 3, 4, 6, 16):
            name.removeNames(record.nameID)
    for number, text in ((1, family), (3, f"{family} {style}"), (4, f"{family} {style}"),
                         (6, f"{family} {style}".replace(" ", "-")), (16, family)):
        name.setName(text, number, 3, 1, 0x409)


def text_face(style):
    font = TTFont(f"original/AtkinsonHyperlegibleNext-{style}.ttf")
    glyph, left = plain_zero(font.getGlyphSet(), STEMS[style])
    order = font.getGlyphOrder() + ["zero.plain"]
    font.setGlyphOrder(order)
    font["glyf"]["zero.plain"] = glyph
    font["glyf"].glyphOrder = order
    font["hmtx"]["zero.plain"] = (font["hmtx"]["zero.tf"][0], left)
    font["maxp"].numGlyphs = len(order)
    for table in font["cmap"].tables:
        for digit, name in enumerate(DIGITS):
            if ord("0") + digit in table.cmap:
                table.cmap[ord("0") + digit] = name + ".tf" if digit else "zero.plain"
    rename(font, "Twinloaf Text")
    font.save(f"TwinloafText-{style}.ttf")


def heading_face(family, file, cells):
    font = TTFont("original/Fraunces-SemiBold.ttf")
    font["hhea"].descent = font["OS/2"].sTypoDescender = DESCENT
    font["OS/2"].usWinDescent = max(-DESCENT, font["OS/2"].usWinDescent)
    if cells:
        # The cell fits the digits' mean; the zero, alone wider, is set a little narrower.
        cell = 1250
        for name in DIGITS:
            advance, left = font["hmtx"][name]
            glyph = font["glyf"][name]
            squeeze = min(1, cell / advance)
            if squeeze < 1:
                glyph.coordinates.scale((squeeze, 1))
                glyph.coordinates.toInt()
                glyph.recalcBounds(font["glyf"])
                advance, left = cell, glyph.xMin
            shift = round((cell - advance) / 2)
            glyph.coordinates.translate((shift, 0))
            glyph.recalcBounds(font["glyf"])
            font["hmtx"][name] = (cell, left + shift)
        if "kern" in font:
            del font["kern"]
        if "GPOS" in font:
            del font["GPOS"]  # kerning between digits would take them out of their cells
    rename(font, family)
    font.save(file)


for each in STEMS:
    text_face(each)
heading_face("Twinloaf Heading", "TwinloafHeading.ttf", cells=False)
heading_face("Twinloaf Heading Count", "TwinloafHeadingCount.ttf", cells=True)
