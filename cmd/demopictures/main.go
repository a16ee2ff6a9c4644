// Demopictures draws the photos of the demonstration journal, which the program
// carries as JPEG:
//
//	go run ./cmd/demopictures
//
// Loaves, doughs and jars are drawn by package scene, cut faces by
// journal/crumb/phantom. The same program draws the same pictures.
package main

import (
	"bytes"
	"context"
	"encoding/json"
	"flag"
	"fmt"
	"image"
	"image/jpeg"
	"os"
	"path/filepath"

	"twinloaf/assets/demo/plates"
	"twinloaf/cmd/demopictures/scene"
)

func main() {
	dir := flag.String("into", "assets/demo/plates", "the `folder` that the pictures go to")
	flag.Parse()
	if err := draw(context.Background(), *dir, wanted()); err != nil {
		fmt.Fprintln(os.Stderr, "demopictures:", err)
		os.Exit(1)
	}
}

// draw draws every plate into a folder, and the list of them.
func draw(ctx context.Context, dir string, all []picture) error {
	painter := scene.NewPainter()
	var list []plates.Plate
	for _, p := range all {
		img, plate, err := p.draw(ctx, painter)
		if err != nil {
			return fmt.Errorf("drawing %s: %w", p.File, err)
		}
		var buf bytes.Buffer
		if err := jpeg.Encode(&buf, img, &jpeg.Options{Quality: p.quality}); err != nil {
			return fmt.Errorf("writing %s: %w", p.File, err)
		}
		if err := os.WriteFile(filepath.Join(dir, plate.File), buf.Bytes(), 0o644); err != nil {
			return err
		}
		list = append(list, plate)
	}
	text, err := json.MarshalIndent(list, "", "\t")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, plates.Index), append(text, '\n'), 0o644)
}

// A picture is a plate that can be drawn.
type picture struct {
	plates.Plate
	quality int // of its JPEG
	paint   func(context.Context, *scene.Painter, *plates.Plate) (image.Image, error)
}

func (p picture) draw(ctx context.Context, painter *scene.Painter) (image.Image, plates.Plate, error) {
	plate := p.Plate
	img, err := p.paint(ctx, painter, &plate)
	if err == nil {
		plate.Pixels = [2]int{img.Bounds().Dx(), img.Bounds().Dy()}
	}
	return img, plate, err
}
