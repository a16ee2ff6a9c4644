package photo_test

import (
	"bytes"
	"os"
	"path/filepath"
	"testing"

	"twinloaf/journal/photo"
	"twinloaf/journal/photo/phototest"
)

// BenchmarkAdd12MP adds a 12-megapixel JPEG that lies on its side: read, hash,
// decode, turn, two thumbnails, store and sync. Set TWINLOAF_BENCH_JPEG to a path to
// keep the picture, so that another program can be timed on the same file.
func BenchmarkAdd12MP(b *testing.B) {
	data := phototest.JPEG(phototest.Scene(4032, 3024), phototest.EXIF{Orientation: 6, Taken: "2026:03:14 07:05:00"})
	if path := os.Getenv("TWINLOAF_BENCH_JPEG"); path != "" {
		if err := os.WriteFile(path, data, 0o644); err != nil {
			b.Fatal(err)
		}
	}
	benchmarkAdd(b, "phone.jpg", data)
}

// BenchmarkAdd12MPHEIC is the same of a HEIC.
func BenchmarkAdd12MPHEIC(b *testing.B) {
	benchmarkAdd(b, "phone.heic", phototest.Sample(b, "phone.heic"))
}

func benchmarkAdd(b *testing.B, name string, data []byte) {
	source := filepath.Join(b.TempDir(), name)
	if err := os.WriteFile(source, data, 0o644); err != nil {
		b.Fatal(err)
	}
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		b.StopTimer()
		dir := b.TempDir()
		b.StartTimer()
		files, err := photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{})
		if err != nil {
			b.Fatal(err)
		}
		thumbs := photo.NewThumbs(files, filepath.Join(dir, "cache"), nil)
		if _, err := thumbs.AddFile(b.Context(), source); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkThumb looks at a thumbnail that is kept.
func BenchmarkThumb(b *testing.B) {
	_, thumbs, h := benchShelf(b)
	for b.Loop() {
		if _, err := thumbs.Get(b.Context(), h, photo.Medium); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOpenLarge decodes a stored 12-megapixel photo to fill a window.
func BenchmarkOpenLarge(b *testing.B) {
	files, _, h := benchShelf(b)
	for b.Loop() {
		if _, err := files.DecodeUpright(b.Context(), h, 2400); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkOpenFull decodes it to its full size.
func BenchmarkOpenFull(b *testing.B) {
	files, _, h := benchShelf(b)
	for b.Loop() {
		if _, err := files.DecodeUpright(b.Context(), h, 0); err != nil {
			b.Fatal(err)
		}
	}
}

func benchShelf(b *testing.B) (*photo.Files, *photo.Thumbs, photo.Hash) {
	b.Helper()
	dir := b.TempDir()
	files, err := photo.OpenFiles(filepath.Join(dir, "photos"), photo.Options{})
	if err != nil {
		b.Fatal(err)
	}
	thumbs := photo.NewThumbs(files, filepath.Join(dir, "cache"), nil)
	data := phototest.JPEG(phototest.Scene(4032, 3024), phototest.EXIF{Orientation: 6})
	added, err := thumbs.Add(b.Context(), "phone.jpg", bytes.NewReader(data))
	if err != nil {
		b.Fatal(err)
	}
	return files, thumbs, added.Hash
}
