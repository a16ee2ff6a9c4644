package main

import (
	"errors"
	"fmt"
	"image"
	"image/png"
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
)

// compareTours tells which pictures of two tours differ, and by how many pixels. A picture
// goes by its name without the number in front, since a stop more moves the numbers.
func compareTours(before, after string) error {
	was, err := picturesIn(before)
	if err != nil {
		return err
	}
	is, err := picturesIn(after)
	if err != nil {
		return err
	}
	same := 0
	for _, name := range slices.Sorted(maps.Keys(was)) {
		if is[name] == "" {
			fmt.Printf("gone     %s\n", name)
			continue
		}
		n, where, err := differing(was[name], is[name])
		switch {
		case err != nil:
			return err
		case n == 0:
			same++
		default:
			fmt.Printf("%8d %s, within %v\n", n, name, where)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(is)) {
		if was[name] == "" {
			fmt.Printf("new      %s\n", name)
		}
	}
	fmt.Printf("%d of %d pictures are the same to the pixel\n", same, len(was))
	return nil
}

// picturesIn finds the pictures of a folder, by what follows the number in their names.
func picturesIn(dir string) (map[string]string, error) {
	paths, err := filepath.Glob(filepath.Join(dir, "*.png"))
	if err != nil || len(paths) == 0 {
		return nil, errors.Join(fmt.Errorf("no pictures are in %s", dir), err)
	}
	found := map[string]string{}
	for _, path := range paths {
		_, name, _ := strings.Cut(filepath.Base(path), "-")
		found[name] = path
	}
	return found, nil
}

// differing counts the pixels that differ in two pictures, and tells where they are. Of
// another size, all do.
func differing(a, b string) (n int, where image.Rectangle, err error) {
	before, err := readPNG(a)
	if err != nil {
		return 0, where, err
	}
	after, err := readPNG(b)
	if err != nil {
		return 0, where, err
	}
	r := before.Bounds()
	if r != after.Bounds() {
		return r.Dx() * r.Dy(), r, nil
	}
	for y := r.Min.Y; y < r.Max.Y; y++ {
		for x := r.Min.X; x < r.Max.X; x++ {
			r1, g1, b1, _ := before.At(x, y).RGBA()
			r2, g2, b2, _ := after.At(x, y).RGBA()
			if r1 != r2 || g1 != g2 || b1 != b2 {
				n++
				where = where.Union(image.Rect(x, y, x+1, y+1))
			}
		}
	}
	return n, where, nil
}

func readPNG(path string) (image.Image, error) {
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		return nil, fmt.Errorf("reading %s: %w", path, err)
	}
	return img, nil
}
