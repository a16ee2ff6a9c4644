package main

import (
	"bytes"
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
func takeAndBring(w *walk) {
	from, into := filepath.Join(w.dir, "journal"), filepath.Join(w.dir, "fresh")
	home := filepath.Join(w.dir, "home")
	check(os.MkdirAll(home, 0o755))
	fillShelf(from)
	first := filepath.Join(home, "Bread journal 2026-03-04.twinloaf.zip")
	p := newProgram(w.screen, w.exe, w.dir, from)
	p.home = home
	clock := func() { p.setClock(shelfNow) }
	p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.seeing("Take away and bring in"),
		p.picture("safekeeping"),
		p.pressing("Take the journal away…"), p.seeing("photos keep the place"), p.settling(), p.picture("what-goes"),
		p.keys("Return"), p.seeing("Where to?"), p.picture("where-to"),
		p.keys("Return"), p.seeing("Saved as"), p.picture("taken-away"),
		p.quit, func() { readWithoutUs(first, filepath.Join(w.dir, "unpacked")) },
	)

	p = newProgram(w.screen, w.exe, w.dir, into)
	p.home = home
	p.steps(clock, p.start,
		p.seeing("Your journal is empty"),
		func() { p.drop(760, 420, first) },
		p.seeing("Bring it in"), p.seeing("An archive of a whole journal"), p.picture("what-would-come"),
		p.pressing("Bring it in"), p.seeing("records were brought in"), p.seeing("Nothing here is new to you"), p.picture("brought-in"),
		p.quit, func() { alike(from, into) },
	)

	// The same journal a day later: one bake says something else, here and there.
	differ := func(folder, notes string) {
		changeJournal(folder, func(tx *journal.Tx) error {
			bakes, err := journal.All[journal.Bake](tx)
			if err != nil {
				return err
			}
			return journal.Change(tx, bakes[0].ID, func(b *journal.Bake) { b.Notes = notes })
		})
	}
	differ(from, "crackling crust")
	differ(into, "a dull crust")
	check(os.Remove(first))
	p = newProgram(w.screen, w.exe, w.dir, from)
	p.home = home
	p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.keys("t"), p.seeing("photos keep the place"),
		p.keys("Return"), p.seeing("Where to?"), p.keys("Return"), p.seeing("Saved as"),
		p.quit,
	)
	p = newProgram(w.screen, w.exe, w.dir, into)
	p.home = home
	p.steps(clock, p.start,
		p.pressing("Settings"), p.pressing("Backups and safekeeping"), p.keys("i"), p.seeing("Bread journal 2026-0…"),
		p.pressing("Bread journal 2026-0…"), p.pressing("Look at it"),
		p.seeing("1 record differs from yours"), p.seeing("Different: notes"), p.settling(), p.picture("what-differs"),
		p.pressing("take theirs"), p.settling(), p.picture("theirs-chosen"),
		p.keys("i"), p.seeing("One record was brought in."), p.seeing("Nothing here is new to you"), p.picture("theirs-taken"),
		p.quit, func() { alike(from, into) },
	)
}

// readWithoutUs checks every fingerprint of an archive and counts its records with
// Debian's unzip, python3 and sha256sum, as the archive's own description tells.
func readWithoutUs(file, dir string) {
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
		panic(fmt.Errorf("unzip: %w: %s", err, out))
	}
	read := exec.Command("python3", "-c", script)
	read.Dir = dir
	var said bytes.Buffer
	read.Stderr = &said
	sums, err := read.Output()
	if err != nil {
		panic(fmt.Errorf("python3: %w: %s", err, said.String()))
	}
	summing := exec.Command("sha256sum", "--check", "--strict", "--quiet")
	summing.Dir, summing.Stdin = dir, bytes.NewReader(sums)
	if out, err := summing.CombinedOutput(); err != nil {
		panic(fmt.Errorf("sha256sum: %w: %s", err, out))
	}
	failIf(bytes.Count(sums, []byte("photos/")) == 0, "there is no photo in the archive")
}

// alike wants the same records, byte for byte, in two journals, and all photos whole.
func alike(one, other string) {
	var records [2]map[journal.Ref]string
	for i, folder := range []string{one, other} {
		records[i] = map[journal.Ref]string{}
		inJournal(folder, func(j *journal.Journal) {
			for _, kind := range journal.Kinds() {
				check(journal.EachRaw(j, kind, func(raw journal.Raw, damage error) error {
					records[i][raw.Ref] = string(raw.Body)
					return damage
				}))
			}
			isSound(j)
		})
	}
	failIf(!maps.Equal(records[0], records[1]), "%s holds %d records, %s %d, and they are not alike", one, len(records[0]), other, len(records[1]))
}
