package kit_test

import (
	"strings"
	"testing"
	"unicode/utf8"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
)

// lines gives what a text shows, row by row.
func lines(t *kit.Text) []string {
	var out []string
	last := float32(-1)
	for _, o := range test.WidgetRenderer(t).Objects() {
		c := o.(*canvas.Text)
		if len(out) == 0 || c.Position().Y > last+4 {
			out = append(out, "")
		}
		last = c.Position().Y
		out[len(out)-1] += c.Text
	}
	for i := range out {
		out[i] = strings.TrimSpace(out[i])
	}
	return out
}

func TestTextWrapsAtItsWidth(t *testing.T) {
	text := kit.Body("Feed again by six, or it will be past its best")
	text.Resize(fyne.NewSize(1000, 100))
	if got := lines(text); len(got) != 1 {
		t.Errorf("with room to spare it takes %d lines: %q", len(got), got)
	}
	one := text.MinSize().Height
	text.Resize(fyne.NewSize(140, 100))
	got := lines(text)
	if len(got) < 2 || strings.Join(got, " ") != text.String() {
		t.Errorf("in 140 points it shows %q", got)
	}
	if text.MinSize().Height < one*1.9 {
		t.Errorf("its height went from %v to %v only", one, text.MinSize().Height)
	}
	for _, o := range test.WidgetRenderer(text).Objects() {
		c := o.(*canvas.Text)
		trimmed := *c
		trimmed.Text = strings.TrimRight(c.Text, " ")
		if c.Position().X+trimmed.MinSize().Width > 140 {
			t.Errorf("%q reaches beyond the width", c.Text)
		}
	}
}

func TestTextKeepsAFigureBesideItsPerCentSignAndAYearBesideItsMonth(t *testing.T) {
	text := kit.Body("The limits are 0 % to 56 %, since 4 Apr 2025.")
	for width := float32(60); width < 240; width += 4 {
		text.Resize(fyne.NewSize(width, 100))
		for _, line := range lines(text) {
			if strings.HasPrefix(line, "%") || strings.HasPrefix(line, "2025") {
				t.Errorf("in %v points it shows %q", width, lines(text))
			}
		}
	}
}

// The last word of a text does not stand on a line of its own where another has room beside it,
// and the lines of a heading are about as long as one another.
func TestTextLeavesNoWordAlone(t *testing.T) {
	text, heading := kit.Body("Picture 1 of 24, 2 March 08:00: within 0.02, or about so"), kit.Heading("Perhaps 59 per cent of it is open, with 13 cells a square")
	for width := float32(150); width < 420; width += 3 {
		text.Resize(fyne.NewSize(width, 100))
		got := lines(text)
		if n := len(got); n > 1 && !strings.Contains(got[n-1], " ") {
			t.Errorf("in %v points it shows %q", width, got)
		}
		heading.Resize(fyne.NewSize(2.2*width, 100))
		got = lines(heading)
		if n := len(got); n > 1 && 2*len(got[n-1]) < len(got[0]) {
			t.Errorf("in %v points the heading is %q", 2.2*width, got)
		}
		cut := kit.Heading(strings.Repeat(heading.String()+" ", 4))
		cut.SetRows(2)
		cut.Resize(fyne.NewSize(2.2*width, 100))
		if rows := lines(cut); len(rows) != 2 || len(rows[0]) < len(got[0]) {
			t.Errorf("in %v points a heading that is cut is %q", 2.2*width, rows)
		}
		if joined := strings.Join(got, " "); joined != heading.String() {
			t.Errorf("in %v points the heading is %q", 2.2*width, joined)
		}
	}
}

func TestTextCutsAWordThatIsTooLong(t *testing.T) {
	text := kit.Body(strings.Repeat("m", 200))
	text.Resize(fyne.NewSize(120, 50))
	if got := lines(text); len(got) < 3 || strings.Join(got, "") != text.String() {
		t.Errorf("a long word is shown as %d lines", len(got))
	}
}

// A heading is not evened out by cutting a word for which there is room.
func TestAHeadingCutsNoWordToBeEven(t *testing.T) {
	heading := kit.Heading("Roggenvollkornbrot: 8 von 9")
	heading.Resize(fyne.NewSize(400, 100))
	if got := lines(heading); len(got) != 2 || got[0] != "Roggenvollkornbrot:" {
		t.Errorf("it shows %q", got)
	}
}

func TestTextKeepsSpansAndNewLines(t *testing.T) {
	text := kit.NewText(kit.Span{Text: "Nearly there. ", Bold: true}, kit.Span{Text: "It doubled.\nOne more."})
	text.Resize(fyne.NewSize(800, 80))
	if got := lines(text); len(got) != 2 || got[0] != "Nearly there. It doubled." || got[1] != "One more." {
		t.Errorf("shown as %q", got)
	}
	first := test.WidgetRenderer(text).Objects()[0].(*canvas.Text)
	if !first.TextStyle.Bold {
		t.Error("the first span is not bold")
	}
}

func TestTextFollowsTheTheme(t *testing.T) {
	text := kit.Faint("ripe from noon")
	text.Resize(fyne.NewSize(300, 30))
	test.ApplyTheme(t, look.New(look.AlwaysDark))
	defer test.ApplyTheme(t, look.New(look.AlwaysLight))
	text.Refresh()
	if got := test.WidgetRenderer(text).Objects()[0].(*canvas.Text).Color; got != look.Dark().Faint {
		t.Errorf("after the change to dark its colour is %v", got)
	}
}

