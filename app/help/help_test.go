package help

import (
	"fmt"
	"maps"
	"math"
	"runtime/debug"
	"slices"
	"strconv"
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/licences"
	"twinloaf/assets/words"
	"twinloaf/journal/blind"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
	"twinloaf/journal/measure"
)

// longest is how many letters a line of the help has at most.
const longest = 70

func TestLinesAreShortAndNothingIsSaidTwice(t *testing.T) {
	for _, l := range words.Languages() {
		t.Run(l.Name, func(t *testing.T) {
			if err := words.Speak(l.Tag); err != nil {
				t.Fatal(err)
			}
			t.Cleanup(func() {
				if err := words.Speak("en"); err != nil {
					t.Error(err)
				}
			})
			b := pagestest.New(t)
			p := newPage(b.Env)
			b.Window.SetContent(kit.NewFrame(b.Main, p.Object()))
			b.Window.Resize(fyne.NewSize(1280, 800))
			for _, text := range outline.Texts(outline.Of(b.Window)) {
				if n := utf8.RuneCountInString(strings.TrimSpace(text)); n > longest {
					t.Errorf("a line of %d letters: %q", n, text)
				}
			}
			seen := map[string]bool{}
			for _, c := range chapters(b.Units()) {
				for _, s := range append([]string{c.title}, c.sentences...) {
					if seen[s] {
						t.Errorf("it is said twice: %q", s)
					}
					seen[s] = true
				}
			}
		})
	}
}

// Everything that the computing rooms define stands with its source, and so does every
// figure of the window besides.
func TestEveryFigureSaysWhatItRestsOn(t *testing.T) {
	var all strings.Builder
	for _, p := range grounds(measure.Units{}) {
		for _, g := range p.grounds {
			all.WriteString(g.figure + ": " + g.how + " (" + g.source + ")\n")
			if g.figure == "" || g.how == "" {
				t.Errorf("%s: %+v", p.title, g)
			}
		}
	}
	for _, f := range []formula.Metric{formula.FigurePercent, formula.FigureHydration, formula.FigureSalt, formula.FigurePrefermented, formula.FigureInoculation, formula.FigureLoss} {
		if d := formula.Define(f); !strings.Contains(all.String(), d.What) || !strings.Contains(all.String(), d.Usual) || !strings.Contains(all.String(), d.Source) {
			t.Errorf("of %s it is not said all", d.Name)
		}
	}
	for _, want := range []string{"Zwietering", "Salvadó", "Gänzle", "Hoeting", "Laird", "ISO 4120", "ISO 10399", "ISO 5495", "Benjamini", "EU 1169/2011", "3 feedings in a row that reach 2", "within 8 hours", "7 days old"} {
		if !strings.Contains(all.String(), want) {
			t.Errorf("%q is nowhere said", want)
		}
	}
}

// What the help says in figures is what the program reckons with.
func TestTheHelpCountsAsTheProgramDoes(t *testing.T) {
	said := map[string]string{}
	for _, p := range grounds(measure.Units{}) {
		for _, g := range p.grounds {
			said[g.figure] = g.how
		}
	}
	says := func(figure, words string) {
		t.Helper()
		if !strings.Contains(said[figure], words) {
			t.Errorf("of %q it is not said that %q: %q", figure, words, said[figure])
		}
	}
	says("Water temperature", fmt.Sprintf("flour %v, water %v kJ/(kg K)", formula.HeatOfFlour, formula.HeatOfWater))
	a := ferment.UsualAssumptions()
	for _, c := range []struct {
		dilution, hours float64
		words           string
	}{{3, 4.5, "1:1:1 peaks in about 4½ hours"}, {11, 9, "1:5:5 in 9"}, {21, 11, "1:10:10 in 11"}} {
		if got := math.Round(2*a.PeakHours(c.dilution)) / 2; got != c.hours {
			t.Errorf("diluted %v times it is taken to peak in %v h", c.dilution, got)
		}
		says("Before anything is known", c.words)
	}
	for m, words := range map[blind.Method]string{blind.Triangle: "1/3 in a triangle", blind.DuoTrio: "1/2 in a duo-trio or paired", blind.Tetrad: "1/3 in a tetrad or a 3-AFC", blind.TwoOutOfFive: "1/10 in two out of five"} {
		says("p", words)
		of, ok := strings.CutPrefix(strings.Fields(words)[0], "1/")
		if n, err := strconv.ParseFloat(of, 64); !ok || err != nil || math.Abs(m.Chance()-1/n) > 1e-12 {
			t.Errorf("%s is right by chance in %v", m, m.Chance())
		}
	}
	for pH, words := range map[float64]string{3.6: "3.89 mature, 3.55 after a day at 30 °C", 5: "4.26 four hours after mixing"} {
		says("Sour", words)
		for _, figure := range strings.Fields(words)[:1] {
			if judged := (measure.Units{}).Say(ferment.AcidityWords(pH)); !strings.Contains(judged, figure) {
				t.Errorf("a pH of %v is judged otherwise than by %s: %q", pH, figure, judged)
			}
		}
	}
}

