package main

import (
	"bytes"
	"errors"
	"fmt"
	"maps"
	"os"
	"os/exec"
	"path/filepath"

	"twinloaf/journal"
)

// takeAndBring takes a journal away in one window, checks the archive with tools that
// know nothing of this program, drops it on the window of an empty journal, and finds
// everything there as it was; then brings a later state in, of which one bake differs.
func takeAndBring(w *walk) error {
	from, into := filepath.Join(w.dir, "journal"), filepath.Join(w.dir, "fresh")
	home := filepath.Join(w.dir, "home")
	if err := errors.Join(os.MkdirAll(home, 0o755), fillShelf(from)); err != nil {
		return err
	}
	first := filepath.Join(home, "Bread journal 2026-03-04.twinloaf.zip")
	p := newProgram(w.screen, w.exe, w.dir, from)
	p.home = home
	clock := func() error { return p.setClock(shelfNow) }
	err := p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.seeing("Take away and bring in"),
		p.picture("safekeeping"),
		p.pressing("Take the journal away…"), p.seeing("photos keep the place"), p.settling(), p.picture("what-goes"),
		p.keys("Return"), p.seeing("Where to?"), p.picture("where-to"),
		p.keys("Return"), p.seeing("Saved as"), p.picture("taken-away"),
		p.quit, func() error { return readWithoutUs(first, filepath.Join(w.dir, "unpacked")) },
	)
	if err != nil {
		return err
	}

	p = newProgram(w.screen, w.exe, w.dir, into)
	p.home = home
	err = p.steps(clock, p.start,
		p.seeing("Your journal is empty"),
		func() error { return p.drop(760, 420, first) },
		p.seeing("Bring it in"), p.seeing("An archive of a whole journal"), p.picture("what-would-come"),
		p.pressing("Bring it in"), p.seeing("records were brought in"), p.seeing("Nothing here is new to you"), p.picture("brought-in"),
		p.quit, func() error { return alike(from, into) },
	)
	if err != nil {
		return err
	}

	// The same journal a day later: one bake says something else, here and there.
	differ := func(folder, notes string) error {
		return changeJournal(folder, func(tx *journal.Tx) error {
			bakes, err := journal.All[journal.Bake](tx)
			if err != nil {
				return err
			}
			return journal.Change(tx, bakes[0].ID, func(b *journal.Bake) { b.Notes = notes })
		})
	}
	if err := errors.Join(differ(from, "crackling crust"), differ(into, "a dull crust"), os.Remove(first)); err != nil {
		return err
	}
	p = newProgram(w.screen, w.exe, w.dir, from)
	p.home = home
	err = p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.keys("t"), p.seeing("photos keep the place"),
		p.keys("Return"), p.seeing("Where to?"), p.keys("Return"), p.seeing("Saved as"),
		p.quit,
	)
	if err != nil {
		return err
	}
	p = newProgram(w.screen, w.exe, w.dir, into)
	p.home = home
	return p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.keys("i"), p.seeing("Bread journal 2026-0…"),
		p.pressing("Bread journal 2026-0…"), p.pressing("Look at it"),
		p.seeing("1 record differs from yours"), p.seeing("Different: notes"), p.settling(), p.picture("what-differs"),
		p.pressing("take theirs"), p.settling(), p.picture("theirs-chosen"),
		p.keys("i"), p.seeing("One record was brought in."), p.seeing("Nothing here is new to you"), p.picture("theirs-taken"),
		p.quit, func() error { return alike(from, into) },
	)
}

// readWithoutUs checks every fingerprint of an archive and counts its records with
// Debian's unzip, python3 and sha256sum, as the archive's own description tells.
func readWithoutUs(file, dir string) error {
	const script = `import json
m = json.load(open("manifest.json", encoding="utf-8"))
assert m["format"] == "Twinloaf archive" and m["version"] == 1 and m["scope"] == "whole"
for r in m["records"]:
    lines = open(r["path"], encoding="utf-8").read().split("\n")[:-1]
    assert len(lines) == r["count"], r["path"]
    for line in lines:
        record = json.loads(line)
        assert len(record["id"]) == 26 and record["v"] == 1, line
    if r["kind"] == "photo":
        named = {json.loads(line)["hash"] for line in lines}
        assert named == {p["sha256"] for p in m["photos"]}
for x in [m["readme"]] + m["records"] + m["photos"]:
    print(x["sha256"] + "  " + x["path"])
`
	if out, err := exec.Command("unzip", "-q", file, "-d", dir).CombinedOutput(); err != nil {
		return fmt.Errorf("unzip: %w: %s", err, out)
	}
	read := exec.Command("python3", "-c", script)
	read.Dir = dir
	var said bytes.Buffer
	read.Stderr = &said
	sums, err := read.Output()
	if err != nil {
		return fmt.Errorf("python3: %w: %s", err, said.String())
	}
	check := exec.Command("sha256sum", "--check", "--strict", "--quiet")
	check.Dir, check.Stdin = dir, bytes.NewReader(sums)
	if out, err := check.CombinedOutput(); err != nil {
		return fmt.Errorf("sha256sum: %w: %s", err, out)
	}
	if bytes.Count(sums, []byte("photos/")) == 0 {
		return errors.New("there is no photo in the archive")
	}
	return nil
}

// alike wants the same records, byte for byte, in two journals, and all photos whole.
func alike(one, other string) error {
	var records [2]map[journal.Ref]string
	for i, folder := range []string{one, other} {
		records[i] = map[journal.Ref]string{}
		err := inJournal(folder, func(j *journal.Journal) error {
			for _, kind := range journal.Kinds() {
				err := journal.EachRaw(j, kind, func(raw journal.Raw, damage error) error {
					records[i][raw.Ref] = string(raw.Body)
					return damage
				})
				if err != nil {
					return err
				}
			}
			return isSound(j)
		})
		if err != nil {
			return err
		}
	}
	if !maps.Equal(records[0], records[1]) {
		return fmt.Errorf("%s holds %d records, %s %d, and they are not alike", one, len(records[0]), other, len(records[1]))
	}
	return nil
}
