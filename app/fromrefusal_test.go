package app

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/backup"
)

// The small window that says that nothing in a journal can be read any more goes back
// to a backup of it.
func TestARefusedJournalOffersItsBackups(t *testing.T) {
	a := maintest.App(t)
	dir := t.TempDir()
	j, err := journal.Open(t.Context(), dir, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	err = j.Do("bake", func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Name: "Ferry loaf"}) })
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.BackUp(t.Context(), backup.Daily); err != nil {
		t.Fatal(err)
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	wreck := bytes.Repeat([]byte{0}, 1<<16)
	copy(wreck[16:], []byte{0xED, 0xDA, 0x0C, 0xED})
	if err := os.WriteFile(filepath.Join(dir, journal.FileName), wreck, 0o644); err != nil {
		t.Fatal(err)
	}
	_, err = journal.Open(t.Context(), dir, journal.Options{})
	refused, ok := errors.AsType[*journal.Refused](err)
	if !ok {
		t.Fatalf("it was not refused: %v", err)
	}
	all, err := refused.Backups(t.Context())
	if err != nil {
		t.Fatal(err)
	}
	w := newWaiting(a, fyne.Do)
	defer w.win.Close()
	again := make(chan struct{})
	w.refuse(refused)
	w.list(t.Context(), refused, all, func() { close(again) })
	if said := strings.Join(outline.Texts(outline.Of(w.win)), "\n"); !strings.Contains(said, "1 bake") {
		t.Errorf("it offers %q", said)
	}
	for _, l := range pagestest.All[*kit.Link](w.win.Content()) {
		if l.Text() == "Restore" {
			l.Tapped(nil)
		}
	}
	<-again
	if j, err = journal.Open(t.Context(), dir, journal.Options{}); err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	if bakes, err := journal.All[journal.Bake](j); err != nil || len(bakes) != 1 {
		t.Errorf("%d bakes, %v", len(bakes), err)
	}
}
