package formulas

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// formulaRow is one line of the list, and sets its own texts: the picture of what was baked
// last, the name over the version and what that does differently, the figures over the bar of
// flours, how its bakes were scored where there is room, and when. A journal has few formulas:
// there is room for a large picture.
type formulaRow struct {
	photo          *kit.PhotoCell
	name, figures  *kit.Elided
	change         *kit.Elided
	named          *kit.Text
	version, baked *kit.Text
	scores         *scoreLine
	score          *kit.Text // the last of them
	bar            *fyne.Container

	versionRoom, bakedRoom float32
}

// rowPicture is the least size of the picture, and highestRow how high a row grows.
var rowPicture = fyne.NewSize(128, 96)

const highestRow = 208

func newFormulaRow(thumbs *kit.Loader) *fyne.Container {
	r := &formulaRow{photo: kit.NewPhotoCell(thumbs, rowPicture, 0).Filling(), name: kit.NewElided(kit.Span{Size: look.TextLarge, Serif: true}), version: kit.NewLine(faint("")),
		change: kit.NewElided(kit.Span{Size: look.TextSmall, Color: look.ColorFaint}), figures: kit.NewElided(kit.Span{}), named: kit.Small(""), baked: kit.NewLine(faint("")), bar: container.NewStack(),
		scores: newScoreLine(), score: kit.NewLine(kit.Span{Size: look.TextSmall, Color: look.ColorFaint})}
	r.named.SetRows(2) // as many as a row of the list has room for
	return &fyne.Container{Layout: r, Objects: []fyne.CanvasObject{r.photo, r.name, r.version, r.change, r.figures, r.bar, r.named, r.scores, r.score, r.baked}}
}

// faint is how the version and when it was baked are written.
func faint(words string) kit.Span { return kit.Span{Text: words, Color: look.ColorFaint} }

func (r *formulaRow) show(v row) {
	r.versionRoom, r.bakedRoom = v.versionRoom, v.bakedRoom
	r.photo.Set(kit.PhotoItem{Key: v.Cover, Loaf: kit.PaleLoaf}, false)
	r.name.SetText(v.Name)
	r.version.SetText(v.Version)
	r.change.SetText(v.Change)
	r.figures.SetText(v.Figures)
	r.baked.SetText(v.Baked)
	r.scores.set(v.Scores)
	r.score.SetText(v.Score)
	var words []string
	for _, s := range v.Flours {
		words = append(words, s.Name+"\u00a0"+strings.ReplaceAll(s.Text, " ", "\u00a0"))
	}
	r.named.SetText(strings.Join(words, ", "))
	if len(v.Flours) == 0 {
		kit.SetOnly(r.bar, nil)
		return
	}
	kit.SetOnly(r.bar, kit.ShareLine(v.Flours))
}

// MinSize is the picture with room around it.
func (r *formulaRow) MinSize([]fyne.CanvasObject) fyne.Size {
	return fyne.NewSize(look.Space(120), rowPicture.Height+look.Space(2))
}

// Layout sets the texts in columns.
func (r *formulaRow) Layout(_ []fyne.CanvasObject, size fyne.Size) {
	put := func(o fyne.CanvasObject, x, y, w float32) {
		h := o.MinSize().Height
		o.Resize(fyne.NewSize(w, h))
		o.Move(fyne.NewPos(x, y-h/2))
	}
	picture := min(size.Height-look.Space(2), max(rowPicture.Height, 0.12*size.Width))
	wide := picture * rowPicture.Width / rowPicture.Height
	// Below it a cell keeps a step of the grid for words.
	kit.Put(r.photo, fyne.NewPos(0, (size.Height-picture)/2), fyne.NewSize(wide, picture+look.Space(1)))
	left, middle := wide+look.Space(4), size.Height/2
	room := size.Width - left
	first, last, narrow := 0.25*room, max(r.bakedRoom, r.baked.MinSize().Width), size.Width < look.Space(190)
	behind := max(r.versionRoom, r.version.MinSize().Width) + look.Space(3)
	if narrow { // when it was baked stands behind the version
		// In a column of their own, wherever a row has the room for what it says.
		first = max(0.36*room, min(0.5*room, look.Space(60)), behind+last)
	}
	second := left + first + look.Space(4)
	tight := narrow && size.Width-second < look.Space(36)
	kit.SetVisible(r.scores, !narrow)
	for _, o := range []fyne.CanvasObject{r.change, r.named, r.score} { // the formula's page says it
		kit.SetVisible(o, !tight)
	}
	if tight { // one under another beside the picture
		put(r.name, left, middle-look.Space(9), room)
		put(r.version, left, middle-look.Space(3), room)
		put(r.baked, left+behind, middle-look.Space(3), last)
		put(r.figures, left, middle+look.Space(3), room)
		put(r.bar, left, middle+look.Space(9), room)
		return
	}
	put(r.name, left, middle-look.Space(6), first)
	put(r.version, left, middle+look.Space(1), first)
	put(r.change, left, middle+look.Space(6.5), first)
	words := size.Width - second - last - scoreWidth - 2*look.Space(6)
	bar := words
	if narrow { // the score stands behind the bar
		words = size.Width - second
		bar = words - scoreWidth - look.Space(2)
	}
	put(r.figures, second, middle-look.Space(6), words)
	put(r.bar, second, middle, bar)
	kit.FitHeight(r.named, words)
	r.named.Move(fyne.NewPos(second, middle+look.Space(4)))
	if narrow {
		put(r.baked, left+behind, middle+look.Space(1), last)
		put(r.score, size.Width-scoreWidth, middle, scoreWidth)
		return
	}
	put(r.baked, size.Width-last, middle, last)
	scored := size.Width - last - look.Space(6) - scoreWidth
	high := max(lineSize.Height, size.Height/4)
	kit.Put(r.scores, fyne.NewPos(scored, middle+look.Space(2.5)-high), fyne.NewSize(lineSize.Width, high))
	put(r.score, scored, middle+look.Space(6.5), scoreWidth)
}

// scoreWidth is the room for a score in words.
const scoreWidth = 108
