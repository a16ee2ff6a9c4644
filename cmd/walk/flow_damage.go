package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal"
	"twinloaf/journal/photo/phototest"
)

// openDamaged opens a journal in which one bit of a bake was flipped, and later one in
// which a bake and a feeding were written over: the window opens, says which they are
// by name and day, and work goes on. A check says the same, and says that it found
// something wrong, the first time only.
func openDamaged(w *walk) {
	p, folder := w.program()
	now := time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)
	bake, feeding := smallJournal(w, folder, now.AddDate(0, 0, -1))
	damageRecord(folder, bake, func(record []byte) { record[len(record)/2] ^= 1 })
	const flipped = "Bake Ferry loaf, 3 March 2026: one letter was damaged, and has been set right."
	w.checkTwice(folder, flipped)
	const name = "The day after"
	p.steps(
		p.startingAt(now),
		p.seeing("The journal was damaged, and is whole again."), p.picture("whole-again"),
		p.pressing("Show"), p.seeing("Damage that was found"), p.seeing(unbroken(flipped)), p.picture("set-right"),
		p.pressing("Settings"), p.pressing("light"),
		p.pressing("Backups and safekeeping"), p.seeing(unbroken(flipped)), p.picture("set-right-light"),
		func() { p.typeName(name) }, p.picture("typed"), p.quit, p.start,
		p.seeing("Today"), p.missing("The journal was damaged"),
		p.keys("ctrl+3"), p.seeing(name), p.seeing("Ferry loaf"), p.picture("goes-on"),
		p.quit,
		func() { isWhole(folder, name) },
	)

	over := func(record []byte) { clear(record[len(record)/2-20 : len(record)/2+20]) }
	damageRecord(folder, bake, over)
	damageRecord(folder, feeding, over)
	told := []string{"Bake Ferry loaf, 3 March 2026: restored", "One feeding of Gorse: restored"}
	w.checkTwice(folder, told...)
	p.steps(
		p.startingAt(now.Add(time.Hour)),
		p.seeing("Part of the journal could not be read. Here is what was found."), p.seeing("Damage that was found"),
		p.seeing(unbroken(told[0])), p.seeing(told[1]), p.picture("brought-back"),
		p.pressing("Settings"), p.pressing("dark"),
		p.pressing("Backups and safekeeping"), p.seeing(unbroken(told[0])), p.picture("brought-back-dark"),
		p.keys("ctrl+2"), p.pressing("Gorse"), p.seeing("Gorse, day"),
		p.quit,
		func() { isWhole(folder, name) },
	)
}

// unbroken gives a sentence as the window shows it, with the day and its month on one line.
func unbroken(said string) string { return strings.Replace(said, "3 March", "3\u00a0March", 1) }

// smallJournal makes a journal of a culture with a feeding, a bake with a photo, another
// and a tasting of the two, and gives the first bake and the feeding.
func smallJournal(w *walk, folder string, at time.Time) (bake, feeding journal.Ref) {
	picture := filepath.Join(w.dir, "loaf.jpg")
	check(os.WriteFile(picture, phototest.JPEG(phototest.Scene(600, 400), phototest.EXIF{}), 0o644))
	j := must(journal.Open(context.Background(), folder, journal.Options{Clock: func() time.Time { return at }}))
	defer func() { check(j.Close()) }()
	c := &journal.Culture{Name: "Gorse", Born: at.AddDate(0, -1, 0)}
	b := &journal.Bake{Name: "Ferry loaf", At: at, Notes: "Windy on the quay, a slow rise."}
	other := &journal.Bake{Name: "Harbour loaf", At: at}
	f := &journal.Feeding{At: at, Kept: 20, Flour: 50, Water: 50}
	for _, put := range []func(tx *journal.Tx) error{
		func(tx *journal.Tx) error { return journal.Put(tx, c) },
		func(tx *journal.Tx) error { b.Culture = c.ID; return journal.Put(tx, b) },
		func(tx *journal.Tx) error { return journal.Put(tx, other) },
		func(tx *journal.Tx) error { f.Culture = c.ID; return journal.Put(tx, f) },
		func(tx *journal.Tx) error {
			return journal.Put(tx, &journal.Tasting{Name: "Ferry or harbour?", At: at, Bakes: []journal.ID{b.ID, other.ID}})
		},
	} {
		check(j.Do("what was there before", put))
	}
	// Both are changed once more: the history then holds them as they were before.
	check(j.Do("a second look", func(tx *journal.Tx) error {
		return errors.Join(
			journal.Change(tx, b.ID, func(b *journal.Bake) { b.Notes += " Scored twice." }),
			journal.Change(tx, f.ID, func(f *journal.Feeding) { f.Note = "thick" }))
	}))
	_, refused, err := j.AddPictures(context.Background(), "photo", journal.RefOf(b), journal.RoleCrumb,
		[]journal.Picture{{Name: "loaf.jpg", Path: picture}}, nil)
	check(errors.Join(append(refused, err)...))
	return journal.RefOf(b), journal.RefOf(f)
}

// damageRecord alters a record where it lies in the file, as a failing disk would.
func damageRecord(folder string, of journal.Ref, alter func(record []byte)) {
	path := filepath.Join(folder, journal.FileName)
	record := storedRecord(path, of)
	whole := must(os.ReadFile(path))
	// Pages that are free may hold it, too; the one that counts is the one that is read.
	for from := 0; ; from++ {
		at := bytes.Index(whole[from:], record)
		failIf(at < 0, "%s %s is not where it can be damaged", of.Kind, of.ID)
		from += at
		file := bytes.Clone(whole)
		alter(file[from : from+len(record)])
		check(os.WriteFile(path, file, 0o600))
		if !bytes.Equal(storedRecord(path, of), record) {
			return
		}
	}
}

// storedRecord gives a record as it lies in the file.
func storedRecord(path string, of journal.Ref) (record []byte) {
	db := must(bolt.Open(path, 0o600, &bolt.Options{ReadOnly: true, Timeout: time.Second}))
	defer func() { check(db.Close()) }()
	check(db.View(func(tx *bolt.Tx) error {
		record = bytes.Clone(tx.Bucket([]byte(of.Kind)).Get([]byte(of.ID)))
		if record == nil {
			return fmt.Errorf("there is no %s %s", of.Kind, of.ID)
		}
		return nil
	}))
	return record
}

// checkTwice has the program check a copy of a damaged journal: it says what was wrong
// and ends with 1; the second time it says that all is well, and ends with 0.
func (w *walk) checkTwice(folder string, told ...string) {
	aside := must(os.MkdirTemp(w.dir, "checked-"))
	check(os.CopyFS(aside, os.DirFS(folder)))
	said, code := w.check(aside)
	failIf(code != 1, "the check of a damaged journal ended with %d: %s", code, said)
	for _, t := range told {
		failIf(!strings.Contains(said, t), "the check does not say %q: %s", t, said)
	}
	said, code = w.check(aside)
	failIf(code != 0 || !strings.Contains(said, "everything is as it should be"), "the check of the mended journal ended with %d: %s", code, said)
}

// check has the program check a journal, and gives what it says and ends with.
func (w *walk) check(folder string) (said string, code int) {
	c := w.command(w.exe, "-check", "-journal", folder)
	c.Env = w.env("DISPLAY=", "LANG=", "LC_ALL=")
	out, err := c.CombinedOutput()
	if ended, ok := errors.AsType[*exec.ExitError](err); ok {
		return string(out), ended.ExitCode()
	}
	check(err)
	return string(out), 0
}
