package kit

import (
	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/layout"
	"fyne.io/fyne/v2/widget"
)

// PhotoPair shows two pictures side by side. While they are tied, zooming or moving
// one does the same to the other.
type PhotoPair struct {
	widget.BaseWidget
	Left, Right *PhotoView

	tied bool
	box  *fyne.Container
}

// NewPhotoPair makes a tied pair of empty views.
func NewPhotoPair(main Main) *PhotoPair {
	p := &PhotoPair{Left: NewPhotoView(main), Right: NewPhotoView(main), tied: true}
	TiePhotoViews(func() bool { return p.tied }, p.Left, p.Right)
	p.box = container.New(layout.NewGridLayoutWithColumns(2), p.Left, p.Right)
	p.ExtendBaseWidget(p)
	return p
}

// SetTied ties the views or lets them go. Tying gives the right one the view of the
// left.
func (p *PhotoPair) SetTied(yes bool) {
	p.tied = yes
	if yes {
		p.Right.SetView(p.Left.View())
	}
}

// Tied says whether they move together.
func (p *PhotoPair) Tied() bool { return p.tied }

func (p *PhotoPair) CreateRenderer() fyne.WidgetRenderer { return widget.NewSimpleRenderer(p.box) }

// TiePhotoViews lets any number of views follow one another while tied says so. It
// takes over their OnViewChanged.
func TiePhotoViews(tied func() bool, views ...*PhotoView) {
	for _, v := range views {
		v.OnViewChanged = func(to View) {
			if !tied() {
				return
			}
			for _, other := range views {
				if other != v {
					other.SetView(to)
				}
			}
		}
	}
}
