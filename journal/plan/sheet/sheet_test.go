package sheet

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"

	"twinloaf/journal/formula"
	_ "twinloaf/journal/journaltest/race" // few draws under the race detector
	"twinloaf/journal/paper"
	"twinloaf/journal/plan"
	"twinloaf/journal/say"
)

func look(t *testing.T) Style {
	t.Helper()
	font := func(name string) []byte {
		b, err := os.ReadFile(filepath.Join("..", "..", "..", "assets", "fonts", name))
		if err != nil {
			t.Fatal(err)
		}
		return b
	}
	return Style{
		Paper: paper.Style{
			Fonts: paper.Fonts{Text: font("TwinloafText-Regular.ttf"), Bold: font("TwinloafText-SemiBold.ttf"), Heading: font("TwinloafHeading.ttf")},
			Made:  time.Date(2026, 11, 25, 9, 0, 0, 0, time.UTC),
		},
		Clock:   func(t time.Time) string { return t.Format("15:04") },
		Day:     func(t time.Time) string { return t.Format("Monday 2 January") },
		Weight:  func(g formula.Grams) string { return fmt.Sprintf("%.0f g", float64(g)) },
		Percent: func(p formula.Percent) string { return fmt.Sprintf("%.1f %%", float64(p)) },
		Say:     say.Line.String,
	}
}

// saturday is a dough for two loaves with its levain and its day.
func saturday(t *testing.T) Sheet {
	t.Helper()
	f := formula.Formula{
		Lines: []formula.Ingredient{
			{Name: "Strong white flour, T65", Role: formula.Flour, Grams: 720},
			{Name: "Épeautre (spelt), wholegrain", Role: formula.Flour, Grams: 90, Wholegrain: 100},
			{Name: "Water", Role: formula.Water, Grams: 560},
			{Name: "Sea salt", Role: formula.Salt, Grams: 18},
			{Name: "Sesame", Role: formula.Seeds, Grams: 40},
		},
		Levains: []formula.Levain{{Name: "Levain", KeptBack: 20, Lines: []formula.Ingredient{
			{Name: "Harbour", Role: formula.Culture, Grams: 20, Wholegrain: 100},
			{Name: "Whole rye", Role: formula.Flour, Grams: 100, Wholegrain: 100},
			{Name: "Water", Role: formula.Water, Grams: 100},
		}}},
	}
	s, err := plan.Backward(append([]plan.Step{plan.LevainBuild()}, plan.CountryLoaf()...), time.Date(2026, 11, 28, 11, 0, 0, 0, time.UTC), time.Time{}, plan.Night{From: 22*60 + 30, To: 6*60 + 30})
	if err != nil || !s.OK() {
		t.Fatalf("%v: %q", err, s.Words())
	}
	build, final := f.Levains[0].BuildTable(formula.WithCulture), f.FinalDough(formula.WithCulture)
	final.Name = "Final dough"
	return Sheet{
		Title: "Two ferry loaves", Subtitle: "Ready on Saturday 28 November at 11:00",
		Tables: []formula.Table{build, final}, Total: "Together",
		Figures:   []Fact{{"Hydration", "72 %"}, {"Salt", "2.0 %"}, {"Prefermented flour", "11 %"}, {"Water at", "27 °C"}},
		PlanTitle: "The day", Moments: s.Plan.Timeline(time.Time{}),
		Notes: []string{"Allergens: wheat, rye, sesame (EU: cereals containing gluten, sesame seeds).", "Raw flour is not ready to eat."},
	}
}

func TestTheSheetIsARealPDF(t *testing.T) {
	var a, b bytes.Buffer
	if err := Write(&a, saturday(t), look(t)); err != nil {
		t.Fatal(err)
	}
	if err := Write(&b, saturday(t), look(t)); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("the same sheet gives two files")
	}
	file := a.String()
	if !strings.HasPrefix(file, "%PDF-1.") || !strings.HasSuffix(strings.TrimSpace(file), "%%EOF") {
		t.Error("this is not a PDF")
	}
	for what, want := range map[string]int{"/FontFile2": 3, "/ToUnicode": 3, "/Subtype /Image": 0, "/Type /Page\n": 1} {
		if got := strings.Count(file, what); got != want {
			t.Errorf("%d times %q, want %d", got, what, want)
		}
	}
	keep(t, "saturday.pdf", a.Bytes())
}