func TestHeadingsUseTheSerif(t *testing.T) {
	h := kit.Heading("Turn the dough")
	c := test.WidgetRenderer(h).Objects()[0].(*canvas.Text)
	if c.FontSource != look.Serif() || c.TextSize != look.TextHeading {
		t.Errorf("heading in %v at %v", c.FontSource, c.TextSize)
	}
}

// No line begins with the unit of the figure before it (common practice, no source).
func TestAFigureKeepsItsUnit(t *testing.T) {
	text := kit.Body("Between 18 and 27 °C (64 to 81 °F), 2 h 30 min, 4.185 kJ/(kg K), 0.4 MB, 13.3 ± 4.7 cells/cm², 12 g.")
	for width := float32(130); width < 900; width += 7 {
		text.Resize(fyne.NewSize(width, 100))
		for _, line := range lines(text) {
			for _, unit := range []string{"°C", "°F", "h ", "min", "kJ", "K)", "MB", "cells", "g"} {
				if strings.HasPrefix(line, unit) {
					t.Fatalf("at %v a line begins with its unit: %q", width, line)
				}
			}
		}
	}
}

// What a single letter is short for stays with it (common practice, no source).
func TestAWordCutToALetterIsNotTornOff(t *testing.T) {
	text := kit.Body("They can carry E. coli, as the agencies say, z. B. here, and end. Then a new sentence follows.")
	for width := float32(60); width < 700; width += 7 {
		text.Resize(fyne.NewSize(width, 100))
		for _, line := range lines(text) {
			if strings.HasPrefix(line, "coli") || strings.HasPrefix(line, "B. ") {
				t.Fatalf("at %v a line begins with what belongs to the letter before it: %q", width, line)
			}
		}
	}
}

// A line is about eighty letters long at the most, however wide its place is (WCAG 2.2, success
// criterion 1.4.8: no more than 80 characters), and a small one no longer in points.
func TestALineIsNotLongerThanTheEyeFindsBackFrom(t *testing.T) {
	const said = "The culture rose to twice its height within five hours at 24 °C and fell again before the " +
		"evening; feed it once more tomorrow morning, and write down how high it stands at noon. "
	for text, most := range map[*kit.Text]int{kit.Body(said + said): 84, kit.Small(said + said): 100, kit.Lead(kit.Span{Text: said + said}): 84} {
		text.Resize(fyne.NewSize(2000, 200))
		for _, line := range lines(text) {
			if n := utf8.RuneCountInString(line); n > most {
				t.Errorf("%d letters: %q", n, line)
			}
		}
	}
}

// A path is not cut while there is room for it.
func TestAPathStaysWhole(t *testing.T) {
	const path = "/media/elsewhere/a-disk-with-a-long-name/household/bread/journal/backups"
	text := kit.Body("There has been no backup since 4 March: plug in the disk of " + path + ", or choose another folder.")
	text.Resize(fyne.NewSize(1000, 200))
	if said := strings.Join(lines(text), "\n"); !strings.Contains(said, path) {
		t.Errorf("the path is cut:\n%s", said)
	}
}

// A line of actions that begins with a quiet button begins where the others do.
func TestWordsOfAQuietButtonBeginWhereTheLineDoes(t *testing.T) {
	first, second := kit.QuietButton("Move to the bin", nil), kit.QuietButton("Print or save as PDF", nil)
	row := kit.QuietRow(2, kit.NewButton("Bake it again", nil), first, second)
	row.Resize(fyne.NewSize(200, 300))
	for _, b := range []*kit.Button{first, second} {
		if at := b.Position().X; at >= 0 || at < -10 {
			t.Errorf("%q begins at %v: its words do not begin where the line does", b.Label(), at)
		}
	}
}

// Fields of a row stand on one line, though the label of one takes two.
func TestFieldsOfARowStandOnOneLine(t *testing.T) {
	long, short := kit.NewTextField("Dough weight, before baking", ""), kit.NewTextField("Height", "")
	for name, row := range map[string]*fyne.Container{"columns": kit.Columns(80, long, short), "tiles": kit.Tiles(80, 6, long, short)} {
		for range 2 { // as a stack sizes it, by what it asked for
			row.Resize(fyne.NewSize(220, row.MinSize().Height))
		}
		foot := func(f *kit.TextField) float32 { return f.Position().Y + f.MinSize().Height }
		if foot(long) != foot(short) || short.Position().Y == 0 {
			t.Errorf("in %s the lines end at %v and %v", name, foot(long), foot(short))
		}
	}
}

// None stands alone in the last row where the rows can be alike.
func TestNoTileStandsAlone(t *testing.T) {
	var things []fyne.CanvasObject
	for range 5 {
		things = append(things, kit.Body("one"))
	}
	row := kit.Tiles(100, 6, things...)
	row.Resize(fyne.NewSize(480, 300)) // room for four
	if a, b := things[2].Position(), things[3].Position(); a.Y != 0 || b.Y == 0 || b.X != 0 {
		t.Errorf("five stand in rows that begin at %v and %v", a, b)
	}
}
