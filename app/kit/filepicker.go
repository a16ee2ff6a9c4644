package kit

import (
	"cmp"
	"context"
	"os"
	"path/filepath"
	"runtime"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/look"
	"twinloaf/journal/measure"
)

// PickOptions says what the file picker is for.
type PickOptions struct {
	Title string // "Add photos"
	Yes   string // the button: "Add"
	// Many lets several files be chosen. Folder chooses a folder instead of files.
	Many, Folder bool
	// Endings are those of the files that are shown, in lower case with the point:
	// PictureEndings(), or ".csv". None: all files.
	Endings []string
	// Start is the folder it opens in; the home folder if that is gone.
	Start string
	// Places are offered at the left; nil: Places(Start).
	Places []Place
	// Loader makes thumbnails by path; nil shows none.
	Loader *Loader
	// OnChosen gets full paths. OnLeft gets the folder shown when the picker closes,
	// chosen or not, to begin there the next time.
	OnChosen func(paths []string)
	OnLeft   func(dir string)

	saveName string // what SaveAs suggests
	save     bool
}

// Places gives the usual folders that exist: home, pictures, desktop, downloads, and
// the one used last.
func Places(last string) []Place {
	home, err := os.UserHomeDir()
	if err != nil {
		home = string(filepath.Separator)
	}
	places := []Place{
		{lang.L("Home folder"), home},
		{lang.L("Pictures"), filepath.Join(home, "Pictures")},
		{lang.L("Desktop"), filepath.Join(home, "Desktop")},
		{lang.L("Downloads"), filepath.Join(home, "Downloads")},
	}
	if last != "" && last != home {
		places = append(places, Place{lang.L("Last used"), last})
	}
	if runtime.GOOS != "windows" {
		places = append(places, Place{lang.L("Drives"), "/media"}, Place{lang.L("Drives"), "/Volumes"})
	}
	return existing(places)
}

// FilePicker is the program's own file dialogue: folders and thumbnails in one grid,
// many chosen at once. Folders are listed on another goroutine.
type FilePicker struct {
	o       PickOptions
	sheet   *Dialog
	grid    *PhotoGrid
	crumbs  *fyne.Container
	status  *Text
	yes     *Button
	name    *TextField
	sort    *Segments
	dir     string
	entries []pickEntry
	chosen  *pickChoice
	err     error
	stamp   int
	cancel  context.CancelFunc
	listed  chan struct{} // closed when the folder last asked for is shown
	byTime  bool
	main    Main
	win     fyne.Window
}

// PickFiles opens the picker over a window.
func PickFiles(main Main, win fyne.Window, o PickOptions) *FilePicker {
	p := &FilePicker{o: o, main: main, win: win, chosen: newPickChoice(o.Many), byTime: len(o.Endings) > 1}
	if o.Places == nil {
		p.o.Places = Places(o.Start)
	}
	p.build()
	if o.save {
		p.name.Focus() // so that Enter saves under the name that stands there
	} else {
		win.Canvas().Focus(p.grid)
	}
	p.Go(p.begin())
	return p
}

// SaveOptions says what is saved.
type SaveOptions struct {
	Title string
	Name  string // suggested, with its ending
	Start string
	// OnChosen gets the full path. A file that exists is asked about first.
	OnChosen func(path string)
	OnLeft   func(dir string)
}

// SaveAs asks for a folder and a name.
func SaveAs(main Main, win fyne.Window, o SaveOptions) *FilePicker {
	return PickFiles(main, win, PickOptions{
		Title: o.Title, Yes: lang.L("Save"), Start: o.Start, OnLeft: o.OnLeft, save: true, saveName: o.Name,
		Endings:  []string{strings.ToLower(filepath.Ext(o.Name))},
		OnChosen: func(paths []string) { o.OnChosen(paths[0]) },
	})
}

func (p *FilePicker) begin() string {
	if info, err := os.Stat(p.o.Start); err == nil && info.IsDir() {
		return p.o.Start
	}
	if len(p.o.Places) > 0 {
		return p.o.Places[0].Dir
	}
	return string(filepath.Separator)
}

func (p *FilePicker) build() {
	p.crumbs = Flow(1)
	p.status = NewText(Span{Size: look.TextSmall, Color: look.ColorFaint})
	p.grid = NewPhotoGrid(p.o.Loader, fyne.NewSize(132, 100), 1, func() int { return len(p.entries) }, p.item)
	p.grid.OnOpen = p.tapped
	p.grid.OnChoose = p.choose
	p.grid.OnEnter = p.entered
	order := 0
	if p.byTime {
		order = 1
	}
	p.sort = NewSegments("", []string{lang.L("by name"), lang.L("newest first")}, order, func(i int) {
		p.byTime = i == 1
		p.Go(p.dir)
	})
	yes := cmp.Or(p.o.Yes, lang.L("Choose"))
	p.yes = PrimaryButton(yes, p.Accept)
	no := NewButton(lang.L("Cancel"), func() { p.sheet.Close() }).WithKey(lang.L("Esc"))
	var aside fyne.CanvasObject = p.status
	if p.o.save {
		p.name = NewTextField("", lang.L("file name"))
		p.name.SetText(p.o.saveName)
		p.name.OnChanged = func(string) { p.update() }
		aside = p.name
	}
	places := Stack(2)
	for _, place := range p.o.Places {
		places.Add(NewLinkSpan(Span{Text: place.Name}, func() { p.Go(place.Dir) }))
	}
	top := RowGrow(3, 0, p.crumbs, p.sort)
	side := container.NewBorder(Gap(2), nil, nil, Gap(4), container.NewVBox(places))
	body := container.NewBorder(Stack(2, top, Rule()), nil, side, nil, p.grid)
	p.sheet = ShowDialog(p.win, DialogOptions{
		Title: p.o.Title, Content: body, Aside: aside, Buttons: []fyne.CanvasObject{no, p.yes},
		Width: 1000, Height: 700, Passing: true, OnEnter: p.Accept, OnClosed: p.closed,
		Keys: []Key{{Name: "Backspace", Do: p.up}, {Name: "A", Do: p.ChooseAll}},
	})
	p.update()
}

