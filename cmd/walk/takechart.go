package main

import (
	"bytes"
	"encoding/csv"
	"encoding/xml"
	"errors"
	"fmt"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"strings"
)

// takeTheChart saves the trend as a picture, a drawing and figures, copies the figures,
// and holds what came of it against what the chart shows.
func (p *program) takeTheChart() {
	p.steps(
		p.keys("ctrl+6"), p.seeing("Wetter doughs went with higher scores"), p.settling(),
		// By keys alone.
		p.keys("g", "space"), p.seeing("Save as a picture (PNG)"), p.picture("chart-menu"),
		p.keys("Down", "Return"), p.seeing("Save the chart"), p.picture("save-picture"),
		p.keys("Return"), p.seeing("Saved as"), p.picture("saved"),
		// With the mouse, under another name.
		p.keys("g", "space"), p.pressing("Save as a drawing (SVG)"), p.seeing("Save the chart"),
		p.pressing("findings.svg"), p.keys("ctrl+a"), p.typing("trend.svg"), p.picture("save-drawing"), p.pressing("Save"),
		p.seeing("trend.svg"), p.missing("Save the chart"),
		p.keys("g", "space"), p.pressing("Save the figures (CSV)"), p.seeing("Save the chart"), p.keys("Return"),
		p.seeing("findings.csv"), p.missing("Save the chart"),
		p.keys("g", "space"), p.pressing("Copy the figures (CSV)"), p.missing("Copy the figures"),
	)
	p.checkPNG(filepath.Join(p.home, "findings.png"))
	p.checkSVG(filepath.Join(p.home, "trend.svg"))
	p.checkCSV(filepath.Join(p.home, "findings.csv"))
}

// checkPNG wants a picture large enough to print, with more on it than paper.
func (p *program) checkPNG(path string) {
	b := must(os.ReadFile(path))
	img, err := png.Decode(bytes.NewReader(b))
	if err != nil {
		panic(fmt.Errorf("%s is no picture: %w", path, err))
	}
	size := img.Bounds().Size()
	failIf(size.X < 1000 || size.Y < 600 || size.X > 4000 || size.Y > 4000, "the picture of the chart is %v", size)
	n := coloursIn(img, img.Bounds())
	failIf(n < 20, "the picture of the chart has but %d colours", n)
	check(os.WriteFile(filepath.Join(p.shots, "findings.png"), b, 0o644))
}

// checkSVG wants well-formed XML in which the axes are named and every bake has a mark.
func (p *program) checkSVG(path string) {
	b := must(os.ReadFile(path))
	names, words := map[string]int{}, []string{}
	for d := xml.NewDecoder(bytes.NewReader(b)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			break
		}
		if err != nil {
			panic(fmt.Errorf("%s is no drawing: %w", path, err))
		}
		switch token := token.(type) {
		case xml.StartElement:
			names[token.Name.Local]++
		case xml.CharData:
			words = append(words, string(token))
		}
	}
	said := strings.Join(words, " ")
	for _, want := range []string{"overall score", "hydration", "trend"} {
		failIf(names["svg"] != 1 || names["text"] < 8 || !strings.Contains(said, want), "the drawing of the chart has %v, and says %q", names, said)
	}
	check(os.WriteFile(filepath.Join(p.shots, "trend.svg"), b, 0o644))
}

// checkCSV wants a row for every bake, in the file and on the clipboard alike.
func (p *program) checkCSV(path string) {
	b := must(os.ReadFile(path))
	copied := p.copied()
	saved := strings.TrimPrefix(string(b), "\ufeff")
	failIf(saved == string(b), "the figures do not begin as a spreadsheet wants UTF-8 to begin")
	failIf(saved != copied, "saved %q, copied %q", saved, copied)
	rows, err := csv.NewReader(strings.NewReader(saved)).ReadAll()
	if err != nil {
		panic(fmt.Errorf("%s holds no table: %w", path, err))
	}
	points := 0
	for _, row := range rows[1:] {
		if row[2] == "bakes" {
			points++
		}
	}
	failIf(points != shelfBakes, "the figures have %d bakes, the chart %d", points, shelfBakes)
}
