package store

import (
	"context"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"testing"

	bolt "go.etcd.io/bbolt"
)

func TestMigrationsRunInOrderAfterABackup(t *testing.T) {
	rename := func(to uint64, from, name string) Step {
		return Step{to, func(tx *bolt.Tx) error {
			b := tx.Bucket(bucketMeta)
			if string(b.Get([]byte("flag"))) != from {
				return fmt.Errorf("the flag is %q", b.Get([]byte("flag")))
			}
			return b.Put([]byte("flag"), []byte(name))
		}}
	}
	fail := Step{4, func(*bolt.Tx) error { return errors.New("no") }}
	cases := []struct {
		name     string
		steps    []Step
		wantFlag string
		wantErr  bool
		backup   bool
	}{
		{"nothing to do", nil, "", false, false},
		{"two steps", []Step{rename(2, "", "two"), rename(3, "two", "three")}, "three", false, true},
		{"the second fails: neither is kept", []Step{rename(2, "", "two"), fail}, "", true, true},
	}
	for _, c := range cases {
		t.Run(c.name, func(t *testing.T) {
			dir := t.TempDir()
			path := filepath.Join(dir, "records.db")
			layout := Layout{Is: "records", Schema: 1, Kinds: []Spec{{Kind: "bake"}}}
			if err := Create(path, layout); err != nil {
				t.Fatal(err)
			}
			db, err := bolt.Open(path, 0o644, nil)
			if err != nil {
				t.Fatal(err)
			}
			defer db.Close()
			newer := layout
			newer.Steps = c.steps
			if n := len(c.steps); n > 0 {
				newer.Schema = c.steps[n-1].To
			}
			copied := filepath.Join(dir, "copy.db")
			backUp := func(tx *Tx) error {
				f, err := os.Create(copied)
				if err != nil {
					return err
				}
				_, err = tx.WriteTo(f)
				return errors.Join(err, f.Close())
			}
			if err := newer.migrate(db, path, backUp); (err != nil) != c.wantErr {
				t.Errorf("migrating gave %v", err)
			}
			_ = db.View(func(tx *bolt.Tx) error {
				if got := string(tx.Bucket(bucketMeta).Get([]byte("flag"))); got != c.wantFlag {
					t.Errorf("the flag is %q, want %q", got, c.wantFlag)
				}
				return nil
			})
			copies, _ := filepath.Glob(copied)
			if (len(copies) == 1) != c.backup {
				t.Fatalf("backups: %v", copies)
			}
			for _, name := range copies {
				if err := Inspect(context.Background(), name, layout); err != nil {
					t.Errorf("the backup: %v", err)
				}
			}
		})
	}
}
