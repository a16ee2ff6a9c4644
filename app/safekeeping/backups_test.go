package safekeeping

import (
	"context"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
)

// sees reports whether the bench shows a text.
func sees(b *pagestest.Bench, text string) bool {
	return strings.Contains(b.Texts(), text)
}

func open(t *testing.T, b *pagestest.Bench) {
	t.Helper()
	b.Show(Routes()[pages.Safekeeping], pages.Route{Name: pages.Safekeeping})
	b.Wait()
}

// tap presses what reads so, a link or a button, on the page or in the sheet over it.
func tap(t *testing.T, b *pagestest.Bench, words string) {
	t.Helper()
	if top := b.Window.Canvas().Overlays().Top(); top != nil {
		for _, btn := range pagestest.All[*kit.Button](top) {
			if btn.Label() == words {
				btn.Tapped(nil)
				b.Wait()
				return
			}
		}
	}
	for _, l := range pagestest.All[*kit.Link](b.Window.Content()) {
		if l.Text() == words {
			l.Tapped(nil)
			b.Wait()
			return
		}
	}
	for _, btn := range pagestest.All[*kit.Button](b.Window.Content()) {
		if btn.Label() == words {
			btn.Tapped(nil)
			b.Wait()
			return
		}
	}
	t.Fatalf("nothing reads %q", words)
}

func newBake(b *pagestest.Bench, name string) {
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Name: name, At: b.Clock}) })
}

func TestABackupIsMadeListedAndPutBack(t *testing.T) {
	b := pagestest.New(t)
	newBake(b, "Ferry loaf")
	open(t, b)
	if !sees(b, "There is no backup yet") {
		t.Error("an empty list is not told")
	}
	b.Press("B")
	b.Wait()
	if !sees(b, "1 bake") || !sees(b, "checked") || len(b.Failed) > 0 {
		t.Fatalf("%q, %v", outline.Texts(outline.Of(b.Window)), b.Failed)
	}
	b.Clock = b.Clock.Add(time.Hour)
	newBake(b, "Dark tin")
	var between func(context.Context) error
	var then func(*pages.Env, error)
	b.Env.Reopen = func(f func(context.Context) error, g func(*pages.Env, error)) { between, then = f, g }
	tap(t, b, "Restore") // the link asks
	tap(t, b, "Restore") // the button does it
	if between == nil {
		t.Fatalf("nothing was put back: %v", b.Failed)
	}
	if err := between(t.Context()); err != nil {
		t.Fatal(err)
	}
	b.Reopen()
	then(b.Env, nil)
	b.Wait()
	if all, err := journal.All[journal.Bake](b.Journal); err != nil || len(all) != 1 || all[0].Name != "Ferry loaf" {
		t.Errorf("%d bakes, %v", len(all), err)
	}
	if !sees(b, "The journal is as it was on") || !sees(b, filepath.Join(b.Dir, "backups")) {
		t.Errorf("it tells %q", outline.Texts(outline.Of(b.Window)))
	}
	tap(t, b, "OK")
	open(t, b)
	if !sees(b, "2 bakes") || !sees(b, "set aside before going back") {
		t.Errorf("the list: %q", outline.Texts(outline.Of(b.Window)))
	}
}

func TestAFolderThatIsGoneIsTold(t *testing.T) {
	b := pagestest.New(t)
	usb := filepath.Join(t.TempDir(), "usb")
	if err := os.Mkdir(usb, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := b.Journal.Backups().Choose(usb); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(usb); err != nil {
		t.Fatal(err)
	}
	open(t, b)
	tap(t, b, "Back up now")
	if len(b.Failed) != 1 || !sees(b, "is not there") {
		t.Errorf("%v; %q", b.Failed, outline.Texts(outline.Of(b.Window)))
	}
	if n := strings.Count(b.Texts(), "is not there"); n != 1 {
		t.Errorf("it is told %d times", n)
	}
	b.Failed = nil
	tap(t, b, "Use the journal's own folder")
	if len(b.Failed) > 0 || !sees(b, "Last backup: now") {
		t.Errorf("%v; %q", b.Failed, outline.Texts(outline.Of(b.Window)))
	}
}

func TestTheBackupOfTheDayComesByItself(t *testing.T) {
	b := pagestest.New(t)
	d := &daily{env: b.Env}
	count := func() int {
		all, err := b.Journal.Backups().List(t.Context())
		if err != nil {
			t.Fatal(err)
		}
		return len(all)
	}
	for day := range 3 {
		newBake(b, "Loaf")
		for range 4 {
			d.look()
			b.Wait()
			b.Clock = b.Clock.Add(time.Hour)
		}
		if n := count(); n != day+1 {
			t.Errorf("day %d: %d backups", day, n)
		}
		b.Clock = b.Clock.Add(20 * time.Hour)
	}
	// One that fails is told once, and tried again each hour.
	usb := filepath.Join(t.TempDir(), "usb")
	if err := os.Mkdir(usb, 0o755); err != nil {
		t.Fatal(err)
	}
	if err := b.Journal.Backups().Choose(usb); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(usb); err != nil {
		t.Fatal(err)
	}
	for range 8 * 24 {
		d.look()
		b.Wait()
		b.Clock = b.Clock.Add(time.Hour)
	}
	if len(b.Said) != 1 || !strings.Contains(b.Said[0], "Today's backup failed") {
		t.Errorf("it said %q", b.Said)
	}
	if s := b.Journal.Backups().Status(); !s.Neglected(b.Clock) {
		t.Errorf("%+v", s)
	}
	// With the disk back it works within the hour.
	if err := os.MkdirAll(filepath.Join(usb, "originals"), 0o755); err != nil {
		t.Fatal(err)
	}
	d.look()
	b.Wait()
	if s := b.Journal.Backups().Status(); s.Problem != nil || s.Neglected(b.Clock) {
		t.Errorf("%+v", s)
	}
}

func TestPicturesThatNothingShowsAreOffered(t *testing.T) {
	b := pagestest.New(t)
	newBake(b, "Ferry loaf")
	p := newBackups(b.Env)
	p.spare = journal.Unneeded{Pictures: 3, Bytes: 4_200_000}
	p.build()
	found := false
	for _, text := range pagestest.All[*kit.Text](p.object()) {
		found = found || strings.HasPrefix(text.String(), "3 original pictures (4.2 MB) belong to no record")
	}
	if !found {
		t.Error("they are not offered")
	}
}
