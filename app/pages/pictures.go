package pages

import (
	"context"
	"errors"
	"image"
	"os"
	"path/filepath"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// PhotoRoles lists the roles of a photo in the order in which they are offered.
func PhotoRoles() []journal.Role {
	return []journal.Role{journal.RoleOther, journal.RoleDough, journal.RoleCrust, journal.RoleCrumb, journal.RoleJar}
}

// PhotoRoleWord says what a photo shows.
func PhotoRoleWord(r journal.Role) string {
	switch r {
	case journal.RoleDough:
		return lang.L("dough")
	case journal.RoleCrust:
		return lang.L("crust")
	case journal.RoleCrumb:
		return lang.L("crumb")
	case journal.RoleJar:
		return lang.L("jar")
	}
	return lang.L("other")
}

// pickFolder is the preference that keeps the folder pictures were last taken from.
const pickFolder = "pictures.folder"

// PickPictures lets the baker choose pictures, many at once, and hands them to
// take.
func (e *Env) PickPictures(take func([]journal.Picture)) *kit.FilePicker {
	thumbs := kit.NewLoader(e.Main, fileThumbs{}, 2, 48<<20)
	prefs := e.App.Preferences()
	start := prefs.String(pickFolder)
	if home, err := os.UserHomeDir(); start == "" && err == nil {
		start = filepath.Join(home, "Pictures")
	}
	return kit.PickFiles(e.Main, e.Window, kit.PickOptions{
		Title: lang.L("Add photos"), Yes: lang.L("Add"), Many: true,
		Endings: kit.PictureEndings(), Start: start, Loader: thumbs,
		OnChosen: func(paths []string) {
			pictures := make([]journal.Picture, len(paths))
			for i, p := range paths {
				pictures[i] = journal.Picture{Name: filepath.Base(p), Path: p}
			}
			take(pictures)
		},
		OnLeft: func(dir string) {
			prefs.SetString(pickFolder, dir)
			e.Think(thumbs.Close, nil) // it waits for the picture at hand
		},
	})
}

// fileThumbs makes thumbnails of files that are not in the journal yet.
type fileThumbs struct{}

// Thumb reads the picture at path and makes it small and upright.
func (fileThumbs) Thumb(ctx context.Context, path string, size int) (image.Image, error) {
	if _, err := photo.InspectFile(path, photo.Limits{}); err != nil {
		return nil, err // too large, or no picture: it is not read at all
	}
	data, err := os.ReadFile(path)
	if err != nil {
		return nil, err
	}
	p, err := photo.Decode(filepath.Base(path), data, photo.Limits{})
	if err != nil {
		return nil, err
	}
	return p.Fit(size), ctx.Err()
}

// PickPhoto offers photos by their pictures, and hands over which was picked.
func (e *Env) PickPhoto(title, aside string, photos []kit.PhotoItem, picked func(i int)) {
	var sheet *kit.Dialog
	grid := kit.NewPhotoGrid(e.Thumbs, fyne.NewSize(180, 135), 2, func() int { return len(photos) }, func(i int) kit.PhotoItem {
		if i < 0 || i >= len(photos) {
			return kit.PhotoItem{}
		}
		return photos[i]
	})
	grid.OnOpen = func(i int) {
		sheet.Close()
		picked(i)
	}
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{Title: title, Content: grid, Width: 900, Height: 640, Aside: kit.Small(aside),
		Buttons: []fyne.CanvasObject{kit.NewButton(lang.L("Cancel"), func() { sheet.Close() }).WithKey(lang.L("Esc"))}})
	e.Window.Canvas().Focus(grid)
}

// AddPhotos adds pictures to a record away from the main goroutine. show is given
// what tells how far it is, with a way to stop, and nil when it is over. What is
// refused is told in a dialog, a sentence for each; the others are in, as far as they had
// come when they were stopped.
func (e *Env) AddPhotos(owner journal.Ref, role journal.Role, pictures []journal.Picture, show func(fyne.CanvasObject)) {
	if len(pictures) == 0 {
		return
	}
	ctx, stop := context.WithCancel(context.Background())
	progress := kit.NewProgress(lang.L("Adding photos"), stop)
	progress.Set(0, len(pictures), "")
	show(progress)
	var added []journal.ID
	var refused []error
	Try(e, func(run context.Context) (err error) {
		defer context.AfterFunc(run, stop)()
		added, refused, err = e.Journal.AddPictures(ctx, lang.L("adding photos"), owner, role, pictures, func(done int) {
			e.main(func() { progress.Set(done, len(pictures), "") })
		})
		return err
	}, func(err error) {
		stop()
		show(nil)
		if err != nil && !errors.Is(err, context.Canceled) {
			e.Fail(err)
			return
		}
		switch n := len(added); {
		case n == 1:
			e.Say(lang.L("1 photo added."), true)
		case n > 1:
			e.Say(lang.L("{{.N}} photos added.", map[string]any{"N": n}), true)
		}
		e.TellRefused(refused)
	})
}

// TellRefused lists what was not added, and why.
func (e *Env) TellRefused(refused []error) {
	if len(refused) == 0 {
		return
	}
	lines := kit.Stack(2)
	for _, r := range refused {
		lines.Add(kit.Body(e.Units().ErrorText(r)))
	}
	title := lang.L("{{.N}} files were not added", map[string]any{"N": len(refused)})
	if len(refused) == 1 {
		title = lang.L("One file was not added")
	}
	var sheet *kit.Dialog
	ok := kit.PrimaryButton(lang.L("OK"), func() { sheet.Close() }).WithKey(lang.L("Enter"))
	sheet = kit.ShowDialog(e.Window, kit.DialogOptions{
		Title: title, Content: lines, Scroll: true, Width: 560,
		Buttons: []fyne.CanvasObject{ok}, OnEnter: func() { sheet.Close() },
		Aside: kit.Small(lang.L("The files themselves are untouched.")),
	})
}
