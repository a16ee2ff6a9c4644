"""Makes the program's faces out of the published ones in original/.

The toolkit can ask a font for none of its features and gives a line no room beyond the
face's own, so what the window needs is baked in:

  TwinloafText-*.ttf         digits of one width, the zero plain; the signs that the program
                             writes and the published face lacks (ticks, arrows, d′, λ)
  TwinloafHeading.ttf        room below the line for the tails of g and y
  TwinloafHeadingCount.ttf   the same with digits in cells of one width, for what counts down

Both families are under the SIL Open Font License 1.1 and reserve no name (read in the two
licences beside this file); the changed faces have names of their own all the same.

Run it in this folder with Debian's python3-fonttools: /usr/bin/python3 faces.py
"""

from math import cos, hypot, pi, sin, tan

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


def stroke(pen, points, width):
    """A line along points, of one thickness, cut off square at its ends and mitred between."""
    left, right = [], []
    for i, (x, y) in enumerate(points):
        nx = ny = 0.0  # the sum of the normals of the pieces that meet here, each of length one
        for (ax, ay), (bx, by) in zip(points[max(i - 1, 0):i + 1], points[max(i - 1, 0) + 1:i + 2]):
            length = hypot(bx - ax, by - ay)
            nx, ny = nx + (ay - by) / length, ny + (bx - ax) / length
        reach = width / (nx * nx + ny * ny) if 0 < i < len(points) - 1 else width / 2
        left.append((x + nx * reach, y + ny * reach))
        right.append((x - nx * reach, y - ny * reach))
    polygon(pen, left + right[::-1])


def polygon(pen, points):
    """A shape with straight sides, its points in the order of a clock's hands."""
    turn = sum((bx - ax) * (by + ay) for (ax, ay), (bx, by) in zip(points, points[1:] + points[:1]))
    first, *rest = [(round(x), round(y)) for x, y in (points if turn > 0 else points[::-1])]
    pen.moveTo(first)
    for point in rest:
        pen.lineTo(point)
    pen.closePath()


def circle(pen, x, y, radius, inner=False):
    """A disc, or the hole in one."""
    turn = 1 if inner else -1
    at = lambda step, r: (round(x + r * cos(turn * step * pi / 8)), round(y + r * sin(turn * step * pi / 8)))
    pen.moveTo(at(0, radius))
    for step in range(1, 16, 2):
        pen.qCurveTo(at(step, radius / cos(pi / 8)), at(step + 1, radius))
    pen.closePath()


def signs(stem, slant):
    """The signs of our own: code point, name, advance, and what draws it. The axis is that
    of the face's plus, and letters lean as the face does."""
    axis = 324

    def lean(points):
        return [(x + y * slant, y) for x, y in points]

    def arrow(turned):
        def draw(pen):
            for line in ([(60, 0), (640, 0)], [(410, 220), (630, 0), (410, -220)]):
                stroke(pen, [turned(x, y) for x, y in line], stem)
        return draw

    def dots(pen):
        for i in range(3):
            circle(pen, 105 + i * 215, axis, 15 + stem * 0.55)

    def ring(pen):
        circle(pen, 330, axis, 270)
        circle(pen, 330, axis, 270 - stem, inner=True)

    def lambda_(pen):
        stroke(pen, lean([(110, 700), (455, 0)]), stem)
        stroke(pen, lean([(75, 0), (275, 430)]), stem)

    return [
        (0x202F, "uni202F", 150, lambda pen: None),
        (0x2032, "minute", 210, lambda pen: polygon(pen, lean([(80, 700), (80 + stem * 1.2, 700), (60 + stem * 0.6, 430), (60, 430)]))),
        (0x03BB, "lambda", 530, lambda_),
        (0x2190, "arrowleft", 700, arrow(lambda x, y: (700 - x, axis + y))),
        (0x2191, "arrowup", 560, arrow(lambda x, y: (280 + y, x - 20))),
        (0x2192, "arrowright", 700, arrow(lambda x, y: (x, axis + y))),
        (0x22EF, "uni22EF", 640, dots),
        (0x25BE, "uni25BE", 580, lambda pen: polygon(pen, [(40, 480), (540, 480), (290, 100)])),
        (0x25CB, "circle", 660, ring),
        (0x2713, "uni2713", 640, lambda pen: stroke(pen, [(70, 300), (230, 130), (570, 570)], stem * 1.15)),
    ]


def add(font, glyphs):
    """Puts glyphs (code point, name, advance, what draws it) into a face."""
    order = font.getGlyphOrder() + [name for _, name, _, _ in glyphs]
    font.setGlyphOrder(order)
    font["glyf"].glyphOrder = order
    for code, name, advance, draw in glyphs:
        pen = TTGlyphPen(None)
        draw(pen)
        glyph = pen.glyph()
        glyph.recalcBounds(font["glyf"])
        font["glyf"][name] = glyph
        font["hmtx"][name] = (advance, getattr(glyph, "xMin", 0))
        for table in font["cmap"].tables:
            if table.isUnicode():
                table.cmap[code] = name
    font["maxp"].numGlyphs = len(order)


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
    add(font, signs(STEMS[style], tan(12 * pi / 180) if "Italic" in style else 0))
    rename(font, "Twinloaf Text")
    font.save(f"TwinloafText-{style}.ttf")


def heading_face(family, file, cells):
    font = TTFont("original/Fraunces-SemiBold.ttf")
    font["hhea"].descent = font["OS/2"].sTypoDescender = DESCENT
    font["OS/2"].usWinDescent = max(-DESCENT, font["OS/2"].usWinDescent)
    add(font, [(0x202F, "uni202F", 300, lambda pen: None)])  # between thousands
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
