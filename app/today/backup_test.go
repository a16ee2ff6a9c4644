package today

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/backup"
)

func TestAWeekWithoutABackupIsTold(t *testing.T) {
	b := pagestest.New(t)
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Name: "Ferry loaf", At: b.Clock}) })
	if _, err := b.Journal.BackUp(t.Context(), backup.Daily); err != nil {
		t.Fatal(err)
	}
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
	told := func() string {
		t.Helper()
		b.Show(Routes()[pages.Today], pages.Route{Name: pages.Today})
		b.Wait()
		said := b.Texts()
		_, after, _ := strings.Cut(said, "There has been no backup since ")
		return after
	}
	for day := range 9 {
		if _, err := b.Journal.BackUp(t.Context(), backup.Daily); err == nil {
			t.Fatal("a backup went into a folder that is gone")
		}
		if got := told(); (got != "") != (day >= 7) {
			t.Errorf("after %d days it says %q", day, got)
		}
		b.Clock = b.Clock.AddDate(0, 0, 1)
	}
	begun := b.Env.Units().Day(b.Clock.AddDate(0, 0, -9), b.Clock)
	if got := told(); !strings.HasPrefix(got, begun) || !strings.Contains(got, "plug in the disk of "+usb) {
		t.Errorf("it says %q", got)
	}
}
