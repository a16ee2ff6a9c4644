package jartest

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"twinloaf/journal/photo/phototest"
)

// WriteFolder writes the pictures of a series into a folder, as a phone would whose clock is
// ahead of the true time. It gives their paths.
func (s *Scene) WriteFolder(dir string, ahead time.Duration) ([]string, error) {
	if err := os.MkdirAll(dir, 0o700); err != nil {
		return nil, err
	}
	var paths []string
	for i := range s.Frames {
		path := filepath.Join(dir, fmt.Sprintf("IMG_%04d.jpg", 4100+i))
		taken := s.At(i).Add(ahead).Format("2006:01:02 15:04:05")
		if err := os.WriteFile(path, phototest.JPEG(s.Picture(i), phototest.EXIF{Taken: taken}), 0o600); err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}
