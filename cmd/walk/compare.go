package main

import (
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
func compareTours(before, after string) {
	was := picturesIn(before)
	is := picturesIn(after)
	same := 0
	for _, name := range slices.Sorted(maps.Keys(was)) {
		if is[name] == "" {
			fmt.Printf("gone     %s\n", name)
			continue
		}
		if n, where := differing(was[name], is[name]); n == 0 {
			same++
		} else {
			fmt.Printf("%8d %s, within %v\n", n, name, where)
		}
	}
	for _, name := range slices.Sorted(maps.Keys(is)) {
		if was[name] == "" {
			fmt.Printf("new      %s\n", name)
		}
	}
	fmt.Printf("%d of %d pictures are the same to the pixel\n", same, len(was))
}

// picturesIn finds the pictures of a folder, by what follows the number in their names.
func picturesIn(dir string) map[string]string {
	paths := must(filepath.Glob(filepath.Join(dir, "*.png")))
	failIf(len(paths) == 0, "no pictures are in %s", dir)
	found := map[string]string{}
	for _, path := range paths {
		_, name, _ := strings.Cut(filepath.Base(path), "-")
		found[name] = path
	}
	return found
}

// differing counts the pixels that differ in two pictures, and tells where they are. Of
// another size, all do.
func differing(a, b string) (n int, where image.Rectangle) {
	before := readPNG(a)
	after := readPNG(b)
	r := before.Bounds()
	if r != after.Bounds() {
		return r.Dx() * r.Dy(), r
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
	return n, where
}

func readPNG(path string) image.Image {
	f := must(os.Open(path))
	defer f.Close()
	img, err := png.Decode(f)
	if err != nil {
		panic(fmt.Errorf("reading %s: %w", path, err))
	}
	return img
}
