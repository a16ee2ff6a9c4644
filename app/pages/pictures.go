package pages

import (
	"context"
	"image"
	"os"
	"path/filepath"

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
