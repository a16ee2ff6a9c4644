package main

import (
	"encoding/binary"
	"errors"
	"hash/crc32"
	"path/filepath"
	"strings"
	"testing"
	"time"

	bolt "go.etcd.io/bbolt"

	"twinloaf/journal"
	"twinloaf/journal/blind"
)

// Somebody changes in the journal's file which loaf lies where in a sealed tasting, with
// the checksum set right (journal/store/envelope.go): -check says so.
func TestCheckReadsTheVault(t *testing.T) {
	dir := t.TempDir()
	j, err := journal.Open(t.Context(), dir, journal.Options{})
	if err != nil {
		t.Fatal(err)
	}
	at := time.Date(2026, 3, 4, 8, 54, 0, 0, time.UTC)
	var id journal.ID
	err = j.Do("plan", func(tx *journal.Tx) error {
		var bakes [2]journal.ID
		for i, name := range []string{"Harbour loaf", "Gorse loaf"} {
			b := &journal.Bake{Name: name, At: at}
			if err := journal.Put(tx, b); err != nil {
				return err
			}
			bakes[i] = b.ID
		}
		plan := blind.Plan{Method: blind.Triangle, Mode: blind.WithHelper, Rounds: 2, Tasters: []string{"Ines"}}
		tasting, err := journal.NewTasting(tx, journal.TastingPlan{Name: "After supper", At: at, Bakes: bakes, Plan: plan})
		if err == nil {
			id = tasting.ID
		}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	plating, err := j.Plate(id)
	if err != nil {
		t.Fatal(err)
	}
	if err := errors.Join(plating.Seal(), j.Close()); err != nil {
		t.Fatal(err)
	}
	var said strings.Builder
	if err := checkHere(t.Context(), dir, journal.Options{}, &said, &progressLine{}); err != nil || !strings.Contains(said.String(), "everything is as it should be") {
		t.Fatalf("before anything was changed: %v, %q", err, said.String())
	}
	db, err := bolt.Open(filepath.Join(dir, journal.FileName), 0o600, nil)
	if err != nil {
		t.Fatal(err)
	}
	err = db.Update(func(tx *bolt.Tx) error {
		vault := tx.Bucket([]byte("vault"))
		value := append([]byte{}, vault.Get([]byte(id))...)
		value[len(value)-1] ^= 3 // loaf 1 is 2, and 2 is 1
		table := crc32.MakeTable(crc32.Castagnoli)
		sum := crc32.Update(crc32.Update(0, table, []byte("vault\x00"+string(id)+"\x00")), table, value[5:])
		binary.BigEndian.PutUint32(value[1:], sum)
		return vault.Put([]byte(id), value)
	})
	if err := errors.Join(err, db.Close()); err != nil {
		t.Fatal(err)
	}
	said.Reset()
	if err := checkHere(t.Context(), dir, journal.Options{}, &said, &progressLine{}); !errors.Is(err, errFound) {
		t.Errorf("gave %v", err)
	}
	if !strings.Contains(said.String(), "After supper") || !strings.Contains(said.String(), "the sealed assignment does not match its commitment") {
		t.Errorf("said %q", said.String())
	}
}
