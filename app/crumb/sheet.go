package crumb

import (
	"errors"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/crumb"
	"twinloaf/journal/measure"
)

// A scaleSource is what a photo's scale comes from, in the order of its pills.
type scaleSource int

const (
	fromWidth scaleSource = iota // the slice's width
	fromLine                     // a line of known length
	fromSheet                    // the corners of a sheet
)

// sheetSizes are the sheets of a known size, the longer side first, in the order of
// their pills; after them comes one of any size.
var sheetSizes = [...][2]float64{{crumb.A4LongMM, crumb.A4ShortMM}, {crumb.CardLongMM, crumb.CardShortMM}}

// sheetPart is the part of the settings that says how large a sheet is, and how far it
// straightened the photo.
type sheetPart struct {
	box        *fyne.Container
	of         *kit.Segments
	wide, high *kit.QuantityField
	sides      fyne.CanvasObject
	told       *kit.Text
	sheet      crumb.Sheet // as shown
	other      bool        // a size of its own is being given
}

func newSheetPart(page *measurePage) *sheetPart {
	p := &sheetPart{told: kit.Small("")}
	p.of = kit.NewSegments(lang.L("They mark"), []string{lang.L("A4 paper"), lang.L("a bank card"), lang.L("a board")}, 0, func(i int) {
		p.other = i == len(sheetSizes)
		kit.SetVisible(p.sides, p.other)
		if p.other {
			p.wide.Focus()
			return
		}
		size := sheetSizes[i]
		if !p.sheet.LiesWide() {
			size[0], size[1] = size[1], size[0]
		}
		page.setSheet(size[0], size[1])
	})
	p.wide = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("First to second corner"), Measure: lengthMeasure(page.units),
		Keep: func(v *float64) { page.setSheet(kit.OrZero(v), p.sheet.HighMM) }})
	p.high = kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Second to third"), Measure: lengthMeasure(page.units),
		Keep: func(v *float64) { page.setSheet(p.sheet.WideMM, kit.OrZero(v)) }})
	p.sides = kit.Columns(100, p.wide, p.high)
	p.box = kit.Stack(2, p.of, p.sides, p.told, kit.QuietButton(lang.L("Straightened, or as taken"), page.turnFlat).WithKey("V"),
		kit.Small(lang.L("Best level with the cut face: where the slice lies 15 mm above the sheet and the camera is 40 cm away, lengths come out 4 % too long.")))
	return p
}

// sync shows a sheet.
func (p *sheetPart) sync(s crumb.Sheet, u measure.Units) {
	p.sheet = s
	known := slices.IndexFunc(sheetSizes[:], func(size [2]float64) bool {
		return s.WideMM == size[0] && s.HighMM == size[1] || s.WideMM == size[1] && s.HighMM == size[0]
	})
	if p.other = p.other || known < 0; p.other {
		known = len(sheetSizes)
	}
	p.of.SetChosen(known)
	kit.SetVisible(p.sides, p.other)
	p.wide.SetValue(s.WideMM)
	p.high.SetValue(s.HighMM)
	words := ""
	if tilt, ok := s.Tilt(); ok {
		words = lang.L("Taken about {{.Tilt}}° aslant; the figures are those from straight above.", map[string]any{"Tilt": u.FormatNumber(tilt, 0)})
	}
	p.told.SetText(words)
}

// setCorners takes the corners of a sheet, in whatever order they were set. What is no
// sheet is refused, and the corners stay as they were.
func (p *measurePage) setCorners(points []kit.PicturePoint) {
	p.told.SetText("")
	ph, err := journal.Get[journal.Photo](p.env.Journal, p.id)
	if p.env.Failed(err) {
		return
	}
	said := sliceOf(ph)
	var corners [4]crumb.Point
	for i := range corners {
		corners[i] = crumb.Point(points[i])
	}
	sheet, laid := said.Sheet()
	if sheet.Corners = corners; !laid {
		sheet.Corners = crumb.RectangleCorners(corners)
		if sheet.WideMM, sheet.HighMM = said.WideMM, said.HighMM; sheet.WideMM <= 0 || sheet.HighMM <= 0 {
			sheet.WideMM, sheet.HighMM = crumb.A4LongMM, crumb.A4ShortMM
		}
		if sheet.LiesWide() != (sheet.WideMM >= sheet.HighMM) {
			sheet.WideMM, sheet.HighMM = sheet.HighMM, sheet.WideMM
		}
	}
	if err := sheet.Check(); errors.Is(err, crumb.ErrSheetCorners) || errors.Is(err, crumb.ErrSheetSmall) {
		p.told.SetText(p.units.ErrorText(err))
		p.picture.setSlice(said, p.outlineFound())
		return
	}
	p.write(lang.L("four corners beside a slice"), func(s *journal.Slice) {
		s.Corners = nil
		for _, c := range sheet.Corners {
			s.Corners = append(s.Corners, journal.Spot{X: tenth(c.X), Y: tenth(c.Y)})
		}
		s.WideMM, s.HighMM = sheet.WideMM, sheet.HighMM
	})
}

// setSheet says how large the sheet is.
func (p *measurePage) setSheet(wide, high float64) {
	p.edit(lang.L("the size of a sheet beside a slice"), func(s *journal.Slice) { s.WideMM, s.HighMM = max(0, wide), max(0, high) })
}

// turnFlat goes from the photo to the straightened picture, and back.
func (p *measurePage) turnFlat() {
	if p.picture.result == nil || !p.picture.result.Straightened {
		p.told.SetText(lang.L("Mark four corners with T first: they straighten the picture."))
		return
	}
	p.picture.setFlat(!p.picture.flat)
}