func (p *FilePicker) closed() {
	call(p.cancel)
	tell(p.o.OnLeft, p.dir)
}

// Go shows a folder. It is listed on another goroutine; Wait waits for that.
func (p *FilePicker) Go(dir string) {
	call(p.cancel)
	ctx, cancel := context.WithCancel(context.Background())
	p.cancel = cancel
	p.stamp++
	stamp, endings, byTime := p.stamp, p.o.Endings, p.byTime
	if p.o.Folder {
		endings = []string{"/"} // no file ends so
	}
	p.dir, p.entries, p.err = filepath.Clean(dir), nil, nil
	p.chosen.clear()
	p.showCrumbs()
	p.status.SetText(lang.L("Looking …"))
	p.grid.Refresh()
	done := make(chan struct{})
	p.listed = done
	go func() {
		defer close(done)
		entries, err := readFolder(ctx, dir, endings, byTime)
		p.main(func() {
			if stamp == p.stamp && p.sheet.Open() {
				p.list(entries, err)
			}
		})
	}()
}

// Wait blocks until the folder is listed, for tests.
func (p *FilePicker) Wait() {
	<-p.listed
	p.main.settle()
}

func (p *FilePicker) list(entries []pickEntry, err error) {
	p.entries, p.err = entries, err
	p.grid.cursor = 0
	p.grid.ScrollToOffset(0)
	p.grid.Refresh()
	p.update()
}

// showCrumbs writes the way to the folder, each part a link.
func (p *FilePicker) showCrumbs() {
	p.crumbs.Objects = p.crumbs.Objects[:0]
	parts := strings.Split(filepath.ToSlash(p.dir), "/")
	from := max(0, len(parts)-5)
	for i := from; i < len(parts); i++ {
		dir := filepath.FromSlash(strings.Join(parts[:i+1], "/"))
		name := parts[i]
		if i == 0 {
			dir += string(filepath.Separator)
			name = lang.L("This computer")
		}
		if name == "" {
			continue
		}
		if len(p.crumbs.Objects) > 0 {
			p.crumbs.Add(NewLine(Span{Text: "›", Color: look.ColorFaint}))
		}
		s := Span{Text: name, Color: look.ColorCrust}
		if i == len(parts)-1 {
			s = Span{Text: name, Bold: true}
		}
		p.crumbs.Add(NewLinkSpan(s, func() { p.Go(dir) }))
	}
	p.crumbs.Refresh()
}

// up goes to the folder around this one.
func (p *FilePicker) up() { p.Go(filepath.Dir(p.dir)) }

// ChooseAll chooses every file shown.
func (p *FilePicker) ChooseAll() {
	first := 0
	for first < len(p.entries) && p.entries[first].folder {
		first++
	}
	p.chosen.all(first, len(p.entries))
	p.update()
	p.grid.Refresh()
}

func (p *FilePicker) item(i int) PhotoItem {
	if i < 0 || i >= len(p.entries) {
		return PhotoItem{}
	}
	e := p.entries[i]
	item := PhotoItem{Title: e.name, Plain: true, Folder: e.folder, Chosen: p.chosen.chosen[i] && !e.folder}
	if !e.folder && p.o.Loader != nil {
		item.Key = e.path
	}
	return item
}

// SetName puts a name in the field of SaveAs.
func (p *FilePicker) SetName(name string) {
	if p.name != nil {
		p.name.SetText(name)
		p.update()
	}
}

// Chosen gives the paths that Accept would hand over.
func (p *FilePicker) Chosen() []string {
	switch {
	case p.o.Folder:
		return []string{p.dir}
	case p.name != nil:
		name := strings.TrimSpace(p.name.Text())
		if name == "" || strings.ContainsAny(name, `/\`) || name == "." || name == ".." {
			return nil
		}
		if ext := filepath.Ext(p.o.saveName); !strings.EqualFold(filepath.Ext(name), ext) {
			name += ext
		}
		return []string{filepath.Join(p.dir, name)}
	}
	var out []string
	for i, e := range p.entries {
		if p.chosen.chosen[i] && !e.folder {
			out = append(out, e.path)
		}
	}
	return out
}

// update writes what is chosen and lets the button work or not.
func (p *FilePicker) update() {
	chosen := p.Chosen()
	SetEnabled(p.yes, len(chosen) > 0)
	files := 0
	for _, e := range p.entries {
		if !e.folder {
			files++
		}
	}
	switch {
	case p.err != nil:
		p.status.SetText(lang.L("This folder cannot be read: {{.Why}}", map[string]any{"Why": measure.Units{}.ErrorText(p.err)}))
	case files == 0 && !p.o.Folder:
		p.status.SetText(lang.L("No files of this kind here."))
	case p.o.Many:
		p.status.SetText(lang.L("{{.Chosen}} of {{.Files}} selected. Click or Space selects, Shift a range, A all.",
			map[string]any{"Chosen": len(chosen), "Files": files}))
	default:
		p.status.SetText(lang.N("{{.N}} files", files, map[string]any{"N": files}))
	}
}
