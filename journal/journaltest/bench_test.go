package journaltest_test

import (
	"bytes"
	"context"
	"fmt"
	"io"
	"os"
	"sync"
	"testing"

	"twinloaf/journal"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/photo/phototest"
)

// large makes the journal of 10,000 bakes and 40,000 photos that the benchmarks
// of one run share.
var large = sync.OnceValues(func() (string, error) {
	dir, err := os.MkdirTemp("", "twinloaf-bench-")
	if err != nil {
		return "", err
	}
	return dir, journaltest.Generate(context.Background(), dir, journaltest.Spec{Bakes: 10000, Photos: 40000, Seed: 1})
})

func TestMain(m *testing.M) {
	code := m.Run()
	if made {
		if dir, _ := large(); dir != "" {
			_ = os.RemoveAll(dir)
		}
	}
	os.Exit(code)
}

// made says that a benchmark has asked for the large journal.
var made bool

func largeDir(b *testing.B) string {
	b.Helper()
	made = true
	dir, err := large()
	if err != nil {
		b.Fatal(err)
	}
	return dir
}

func open(b *testing.B, dir string) *journal.Journal {
	b.Helper()
	j, err := journal.Open(b.Context(), dir, journal.Options{})
	if err != nil {
		b.Fatal(err)
	}
	return j
}

// Opening a journal of 10,000 bakes and 40,000 photos, up to the shelf's summaries.
// The look at the file that comes before is part of it.
func BenchmarkOpen10000(b *testing.B) {
	dir := largeDir(b)
	b.ReportAllocs()
	for b.Loop() {
		j := open(b, dir)
		summaries, err := j.BakeSummaries()
		if err != nil || len(summaries) != 10000 {
			b.Fatalf("%d summaries, %v", len(summaries), err)
		}
		if err := j.Close(); err != nil {
			b.Fatal(err)
		}
	}
}

// One edit of a field of a bake among 10,000, from the key typed to the disk.
func BenchmarkCommitOneEdit(b *testing.B) {
	j := open(b, largeDir(b))
	defer j.Close()
	summaries, err := j.BakeSummaries()
	if err != nil {
		b.Fatal(err)
	}
	i := 0
	b.ReportAllocs()
	for b.Loop() {
		i++
		words := fmt.Sprintf("note %d", i)
		if err := journal.Edit(j, summaries[i%len(summaries)].ID, "notes", func(bake *journal.Bake) { bake.Notes = words }); err != nil {
			b.Fatal(err)
		}
		if err := j.Flush(); err != nil {
			b.Fatal(err)
		}
	}
}

// A 12-megapixel JPEG, orientation 6: read, decoded, turned upright, stored,
// its thumbnails made, its record committed. Each time other bytes.
func BenchmarkAdd12MP(b *testing.B) {
	j, _ := journaltest.Open(b, journal.Options{})
	bake := &journal.Bake{Name: "Ferry loaf", At: j.Now()}
	if err := j.Do("new bake", func(tx *journal.Tx) error { return journal.Put(tx, bake) }); err != nil {
		b.Fatal(err)
	}
	pixels := phototest.JPEG(phototest.Scene(4032, 3024), phototest.EXIF{})
	i := 0
	b.SetBytes(int64(len(pixels)))
	b.ReportAllocs()
	for b.Loop() {
		i++
		taken := fmt.Sprintf("2026:03:%02d 07:%02d:%02d", 1+i/3600%28, i/60%60, i%60)
		file := phototest.WithEXIF(pixels, phototest.EXIF{Orientation: 6, Taken: taken}.Block())
		picture := journal.Picture{Name: "12mp.jpg", Open: func() (io.ReadCloser, error) { return io.NopCloser(bytes.NewReader(file)), nil }}
		added, refused, err := j.AddPictures(b.Context(), "photo", journal.RefOf(bake), journal.RoleCrumb, []journal.Picture{picture}, nil)
		if err != nil || len(added) != 1 {
			b.Fatal(refused, err)
		}
	}
}
