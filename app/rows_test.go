package app

import (
	"fmt"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/driver/desktop"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
)

// seen is an object in sight: where it stands, and what of it is seen.
type seen struct {
	fyne.CanvasObject
	at fyne.Position
	in area
}

// everySeen lists what is in sight of an object, in the order in which it is drawn.
func everySeen(root fyne.CanvasObject) (out []seen) {
	eachSeen(root, func(o fyne.CanvasObject, at fyne.Position, in area) { out = append(out, seen{o, at, in}) })
	return out
}

// rowsAmiss presses every row in sight of root on a grid of places, and tells what else takes
// the press, or shows the pointer otherwise than as a hand. It gives how many rows there are.
func rowsAmiss(root fyne.CanvasObject) (faults []string, rows int) {
	wrong := map[string]int{}
	all := everySeen(root)
	for _, row := range all {
		if !strings.HasSuffix(fmt.Sprintf("%T", row.CanvasObject), "Row") || row.Size().Height <= 0 {
			continue
		}
		if _, ok := row.CanvasObject.(desktop.Cursorable); ok {
			rows++
			pressedOn(all, row, wrong)
		}
	}
	return counted(wrong), rows
}

// pressedOn presses a row on a grid of places, and counts what takes the press, or tells the
// pointer, in the row's place.
func pressedOn(all []seen, row seen, wrong map[string]int) {
	const n = 9
	for i := range n {
		for k := range n {
			p := row.at.AddXY(row.Size().Width*(float32(i)+0.5)/n, row.Size().Height*(float32(k)+0.5)/n)
			if !row.in.holds(p) {
				continue
			}
			var taps, points fyne.CanvasObject
			for _, o := range all {
				if !o.in.holds(p) {
					continue
				}
				if _, ok := o.CanvasObject.(fyne.Tappable); ok {
					taps = o.CanvasObject
				}
				if _, ok := o.CanvasObject.(desktop.Cursorable); ok {
					points = o.CanvasObject
				}
			}
			own := taps == row.CanvasObject
			if c, ok := points.(desktop.Cursorable); !ok || c.Cursor() != desktop.PointerCursor && own {
				wrong[fmt.Sprintf("over a %T the pointer is that of a %T", row.CanvasObject, points)]++
			}
			if list := fmt.Sprintf("%T", taps); !own && list != "*widget.listItem" && !ownBusiness(taps) {
				wrong[fmt.Sprintf("a press on a %T goes to a %T", row.CanvasObject, taps)]++
			}
		}
	}
}

// ownBusiness says that what is pressed within a row is there for something else.
func ownBusiness(o fyne.CanvasObject) bool {
	switch o.(type) {
	case *kit.Button, *kit.Link, *kit.ChartFrame:
		return true
	}
	return false
}

// area is what of an object is in sight.
type area struct{ from, to fyne.Position }

func (a area) holds(p fyne.Position) bool {
	return p.X >= a.from.X && p.Y >= a.from.Y && p.X < a.to.X && p.Y < a.to.Y
}

// eachSeen calls do for everything below an object that is in sight, in the order in which
// it is drawn, with where it is and what of it is seen.
func eachSeen(o fyne.CanvasObject, do func(o fyne.CanvasObject, at fyne.Position, in area)) {
	var walk func(o fyne.CanvasObject, at fyne.Position, clip area)
	walk = func(o fyne.CanvasObject, at fyne.Position, clip area) {
		if o == nil || !o.Visible() {
			return
		}
		at = at.Add(o.Position())
		end := at.AddXY(o.Size().Width, o.Size().Height)
		in := area{fyne.NewPos(max(at.X, clip.from.X), max(at.Y, clip.from.Y)), fyne.NewPos(min(end.X, clip.to.X), min(end.Y, clip.to.Y))}
		do(o, at, in)
		var below []fyne.CanvasObject
		switch o := o.(type) {
		case *fyne.Container:
			below = o.Objects
		case fyne.Widget:
			below = test.WidgetRenderer(o).Objects()
		}
		if _, ok := o.(*container.Scroll); ok {
			clip = in
		}
		for _, part := range below {
			walk(part, at, clip)
		}
	}
	walk(o, fyne.Position{}, area{to: fyne.NewPos(1e6, 1e6)})
}
