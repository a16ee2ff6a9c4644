package main

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"image/jpeg"
	"io"
	"math"
	"strings"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/formula"
)

// shelfBakes is how many finished bakes the walk along the shelf finds.
const shelfBakes = 30

// shelfNow is the day of that walk.
var shelfNow = time.Date(2026, 3, 4, 8, 54, 0, 0, time.Local)

// fillShelf writes a winter of bakes into a new journal: spelt in five shares, wetter
// doughs with better scores, photos of a few crumbs, and beside them one bake that
// is only planned and one in the bin, both with spelt.
func fillShelf(folder string) {
	ctx := context.Background()
	j := must(journal.Open(ctx, folder, journal.Options{Clock: func() time.Time { return shelfNow }}))
	defer func() { check(j.Close()) }()
	culture := &journal.Culture{Name: "Harbour", Born: shelfNow.AddDate(-1, 0, 0)}
	var bakes []*journal.Bake
	for i := range shelfBakes {
		bakes = append(bakes, shelfBake(i))
	}
	planned, thrown := shelfBake(3), shelfBake(4)
	planned.Name, planned.State, planned.At = "Still to come", journal.Planned, shelfNow.AddDate(0, 0, 2)
	planned.Outcome = journal.Outcome{}
	thrown.Name = "Thrown away"
	check(j.Do("filling the shelf", func(tx *journal.Tx) error {
		if err := journal.Put(tx, culture); err != nil {
			return err
		}
		for _, b := range append(bakes, planned, thrown) {
			b.Culture = culture.ID
			if err := journal.Put(tx, b); err != nil {
				return err
			}
		}
		return journal.MoveToBin[journal.Bake](tx, thrown.ID)
	}))
	for i, b := range bakes[:8] {
		addCrumb(ctx, j, b, i)
	}
}

// shelfBake is the bake that is i-th from the newest.
func shelfBake(i int) *journal.Bake {
	const flour = 500
	spelt := formula.Grams([]float64{0, 5, 10, 20, 35}[i%5] * flour / 100)
	rye := formula.Grams(i%3) * 25
	hydration := 64 + float64(i*7%13)
	score := int(math.Round(3.5 + (hydration-64)*0.3 + float64(i*5%4)*0.5))
	line := func(name string, role formula.Role, g formula.Grams) journal.Ingredient {
		return journal.Ingredient{ID: journal.ID("line " + name), Name: name, Role: role, Grams: g}
	}
	b := &journal.Bake{
		Name: fmt.Sprintf("Loaf %d", shelfBakes-i), State: journal.Finished, Loaves: 1,
		At: shelfNow.AddDate(0, 0, -1-6*i),
		Ingredients: []journal.Ingredient{
			line("Strong white", formula.Flour, flour-spelt-rye),
			line("Water", formula.Water, formula.Grams(hydration*flour/100)),
			line("Salt", formula.Salt, 10),
		},
		Outcome: journal.Outcome{Scores: []journal.AttributeScore{{Attribute: journal.Overall, Score: score}}},
	}
	if spelt > 0 {
		name := "Spelt"
		if i%10 == 8 {
			name = "spelt" // as it is written in haste: the same flour
		}
		b.Ingredients = append(b.Ingredients, line(name, formula.Flour, spelt))
	}
	if rye > 0 {
		b.Ingredients = append(b.Ingredients, line("Dark rye", formula.Flour, rye))
	}
	return b
}

// addCrumb adds a drawn slice to a bake.
func addCrumb(ctx context.Context, j *journal.Journal, b *journal.Bake, i int) {
	slice := must(phantom.Draw(ctx, phantom.Slice{
		Seed: uint64(i + 1), Width: 640, Height: 480, Shape: phantom.Shape(i % 2), Tone: phantom.Tone(i % 2), Ground: phantom.Ground(i % 4),
		Cells: phantom.Cells{MedianMM: 1 + 0.2*float64(i)},
	}))
	var file bytes.Buffer
	check(jpeg.Encode(&file, slice.Photo, nil))
	picture := journal.Picture{
		Name: fmt.Sprintf("crumb-%d.jpg", i),
		Open: func() (io.ReadCloser, error) { return io.NopCloser(&file), nil },
	}
	_, refused, err := j.AddPictures(ctx, "adding a photo", journal.RefOf(b), journal.RoleCrumb, []journal.Picture{picture}, nil)
	check(errors.Join(append(refused, err)...))
}

// countSpelt counts the bakes on the shelf with at least so many percent of spelt,
// by nothing but their lines.
func countSpelt(folder string, least float64) (n int) {
	bakes := records[journal.Bake](folder)
	for _, b := range bakes {
		var spelt, flour float64
		for _, in := range b.Ingredients {
			if in.Role != formula.Flour {
				continue
			}
			flour += float64(in.Grams)
			if strings.EqualFold(in.Name, "spelt") {
				spelt += float64(in.Grams)
			}
		}
		if b.State != journal.Planned && 100*spelt >= least*flour {
			n++
		}
	}
	return n
}
