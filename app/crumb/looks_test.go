package crumb

import (
	"image"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/looktest"
	"twinloaf/app/maintest"
)

// Two crumbs compared, where there is room for what is thought of the differences beside
// the figures, and where there is none.
func TestLookOfAComparison(t *testing.T) {
	rows := []pairRow{
		{name: "Figure", a: "A", b: "B", change: "B − A", verdict: "The difference is"},
		{name: "Open area", unit: "%", a: "59 ± 16.3 (doubtful)", b: "64.2 ± 16.3 (doubtful)", change: "+5.2", verdict: "larger than retaking would give"},
		{name: "Mean cell area", unit: "mm²", a: "withheld", b: "withheld", change: "–", verdict: "cannot tell"},
		{name: "Top / bottom openness", a: "1.04 ± 0.18", b: "1.12 ± 0.18", change: "+0.08", verdict: "no larger than retaking would give"},
	}
	for name, size := range map[string]fyne.Size{"comparison": fyne.NewSize(980, 200), "comparison-narrow": fyne.NewSize(660, 260)} {
		looktest.Renders(t, name, size, func() fyne.CanvasObject {
			var lines []*pairLine
			for _, r := range rows {
				l := newPairLine()
				l.set(r)
				lines = append(lines, l)
			}
			return newPairTable(lines)
		})
	}
}

// What is drawn over a picture: an outline on its way from corner to corner, and a box.
func TestLookOfWhatIsDrawn(t *testing.T) {
	for name, draw := range map[string]func(*pad){
		"pad-outline": func(p *pad) {
			p.begin(outlineTool)
			for _, at := range []fyne.Position{{X: 60, Y: 50}, {X: 200, Y: 30}, {X: 280, Y: 120}} {
				p.Tapped(&fyne.PointEvent{Position: at})
			}
			p.end = p.at(fyne.NewPos(180, 180))
		},
		"pad-box": func(p *pad) {
			p.begin(boxTool)
			p.Dragged(&fyne.DragEvent{PointEvent: fyne.PointEvent{Position: fyne.NewPos(250, 160)}, Dragged: fyne.Delta{DX: 180, DY: 110}})
		},
	} {
		looktest.Renders(t, name, fyne.NewSize(380, 260), func() fyne.CanvasObject {
			main := maintest.New()
			view := kit.NewPhotoView(main.Do)
			slice := image.NewRGBA(image.Rect(0, 0, 340, 220))
			for i := range slice.Pix {
				slice.Pix[i] = 0xc0
			}
			view.SetPicture(slice)
			view.Wait()
			p := newPad(view, func(tool, []kit.PicturePoint) {})
			view.AddOverlay(p)
			view.Resize(fyne.NewSize(340, 220))
			draw(p)
			p.draw()
			return view
		})
	}
}
