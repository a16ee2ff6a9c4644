package cultures

import (
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/paper/papertest"
	"twinloaf/journal/photo/phototest"
)

func TestTheFirstWeeksArePrintedAndItsTablesSaved(t *testing.T) {
	b := pagestest.New(t)
	born := b.Clock.AddDate(0, 0, -12)
	c := putCulture(b, &journal.Culture{Name: "Harbour", Born: born, Notes: "From the mill's rye."})
	for i := range 10 {
		putDay(b, c.ID, born.AddDate(0, 0, i), 1.2+0.1*float64(i), map[string]int{"sour": 1 + i%3})
	}
	data := phototest.JPEG(phototest.Scene(120, 90), phototest.EXIF{Orientation: 1, GPS: "SECRET-PLACE"})
	if _, refused, err := b.Journal.AddPictures(t.Context(), "photos", journal.RefOf(c), journal.RoleJar,
		[]journal.Picture{{Name: "jar.jpg", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(data)), nil }}}, nil); err != nil || len(refused) > 0 {
		t.Fatal(err, refused)
	}
	dir := t.TempDir()
	b.Env.AskWhere = func(o kit.SaveOptions) { o.OnChosen(filepath.Join(dir, o.Name)) }
	page := showCulture(b, c.ID)
	saved := func(key rune, name string) []byte {
		page.save()
		b.Window.Canvas().OnTypedRune()(key)
		b.Env.Wait()
		out, err := os.ReadFile(filepath.Join(dir, name))
		if err != nil {
			t.Fatal(err)
		}
		if look := os.Getenv("TWINLOAF_LOOK"); look != "" { // for a person to look at
			if err := os.WriteFile(filepath.Join(look, name), out, 0o644); err != nil {
				t.Error(err)
			}
		}
		return out
	}
	pdf := saved('1', "Harbour.pdf")
	text := papertest.Text(pdf)
	for _, want := range []string{"Harbour, the first weeks", "From the mill's rye.", "Peak rise after each feeding", "Photos"} {
		if !strings.Contains(text, want) {
			t.Errorf("there is no %q in\n%s", want, text)
		}
	}
	if bytes.Contains(pdf, []byte("SECRET")) || bytes.Count(pdf, []byte("/Subtype /Image")) != 1 {
		t.Error("the photo is not there, or tells its place")
	}
	if rows := strings.Count(string(saved('2', "Harbour-feedings.csv")), "\r\n"); rows != 11 {
		t.Errorf("%d rows of feedings", rows)
	}
	if rows := strings.Count(string(saved('3', "Harbour-readings.csv")), "\r\n"); rows < 11 {
		t.Errorf("%d rows of readings", rows)
	}
}