// The text is read back by poppler, where it is at hand.
func TestTheTextCanBeReadBack(t *testing.T) {
	s := saturday(t)
	var pdf bytes.Buffer
	if err := Write(&pdf, s, look(t)); err != nil {
		t.Fatal(err)
	}
	if pdf.Len() == 0 {
		t.Fatal("nothing was written")
	}
	tool, err := exec.LookPath("pdftotext")
	if err != nil {
		t.Logf("pdftotext is not at hand, so the text was not read back: %v", err)
		return
	}
	cmd := exec.Command(tool, "-layout", "-", "-")
	cmd.Stdin = &pdf
	out, err := cmd.Output()
	if err != nil {
		t.Fatal(err)
	}
	text := strings.Join(strings.Fields(string(out)), " ")
	for _, want := range []string{"Two ferry loaves", "Épeautre (spelt), wholegrain 90 g", "Harbour 20 g", "Final dough", "Levain 200 g", "Divide and shape", "Saturday 28 November", "27 °C", "Raw flour is not ready to eat."} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not in the text:\n%s", want, out)
		}
	}
	for _, m := range s.Moments {
		if want := m.Due.Format("15:04"); !strings.Contains(text, want) {
			t.Errorf("%s at %s is not in the text", m.Title, want)
		}
	}
}

func TestALongSheetGoesOnOverPages(t *testing.T) {
	s := saturday(t)
	for range 60 {
		s.Tables[1].Rows = append(s.Tables[1].Rows, formula.Row{Name: strings.Repeat("very long name ", 20), Grams: 12345})
	}
	var pdf bytes.Buffer
	if err := Write(&pdf, s, look(t)); err != nil {
		t.Fatal(err)
	}
	if n := strings.Count(pdf.String(), "/Type /Page\n"); n < 2 || n > 5 {
		t.Errorf("%d pages", n)
	}
}

func TestAnyTextIsPrinted(t *testing.T) {
	l := look(t)
	rapid.Check(t, func(t *rapid.T) {
		s := Sheet{
			Title: rapid.String().Draw(t, "title"), Subtitle: rapid.String().Draw(t, "subtitle"), Total: rapid.String().Draw(t, "total"),
			Tables:    []formula.Table{{Name: rapid.String().Draw(t, "table"), Rows: []formula.Row{{Name: rapid.String().Draw(t, "row")}}}},
			PlanTitle: string(rapid.SliceOf(rapid.Byte()).Draw(t, "bytes")),
			Moments:   []plan.Moment{{Title: say.Of("{{.Name}}", say.With{"Name": rapid.String().Draw(t, "moment")}), Note: rapid.String().Draw(t, "note")}},
			Figures:   []Fact{{rapid.String().Draw(t, "figure"), rapid.String().Draw(t, "value")}},
			Notes:     []string{rapid.String().Draw(t, "notes")},
		}
		var pdf bytes.Buffer
		if err := Write(&pdf, s, l); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(pdf.String(), "%PDF") {
			t.Fatal("this is not a PDF")
		}
	})
}

func TestASheetNeedsItsFonts(t *testing.T) {
	if err := Write(&bytes.Buffer{}, Sheet{Title: "Bare"}, Style{}); !errors.Is(err, paper.ErrNoFonts) {
		t.Errorf("without fonts: %v", err)
	}
	if err := Write(&bytes.Buffer{}, Sheet{}, Style{Paper: paper.Style{Fonts: paper.Fonts{Text: []byte("x"), Bold: []byte("y"), Heading: []byte("z")}}}); !errors.Is(err, paper.ErrNoFonts) {
		t.Errorf("with fonts that are none: %v", err)
	}
}

// keep leaves the file where a person can look at it, when a folder for that
// is named in TWINLOAF_LOOK.
func keep(t *testing.T, name string, b []byte) {
	t.Helper()
	if dir := os.Getenv("TWINLOAF_LOOK"); dir != "" {
		if err := os.WriteFile(filepath.Join(dir, name), b, 0o644); err != nil {
			t.Error(err)
		}
	}
}
