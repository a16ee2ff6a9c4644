//go:build yardstick

package carry_test

import (
	"context"
	"errors"
	"io"
	"os"
	"os/exec"
	"path/filepath"
	"testing"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/backup"
	"twinloaf/journal/carry"
	"twinloaf/journal/journaltest"
)

// How long it takes to carry 1,000 bakes with 4,000 photos out and in, to back up and to
// check a journal of 10,000 bakes, beside cp, zip, unzip and sha256sum on the same files.
// What comes in is synced file by file, and what is backed up is read again, which the
// tools do not do.
func BenchmarkBesideYardstick(b *testing.B) {
	for range b.N {
		outAndIn(b)
		backUpAndCheck(b)
	}
}

// took runs fn once and gives its time in seconds.
func took(b *testing.B, what string, fn func() error) float64 {
	b.Helper()
	begun := time.Now()
	if err := fn(); err != nil {
		b.Fatalf("%s: %v", what, err)
	}
	s := time.Since(begun).Seconds()
	b.Logf("%-40s %8.2f s", what, s)
	return s
}

func run(dir, name string, args ...string) func() error {
	return func() error {
		cmd := exec.Command(name, args...)
		cmd.Dir, cmd.Stdout, cmd.Stderr = dir, io.Discard, os.Stderr
		return cmd.Run()
	}
}

func outAndIn(b *testing.B) {
	work := b.TempDir()
	from, path := filepath.Join(work, "journal"), filepath.Join(work, "away.zip")
	if err := journaltest.Generate(b.Context(), from, journaltest.Spec{Bakes: 1000, Photos: 4000, Contents: 4000, Seed: 1}); err != nil {
		b.Fatal(err)
	}
	j, _ := journaltest.OpenIn(b, from, journal.Options{})
	out := took(b, "out", func() error {
		f, err := os.Create(path)
		if err != nil {
			return err
		}
		p, err := carry.Pack(b.Context(), j)
		if err == nil {
			_, err = p.Write(b.Context(), f, nil)
		}
		return errors.Join(err, f.Close())
	})
	zip := took(b, "zip", run(work, "zip", "-q", "-r", "yardstick.zip", "journal"))
	into, _ := journaltest.Open(b, journal.Options{})
	in := took(b, "in", func() error {
		f, err := os.Open(path)
		if err != nil {
			return err
		}
		defer f.Close()
		info, err := f.Stat()
		if err != nil {
			return err
		}
		a, err := archive.Open(f, info.Size())
		if err != nil {
			return err
		}
		arrival, err := carry.Compare(b.Context(), into, a, nil)
		if err == nil {
			_, err = arrival.BringIn(b.Context(), carry.Order{Label: "bring in"})
		}
		return err
	})
	unzip := took(b, "unzip", run(work, "unzip", "-q", "yardstick.zip", "-d", "unzipped"))
	synced := took(b, "cp, each file synced", run(work, "sh", "-c", "cp -r journal copy && find copy -type f -exec sync {} +"))
	b.ReportMetric(out/zip, "out/zip")
	b.ReportMetric(in/unzip, "in/unzip")
	b.ReportMetric(in/synced, "in/cp+sync")
}

func backUpAndCheck(b *testing.B) {
	dir := filepath.Join(b.TempDir(), "journal")
	if err := journaltest.Generate(b.Context(), dir, journaltest.Spec{Bakes: 10000, Photos: 40000, Contents: 200, Seed: 1}); err != nil {
		b.Fatal(err)
	}
	j, _ := journaltest.OpenIn(b, dir, journal.Options{})
	summaries, err := j.BakeSummaries()
	if err != nil {
		b.Fatal(err)
	}
	ctx, stop := context.WithCancel(b.Context())
	done := make(chan struct{})
	edits, longest := 0, time.Duration(0)
	go func() {
		defer close(done)
		for ctx.Err() == nil {
			begun := time.Now()
			err := j.Do("loaves", func(tx *journal.Tx) error {
				return journal.Change(tx, summaries[edits%len(summaries)].ID, func(k *journal.Bake) { k.Loaves = 1 + edits%7 })
			})
			if err != nil {
				b.Error(err)
			}
			edits, longest = edits+1, max(longest, time.Since(begun))
		}
	}()
	backed := took(b, "a backup while it is edited", func() error {
		_, err := j.BackUp(b.Context(), backup.Asked)
		return err
	})
	stop()
	<-done
	b.Logf("%d edits meanwhile, the longest %v", edits, longest)
	copied := took(b, "cp of the records", run(dir, "cp", journal.FileName, "../copy.db"))
	checked := took(b, "a check", func() error {
		_, err := j.Check(b.Context(), false)
		return err
	})
	summed := took(b, "sha256sum", run(dir, "sh", "-c", "find journal.db photos -type f | xargs sha256sum"))
	b.ReportMetric(backed/copied, "backup/cp")
	b.ReportMetric(checked/summed, "check/sha256sum")
	if report, err := j.Check(b.Context(), false); err != nil || !report.Sound() {
		b.Errorf("%v, %v", report.Left(), err)
	}
}
