package tables_test

import (
	"bytes"
	"encoding/csv"
	"strings"
	"testing"
	"time"

	"twinloaf/app/pages/pagestest"
	"twinloaf/app/tables"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// read writes a table and reads it back by another reader of RFC 4180.
func read(t *testing.T, j *journal.Journal, name string) (rows [][]string, at map[string]int) {
	t.Helper()
	for _, one := range tables.All() {
		if one.Name != name {
			continue
		}
		var b bytes.Buffer
		if err := one.Write(&b, j); err != nil {
			t.Fatal(err)
		}
		if !strings.HasPrefix(b.String(), "\uFEFF") || strings.Count(b.String(), "\r\n") < 1 {
			t.Errorf("%s has no mark of UTF-8, or no CRLF", name)
		}
		rows, err := csv.NewReader(strings.NewReader(strings.TrimPrefix(b.String(), "\uFEFF"))).ReadAll()
		if err != nil {
			t.Fatal(err)
		}
		at = map[string]int{}
		for i, h := range rows[0] {
			at[h] = i
		}
		return rows[1:], at
	}
	t.Fatalf("there is no table %s", name)
	return nil, nil
}

func TestTheTablesOfAJournal(t *testing.T) {
	b := pagestest.New(t)
	zone := time.FixedZone("", 2*3600)
	at := time.Date(2026, 3, 14, 7, 5, 0, 0, zone)
	culture := &journal.Culture{Name: "=Harbour", Born: at}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, culture) })
	bake := &journal.Bake{Name: `+Ferry, "the" loaf`, At: at, Culture: culture.ID, Loaves: 2, Notes: "@noon",
		Ingredients: []journal.Ingredient{{Name: "Flour", Role: formula.Flour, Grams: 800}, {Name: "Water", Role: formula.Water, Grams: 600.5}, {Name: "Salt", Role: formula.Salt, Grams: 16}},
		Steps:       []journal.Step{{Kind: journal.StepBulk, At: at, End: at.Add(210 * time.Minute)}},
		Outcome: journal.Outcome{DoughWeight: new(formula.Grams(1400)), LoafWeight: new(formula.Grams(1225)), Inside: new(formula.Celsius(-2)),
			Scores: []journal.AttributeScore{{Attribute: journal.Overall, Score: 8, Note: "-good"}, {Attribute: "crust"}}}}
	binned := &journal.Bake{Name: "Thrown away", At: at}
	b.Put(func(tx *journal.Tx) error {
		for _, r := range []*journal.Bake{bake, binned} {
			if err := journal.Put(tx, r); err != nil {
				return err
			}
		}
		if err := journal.Put(tx, &journal.Feeding{Culture: culture.ID, At: at, Kept: 20, Flour: 50, Water: 50, Note: "\tearly"}); err != nil {
			return err
		}
		return journal.Put(tx, &journal.Reading{Culture: culture.ID, At: at.Add(4 * time.Hour), Rise: new(2.25), Smells: map[string]int{"sour": 2, "milky": 1}, Mould: true})
	})
	b.Put(func(tx *journal.Tx) error { return journal.MoveToBin[journal.Bake](tx, binned.ID) })

	wanted := map[string]map[string]string{
		"bakes.csv": {"name": `'+Ferry, "the" loaf`, "begun": "2026-03-14T07:05:00+02:00", "state": "recorded", "culture": "'=Harbour", "loaves": "2",
			"flour (g)": "800", "water (g)": "600.5", "hydration (%)": "75.063", "salt (%)": "2", "bulk (h)": "3.5", "proof (h)": "", "bake loss (%)": "12.5",
			"core temperature (°C)": "-2", "overall (1 to 9)": "8", "ingredients": "800 g Flour; 600.5 g Water; 16 g Salt", "notes": "'@noon", "cold proof (h)": ""},
		"scores.csv":   {"bake": `'+Ferry, "the" loaf`, "attribute": "overall", "score (1 to 9)": "8", "comment": "'-good"},
		"feedings.csv": {"culture": "'=Harbour", "kept (g)": "20", "flour (g)": "50", "note": "'\tearly", "water (°C)": ""},
		"readings.csv": {"read": "2026-03-14T11:05:00+02:00", "rise (times the start)": "2.25", "smells (1 faint to 3 strong)": "milky 1; sour 2", "mould": "yes", "pH": ""},
	}
	// Whatever language the window speaks, they are the same.
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	for _, l := range words.Languages() {
		if err := words.Speak(l.Tag); err != nil {
			t.Fatal(err)
		}
		for name, want := range wanted {
			rows, at := read(t, b.Journal, name)
			if len(rows) != 1 {
				t.Errorf("%s in %s has %d rows", name, l.Name, len(rows))
				continue
			}
			for head, cell := range want {
				i, ok := at[head]
				if !ok || rows[0][i] != cell {
					t.Errorf("%s in %s: %s is %q, want %q", name, l.Name, head, rows[0][i], cell)
				}
			}
		}
	}
}
