package demo

import (
	"crypto/sha256"
	"os"
	"path/filepath"

	"twinloaf/assets/demo/plates"
	"twinloaf/journal"
	"twinloaf/journal/photo"
)

// develop puts the photo of every shot among the originals of the journal in dir, dated
// as it is in the story, and writes its record. The journal is thrown away in the end,
// so nothing waits for the disk, and our own pictures are not looked at once more.
func (s *story) develop(dir string) error {
	return s.write("photos", func() {
		for i := range s.wanted {
			sh := &s.wanted[i]
			rec, err := sh.develop(filepath.Join(dir, "photos"))
			if err != nil {
				s.fail(err)
				return
			}
			put(s, sh.at, rec)
		}
	})
}

func (sh *shot) develop(dir string) (*journal.Photo, error) {
	jpg, err := sh.plate.JPEG()
	if err != nil {
		return nil, err
	}
	jpg = photo.Dated(jpg, sh.at)
	hash := photo.Hash(sha256.Sum256(jpg)).String()
	shard := filepath.Join(dir, hash[:2])
	if err := os.MkdirAll(shard, 0o755); err != nil {
		return nil, err
	}
	if err := os.WriteFile(filepath.Join(shard, hash+photo.JPEG.Ext()), jpg, 0o644); err != nil {
		return nil, err
	}
	rec := &journal.Photo{
		Head: journal.Head{ID: sh.id}, Owner: sh.owner, Role: sh.plate.Role, Caption: sh.caption,
		Hash: hash, Bytes: int64(len(jpg)), Format: photo.JPEG.String(), Width: sh.plate.Pixels[0], Height: sh.plate.Pixels[1],
		Taken: sh.at, Added: sh.at, Name: sh.at.Format("20060102_150405") + ".jpg",
	}
	if w := sh.plate.Width; sh.scaled && w != nil {
		rec.Slice = sliceOf(*w)
		rec.Slice.Same = sh.same
	}
	return rec, nil
}

func sliceOf(w plates.Width) *journal.Slice {
	return &journal.Slice{From: journal.Spot{X: w.From, Y: w.Row}, To: journal.Spot{X: w.To, Y: w.Row}, LengthMM: w.MM}
}
