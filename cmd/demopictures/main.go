// Demopictures draws the photos of the demonstration journal, which the program
// carries as JPEG:
//
//	go run ./cmd/demopictures
//
// Loaves, doughs and jars are drawn by package scene. Cut faces are
// traced by package cut, which needs POV-Ray (Debian's package povray) and half a minute
// for each. The same program draws the same pictures.
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
	"strings"

	"twinloaf/assets/demo/plates"
	"twinloaf/cmd/demopictures/cut"
	"twinloaf/cmd/demopictures/scene"
)

func main() {
	dir := flag.String("into", "assets/demo/plates", "the `folder` that the pictures go to")
	only := flag.String("only", "", "of what is there already, draw only those whose file's name holds this, and leave the others as they are")
	flag.Parse()
	if err := draw(context.Background(), *dir, wanted(), *only); err != nil {
		fmt.Fprintln(os.Stderr, "demopictures:", err)
		os.Exit(1)
	}
}

// draw draws plates into a folder, and lists them all. With only, those that the folder lists
// already and whose names do not hold it are left as they are, and so is what is listed of them.
func draw(ctx context.Context, dir string, all []picture, only string) error {
	painter := scene.NewPainter()
	listed, err := list(dir, only)
	if err != nil {
		return err
	}
	var out []plates.Plate
	for _, p := range all {
		if old, ok := listed[p.File]; ok && !strings.Contains(p.File, only) {
			out = append(out, old)
			continue
		}
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
		out = append(out, plate)
	}
	text, err := json.MarshalIndent(out, "", "\t")
	if err != nil {
		return err
	}
	return os.WriteFile(filepath.Join(dir, plates.Index), append(text, '\n'), 0o644)
}

// list reads what a folder holds, if only some of it are to be drawn anew.
func list(dir, only string) (map[string]plates.Plate, error) {
	if only == "" {
		return nil, nil
	}
	text, err := os.ReadFile(filepath.Join(dir, plates.Index))
	if err != nil {
		return nil, err
	}
	var all []plates.Plate
	if err := json.Unmarshal(text, &all); err != nil {
		return nil, fmt.Errorf("reading the list of pictures: %w", err)
	}
	listed := map[string]plates.Plate{}
	for _, p := range all {
		listed[p.File] = p
	}
	return listed, nil
}

// A picture is a plate that can be drawn.
type picture struct {
	plates.Plate
	quality int        // of its JPEG
	slice   *cut.Slice // that is traced, of those that are
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