// Each page of the window has a part of the help.
func TestEveryPageHasItsHelp(t *testing.T) {
	for _, name := range []string{pages.Today, pages.Cultures, pages.Culture, pages.Feeding, pages.History, pages.Bakes, pages.Bake, pages.BakeDay, pages.Formulas, pages.Formula,
		pages.Tastings, pages.Trial, pages.Tasting, pages.Shelf, pages.Flour, pages.Compare, pages.Findings, pages.Photo, pages.Crumb, pages.Bin, pages.Settings, pages.Safekeeping, pages.BringIn, pages.Help, pages.About} {
		if len(For(name)) == 0 {
			t.Errorf("there is no help on the page %s", name)
		}
	}
}

func TestVersion(t *testing.T) {
	info := &debug.BuildInfo{Settings: []debug.BuildSetting{{Key: "vcs.revision", Value: "0123456789abcdef"}, {Key: "vcs.modified", Value: "true"}}}
	for _, c := range []struct {
		release string
		info    *debug.BuildInfo
		want    string
	}{
		{"0.1.0", nil, "0.1.0"},
		{"", info, "source 0123456789ab, changed since"},
		{"0.1.0", &debug.BuildInfo{}, "0.1.0"},
		{"", nil, ""},
	} {
		if got := version(c.release, c.info); got != c.want {
			t.Errorf("the version is %q, want %q", got, c.want)
		}
	}
}

// Every part that the program carries is named with its licence, and its text can be read.
func TestAboutNamesEveryPart(t *testing.T) {
	b := pagestest.New(t)
	p, err := newAbout(b.Env)
	if err != nil {
		t.Fatal(err)
	}
	b.Window.SetContent(kit.NewFrame(b.Main, p.Object()))
	shown := strings.Join(outline.Texts(outline.Of(b.Window)), "\n")
	list, err := licences.Read()
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range list.Parts {
		if !strings.Contains(shown, part.Name) || !strings.Contains(shown, part.Licence) {
			t.Errorf("%s (%s) is not named", part.Name, part.Licence)
		}
	}
	if !strings.Contains(shown, lang.L("Twinloaf itself has been given no licence. The parts below are made by others, each under its own; choose one to read it.")[:30]) {
		t.Error("it is not said that there is no licence")
	}
	p.(*about).read(list.Parts[0], list.Of(list.Parts[0]))
	if read := strings.Join(outline.Texts(outline.Of(b.Window)), " "); !strings.Contains(read, "Redistribution and use in source") {
		t.Errorf("the licence of Go is not shown")
	}
}

// The columns of each half of the help end at about the same height, in windows of any width.
func TestColumnsEndAlike(t *testing.T) {
	for _, l := range words.Languages() {
		if err := words.Speak(l.Tag); err != nil {
			t.Fatal(err)
		}
		t.Cleanup(func() {
			if err := words.Speak("en"); err != nil {
				t.Error(err)
			}
		})
		b := pagestest.New(t)
		b.Window.SetContent(kit.NewFrame(b.Main, newPage(b.Env).Object()))
		for width, columns := range map[float32]int{900: 2, 1120: 2, 1280: 3, 1600: 4} {
			b.Window.Resize(fyne.NewSize(width, 800))
			halves := 0
			pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
				box, ok := o.(*fyne.Container)
				if !ok {
					return
				}
				if _, ok := box.Layout.(*evenColumns); !ok {
					return
				}
				halves++
				ends := map[float32]float32{}
				for _, part := range box.Objects {
					x := part.Position().X
					ends[x] = max(ends[x], part.Position().Y+part.MinSize().Height)
				}
				heights := slices.Sorted(maps.Values(ends))
				whole := float32(0)
				for _, h := range heights {
					whole += h
				}
				if n := len(heights); n > columns || n < 2 || heights[n-1] > 1.3*whole/float32(n) {
					t.Errorf("in %s, %v wide, the columns are %v high", l.Name, width, heights)
				}
			})
			if halves != 2 {
				t.Errorf("in %s columns stand in %d places", l.Name, halves)
			}
		}
	}
}

// A licence is read in its paragraphs; of the breaks within one those are kept that were meant.
func TestALicenceKeepsItsParagraphs(t *testing.T) {
	wrapped := "Copyright (c) 2026 Somebody\nAll rights reserved.\n\nRedistribution and use in source and binary forms, with or without modification,\nare permitted provided that the following conditions\nare met:\n  1. Redistributions of source code must retain the above copyright notice, this\n     list of conditions.\n  2. Neither the name.\r\n"
	want := "Copyright (c) 2026 Somebody\nAll rights reserved.\n\nRedistribution and use in source and binary forms, with or without modification, are permitted provided that the following conditions\nare met:\n1. Redistributions of source code must retain the above copyright notice, this list of conditions.\n2. Neither the name."
	if got := unwrapped(wrapped); got != want {
		t.Errorf("it reads\n%s", got)
	}
}
