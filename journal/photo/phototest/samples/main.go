// Command samples draws the pictures that testdata/photo is made from. Its README
// there has the commands.
//
//	samples draw DIR          writes the drawn sources as JPEG and PNG
//	samples turn IN OUT TURNS gives a HEIC a rotation property
package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strconv"

	"twinloaf/journal/photo/phototest"
)

func main() {
	if err := run(os.Args[1:]); err != nil {
		fmt.Fprintln(os.Stderr, "samples:", err)
		os.Exit(1)
	}
}

func run(args []string) error {
	switch {
	case len(args) == 2 && args[0] == "draw":
		return draw(args[1])
	case len(args) == 4 && args[0] == "turn":
		return turn(args[1], args[2], args[3])
	}
	return fmt.Errorf("want: draw DIR, or turn IN OUT TURNS")
}

func draw(dir string) error {
	const taken, offset = "2026:03:14 07:05:00", "+02:00"
	small, phone := phototest.Scene(320, 240), phototest.Scene(4032, 3024)
	for name, data := range map[string][]byte{
		"upright.jpg": phototest.JPEG(small, phototest.EXIF{Orientation: 1, Taken: taken, Offset: offset}),
		"phone.jpg":   phototest.JPEG(phone, phototest.EXIF{Orientation: 6, Taken: taken, Offset: offset}),
		"scene.png":   phototest.PNG(small),
		"exif.bin":    phototest.EXIF{Orientation: 6, Taken: taken, Offset: offset}.Block(),
	} {
		if err := os.WriteFile(filepath.Join(dir, name), data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

func turn(in, out, turns string) error {
	n, err := strconv.Atoi(turns)
	if err != nil {
		return fmt.Errorf("turns: %w", err)
	}
	data, err := os.ReadFile(in)
	if err != nil {
		return err
	}
	return os.WriteFile(out, phototest.TurnedHEIC(data, n), 0o644)
}
