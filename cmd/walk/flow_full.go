package main

import (
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/photo/phototest"
)

// fullDisk keeps a journal on a small disk that fills up: what is typed then is kept
// in memory and saved by itself once there is room, a photo is refused with a sentence,
// and a window that cannot save stays until there is room, and closes by itself. A tasting
// is neither sealed nor unsealed meanwhile, and is as soon as it is asked for again.
func fullDisk(w *walk) {
	small, free := smallDisk(w.dir)
	defer free()
	folder := filepath.Join(small, "journal")
	picture := filepath.Join(w.dir, "loaf.jpg")
	check(os.WriteFile(picture, phototest.JPEG(phototest.Scene(1200, 900), phototest.EXIF{}), 0o644))
	p := newProgram(w.screen, w.exe, w.dir, folder)
	first, second := longText("first"), longText("second")
	p.steps(
		p.startingAt(time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)),
		func() { p.typeName("Full loaf") },
		p.keys("Escape"),
		func() { fill(small) },
		func() { w.clip(first) },
		p.pressing("how it came out"), p.keys("ctrl+v"),
		p.saying("The disk is full."), p.saying("kept in memory"), p.picture("full"),
		p.keys("Escape"),
		func() { w.clip("file://" + picture) },
		p.keys("ctrl+v"), p.saying("loaf.jpg"), p.saying("no room left on the disk"), p.picture("photo-refused"),
		p.keys("Escape"),
		func() { makeRoom(small) },
		p.saying("saved again"), p.picture("saved-again"),
	)
	p.noteIs(folder, first)
	p.steps(
		func() { fill(small) },
		func() { w.clip(second) },
		p.pressing("first line 1 "), p.keys("ctrl+a", "ctrl+v"), p.saying("The disk is full."),
		p.keys("ctrl+q"), p.seeing("What you typed is not saved yet"), p.picture("closing"),
		p.keys("Escape"), p.missing("What you typed is not saved yet"),
		p.keys("ctrl+q"), p.seeing("What you typed is not saved yet"),
		func() { makeRoom(small) },
		p.ended,
	)
	holdsNote(folder, second)
	sealWhenFull(w, small)
}

// longText is some forty thousand letters in lines: more than free pages of a small
// journal hold.
func longText(word string) string {
	var b strings.Builder
	for i := range 500 {
		fmt.Fprintf(&b, "%s line %d %s\n", word, i+1, strings.Repeat("crumb ", 11))
	}
	return b.String()
}

// smallDisk gives a folder on a file system of its own with little room: a fresh one
// where this may be mounted, or else the one of a container's shared memory.
func smallDisk(dir string) (folder string, free func()) {
	folder = filepath.Join(dir, "small")
	check(os.Mkdir(folder, 0o755))
	mounted := exec.Command("mount", "-t", "tmpfs", "-o", "size=8m", "tmpfs", folder).Run()
	if mounted == nil {
		return folder, func() { _ = exec.Command("umount", "-l", folder).Run() }
	}
	const shared, most = "/dev/shm", 256 << 20
	var fs syscall.Statfs_t
	if err := syscall.Statfs(shared, &fs); err != nil || int64(fs.Blocks)*fs.Bsize > most {
		panic(fmt.Errorf("there is no small disk: mounting one: %w; %s: %d blocks, %v", mounted, shared, fs.Blocks, err))
	}
	folder = must(os.MkdirTemp(shared, "twinloaf-walk-"))
	return folder, func() { _ = os.RemoveAll(folder) }
}

// fill leaves no room on the disk of a folder.
func fill(folder string) {
	f := must(os.Create(filepath.Join(folder, "filler")))
	defer f.Close()
	for _, block := range []int{1 << 20, 4096, 1} { // to the last byte
		var err error
		for err == nil {
			_, err = f.Write(make([]byte, block))
		}
		failIf(!errors.Is(err, syscall.ENOSPC), "filling the disk: %w", err)
	}
}

func makeRoom(folder string) { check(os.Remove(filepath.Join(folder, "filler"))) }

// noteIs waits until the journal of the running program holds the note: its file is
// copied and looked into.
func (p *program) noteIs(folder, note string) {
	aside := must(os.MkdirTemp(filepath.Dir(p.outline), "aside-"))
	check(os.WriteFile(filepath.Join(aside, journal.FileName), must(os.ReadFile(filepath.Join(folder, journal.FileName))), 0o600))
	holdsNote(aside, note)
}

// holdsNote looks that a journal holds one bake with this text on how it came out.
func holdsNote(folder, note string) {
	b := only[journal.Bake](folder)
	failIf(b.Name != "Full loaf", "the bake is kept as %+v", b)
	got := b.Outcome.Notes
	failIf(strings.TrimSpace(got) != strings.TrimSpace(note), "%d letters are kept of %d", len(got), len(note))
}
