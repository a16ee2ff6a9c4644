package series

import (
	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// beside gives the curve at the right its width and the picture the rest; in a window too narrow
// for both the curve goes below, and each is as high as both would be.
type beside struct{ width float32 }

// besideFrom is how wide a page is from which on the two stand side by side.
const besideFrom = 600

func (l *beside) MinSize([]fyne.CanvasObject) fyne.Size {
	high := look.Space(100)
	if l.width > 0 && l.width < besideFrom {
		high = 2*high + look.Space(7)
	}
	return fyne.NewSize(look.Space(60), high)
}

func (l *beside) Layout(things []fyne.CanvasObject, size fyne.Size) {
	l.width = size.Width
	gap := look.Space(7)
	if size.Width < besideFrom {
		h := (size.Height - gap) / 2
		kit.Put(things[0], fyne.NewPos(0, 0), fyne.NewSize(size.Width, h))
		kit.Put(things[1], fyne.NewPos(0, h+gap), fyne.NewSize(size.Width, h))
		return
	}
	w := max(look.Space(90), size.Width*0.48)
	kit.Put(things[0], fyne.NewPos(0, 0), fyne.NewSize(size.Width-w-gap, size.Height))
	kit.Put(things[1], fyne.NewPos(size.Width-w, 0), fyne.NewSize(w, size.Height))
}

// overFilm sets the picture over the film and what is told of it, which is read whole: where
// there is little height the film gives way to the picture. The page of a low window scrolls
// rather than show a jar that is too small to drag its lines.
type overFilm struct{}

func (overFilm) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(60), look.Space(60))
}

func (overFilm) Layout(things []fyne.CanvasObject, size fyne.Size) {
	gap := look.Space(1)
	told := kit.FitHeight(things[2], size.Width)
	room := max(0, size.Height-told-look.Space(5))
	film := min(look.Space(30), max(look.Space(12), room-look.Space(75)))
	kit.Put(things[0], fyne.NewPos(0, 0), fyne.NewSize(size.Width, room-film-gap))
	kit.Put(things[1], fyne.NewPos(0, room-film), fyne.NewSize(size.Width, film))
	things[2].Move(fyne.NewPos(0, room+gap))
}
