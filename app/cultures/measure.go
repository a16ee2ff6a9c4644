package cultures

import (
	"context"
	"fmt"
	"image"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/lang"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/histories"
	"twinloaf/journal/measure"
	"twinloaf/journal/photo"
)

// measureSide is how large a jar's photo is shown for measuring, in pixels.
const measureSide = 1800

// pickPhoto measures the photo that the reading has, or asks for one.
func (s *readDialog) pickPhoto() {
	if s.form.rec.ID != "" {
		photos, err := journal.Photos(s.env.Journal, s.form.rec.ID)
		if s.env.Failed(err) {
			return
		}
		if len(photos) > 0 {
			last := photos[len(photos)-1]
			s.measure(func(ctx context.Context) (image.Image, error) {
				return s.env.Journal.FullSize(ctx, last.Hash, measureSide)
			}, last.ID, nil)
			return
		}
	}
	s.env.PickPictures(func(pictures []journal.Picture) {
		if len(pictures) > 0 {
			s.takePicture(pictures[0])
		}
	})
}

// takePicture shows a photo that is to go with the reading, to be measured.
func (s *readDialog) takePicture(p journal.Picture) {
	s.measure(func(context.Context) (image.Image, error) { return decodeFile(p.Path) }, "", &p)
}

// decodeFile reads a picture that is not in the journal yet.
func decodeFile(path string) (image.Image, error) {
	if _, err := photo.InspectFile(path, photo.Limits{}); err != nil {
		return nil, err
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, fmt.Errorf("reading %q: %w", filepath.Base(path), err)
	}
	p, err := photo.Decode(filepath.Base(path), data, photo.Limits{})
	if err != nil {
		return nil, err
	}
	return p.Fit(measureSide), nil
}

// measure loads a picture away from the main goroutine and opens it for measuring.
func (s *readDialog) measure(load func(context.Context) (image.Image, error), id journal.ID, picture *journal.Picture) {
	s.stopPreparing = pages.Fetch(s.env, load, func(img image.Image, err error) {
		if s.env.Failed(err) {
			return
		}
		s.form.picture = picture
		s.changed()
		measureJar(s.env, img, s.form.rec.Lines, func(l journal.JarLines) {
			l.Photo = id
			s.form.rec.Lines, s.form.rec.Rise, s.form.rec.HeightMM = &l, nil, nil
			s.height.SetText("")
			s.changed()
		})
	})
}

// usualLines are where the lines stand before they are dragged.
var usualLines = journal.JarLines{Bottom: 0.85, Start: 0.6, Now: 0.35}

// measureJar shows a jar with three lines to drag: its bottom, the height at the
// start, the height now.
func measureJar(env *pages.Env, img image.Image, at *journal.JarLines, done func(journal.JarLines)) *kit.Dialog {
	if at == nil {
		at = &usualLines
	}
	view := kit.NewPhotoView(env.Main)
	w, h := float64(img.Bounds().Dx()), float64(img.Bounds().Dy())
	levels := newLevels(view, w)
	points := kit.NewDragPoints(view)
	view.SetPicture(img)
	points.Bound = func(_ int, to kit.PicturePoint) kit.PicturePoint { return kit.PicturePoint{X: w / 2, Y: to.Y} }
	points.SetPoints([]kit.PicturePoint{{X: w / 2, Y: at.Bottom * h}, {X: w / 2, Y: at.Start * h}, {X: w / 2, Y: at.Now * h}})
	result := kit.Body("")
	lines := func() journal.JarLines {
		p := points.Points()
		return journal.JarLines{Bottom: p[0].Y / h, Start: p[1].Y / h, Now: p[2].Y / h}
	}
	show := func() {
		levels.set(points.Points())
		view.RefreshOverlays()
		result.SetText(linesWords(lines(), env.Units()))
	}
	dragged := false
	points.OnChanged = func([]kit.PicturePoint, bool) {
		dragged = true
		show()
	}
	show()
	var sheet *kit.Dialog
	take := func() {
		if _, ok := histories.Rise(&journal.Reading{Lines: new(lines())}, nil); !ok {
			return
		}
		done(lines())
		sheet.Close()
	}
	sheet = kit.ShowDialog(env.Window, kit.DialogOptions{
		Title:   lang.L("Drag the lines: bottom, start, now"),
		Content: view, Aside: result, Width: 900, Height: 720, OnEnter: take,
		Buttons:  []fyne.CanvasObject{kit.PrimaryButton(lang.L("Record it"), take).WithKey(lang.L("Enter"))},
		Holds:    func() bool { return dragged },
		OnClosed: func() { view.Clear() },
	})
	view.OnShown = func() { env.Window.Canvas().Focus(points.Handle(2)) }
	return sheet
}

// linesWords say what three lines come to.
func linesWords(l journal.JarLines, u measure.Units) string {
	rise, ok := histories.Rise(&journal.Reading{Lines: &l}, nil)
	if !ok {
		return lang.L("The line of the start lies above that of the bottom.")
	}
	return lang.L("{{.Rise}} the start. Hold the camera level with the jar: seen from above, it is a little off.", map[string]any{"Rise": u.Times().Write(rise)})
}

// levels draws a level line across the picture through each point, with its name.
type levels struct {
	width  float64
	points []kit.PicturePoint
	lines  []*canvas.Line
	names  []*canvas.Text
}

func newLevels(v *kit.PhotoView, width float64) *levels {
	l := &levels{width: width}
	for _, word := range []string{lang.L("bottom"), lang.L("start"), lang.L("now")} {
		line := canvas.NewLine(theme.Color(look.ColorCrust))
		line.StrokeWidth = 2
		name := canvas.NewText(word, theme.Color(look.ColorCrust))
		name.TextSize = look.TextBody
		name.TextStyle.Bold = true
		l.lines, l.names = append(l.lines, line), append(l.names, name)
	}
	v.AddOverlay(l)
	return l
}

func (l *levels) set(points []kit.PicturePoint) { l.points = points }

func (l *levels) Objects() []fyne.CanvasObject {
	var out []fyne.CanvasObject
	for i := range l.lines {
		out = append(out, l.lines[i], l.names[i])
	}
	return out
}

func (l *levels) Arrange(at func(x, y float64) fyne.Position, _ float32) {
	for i, p := range l.points {
		line, name := l.lines[i], l.names[i]
		line.Position1, line.Position2 = at(0.15*l.width, p.Y), at(0.85*l.width, p.Y)
		name.Move(at(0.15*l.width, p.Y).Subtract(fyne.NewPos(0, name.MinSize().Height)))
		line.Refresh()
		name.Refresh()
	}
}
