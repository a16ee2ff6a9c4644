package today

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"twinloaf/app/outline"
	"twinloaf/app/room"
	"twinloaf/app/room/roomtest"
	"twinloaf/journal"
	"twinloaf/journal/backup"
)

func TestAWeekWithoutABackupIsTold(t *testing.T) {
	b := roomtest.New(t)
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
		b.Show(Openers()[room.Today], room.Place{Name: room.Today})
		b.Wait()
		for _, s := range outline.Texts(outline.Of(b.Window)) {
			if strings.Contains(s, "no backup since") {
				return s
			}
		}
		return ""
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
	if got := told(); !strings.Contains(got, "4\u00a0Mar") || !strings.Contains(got, "plug in the disk of "+usb) {
		t.Errorf("it says %q", got)
	}
}
