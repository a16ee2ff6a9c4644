package jartest

import (
	"fmt"
	"image"
	"os"
	"path/filepath"
	"time"

	"twinloaf/journal/jar"
	"twinloaf/journal/photo/phototest"
)

// A Folder is how a series is written as files: as a phone would whose clock is ahead of the
// true time, each of its pixels so many pixels wide and high; 0 is one.
type Folder struct {
	Dir   string
	Ahead time.Duration
	Scale int
}

// Write writes the pictures of scenes that stand side by side, as many as the first has. It
// gives their paths.
func (f Folder) Write(scenes ...*Scene) ([]string, error) {
	if err := os.MkdirAll(f.Dir, 0o700); err != nil {
		return nil, err
	}
	var paths []string
	for i := range scenes[0].Frames {
		path := filepath.Join(f.Dir, fmt.Sprintf("IMG_%04d.jpg", 4100+i))
		taken := scenes[0].At(i).Add(f.Ahead).Format("2006:01:02 15:04:05")
		img := enlarged(Beside(i, scenes...), max(1, f.Scale))
		if err := os.WriteFile(path, phototest.JPEG(img, phototest.EXIF{Taken: taken}), 0o600); err != nil {
			return nil, err
		}
		paths = append(paths, path)
	}
	return paths, nil
}

// Beside is picture i of scenes that stand side by side.
func Beside(i int, scenes ...*Scene) *image.RGBA {
	all := image.NewRGBA(image.Rect(0, 0, len(scenes)*Width, Height))
	for k, s := range scenes {
		one := s.Picture(i)
		for y := range Height {
			copy(all.Pix[all.PixOffset(k*Width, y):], one.Pix[y*one.Stride:y*one.Stride+4*Width])
		}
	}
	return all
}

// MarksBeside are where the jar of scene k of n is in pictures of scenes side by side.
func (s *Scene) MarksBeside(k, n int) jar.Marks {
	m := s.Marks()
	m.Left, m.Right = (float64(k)+m.Left)/float64(n), (float64(k)+m.Right)/float64(n)
	return m
}

// enlarged makes each pixel a square of so many.
func enlarged(img *image.RGBA, by int) *image.RGBA {
	if by == 1 {
		return img
	}
	out := image.NewRGBA(image.Rect(0, 0, by*img.Rect.Dx(), by*img.Rect.Dy()))
	for y := range out.Rect.Dy() {
		row := out.Pix[y*out.Stride:]
		for x := range out.Rect.Dx() {
			copy(row[4*x:4*x+4], img.Pix[img.PixOffset(x/by, y/by):])
		}
	}
	return out
}
