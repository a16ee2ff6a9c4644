package photos

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/photo/phototest"
)

func TestAPhotoLeavesWithoutPlaceAndCameraOrWhole(t *testing.T) {
	b, first, _, _ := setUp(t)
	data := phototest.JPEG(phototest.Scene(64, 48), phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00", Make: "SECRET-CAMERA", GPS: "SECRET-PLACE"})
	ids, refused, err := b.Journal.AddPictures(t.Context(), "adding photos", journal.RefOf(first), journal.RoleOther,
		[]journal.Picture{{Name: "from the ferry.jpeg", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}}, nil)
	if err != nil || len(refused) > 0 {
		t.Fatal(err, refused)
	}
	dir := t.TempDir()
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(dir, o.Name)) }
	page := open(b, pages.At(pages.Photo, ids[0])).(*photoPage)
	saved := func(button string) []byte {
		page.save()
		for _, one := range pagestest.All[*kit.Button](b.Window.Canvas().Overlays().Top()) {
			if one.Label() == button {
				test.Tap(one)
			}
		}
		b.Env.Wait()
		out, err := os.ReadFile(filepath.Join(dir, "from the ferry.jpg"))
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	if out := saved("Save the original"); !bytes.Equal(out, data) {
		t.Error("the original was altered")
	}
	if out := saved("Save without place and camera"); bytes.Contains(out, []byte("SECRET")) || !bytes.Contains(out, []byte("2026:03:14")) {
		t.Error("the photo tells its place, or no longer its time")
	}
	if err := os.Remove(filepath.Join(dir, "from the ferry.jpg")); err != nil {
		t.Fatal(err)
	}
	page.save() // Enter does what is safe
	b.Window.Canvas().OnTypedKey()(&fyne.KeyEvent{Name: fyne.KeyReturn})
	b.Env.Wait()
	if out, err := os.ReadFile(filepath.Join(dir, "from the ferry.jpg")); err != nil || bytes.Contains(out, []byte("SECRET")) {
		t.Errorf("Enter saves the original, or nothing: %v", err)
	}
}
