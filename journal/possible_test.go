package journal_test

import (
	"math"
	"reflect"
	"strings"
	"testing"
	"time"
	"unicode/utf8"

	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/journaltest"
	"twinloaf/journal/limit"
)

// Whatever the door, a figure that cannot be is refused in a sentence, and nothing of
// the change is kept.
func TestJournalRefusesFiguresThatCannotBe(t *testing.T) {
	j, _ := journaltest.Open(t, journal.Options{})
	bake := &journal.Bake{Name: "Ferry loaf", At: j.Now()}
	write(t, j, bake)
	for name, spoil := range map[string]func(*journal.Bake){
		"-5 g":             func(b *journal.Bake) { b.Ingredients = []journal.Ingredient{{ID: "a", Name: "Water", Grams: -5}} },
		"99,999 °C":        func(b *journal.Bake) { b.Outcome.Inside = new(formula.Celsius(99999)) },
		"height":           func(b *journal.Bake) { b.Outcome.HeightMM = new(1e300) },
		"endless hours":    func(b *journal.Bake) { b.Steps = []journal.Step{{ID: "s", Planned: math.MaxInt64}} },
		"negative minutes": func(b *journal.Bake) { b.Steps = []journal.Step{{ID: "s", Planned: -time.Minute}} },
		"rise":             func(b *journal.Bake) { b.Steps = []journal.Step{{ID: "s", Rise: new(20.0)}} },
		"loaves":           func(b *journal.Bake) { b.Loaves = -1 },
	} {
		err := j.Do("spoiling", func(tx *journal.Tx) error { return journal.Change(tx, bake.ID, spoil) })
		if err == nil || !strings.Contains(err.Error(), "must be between") {
			t.Errorf("%s: a change gives %v", name, err)
		}
		if err := journal.Edit(j, bake.ID, "spoiling", spoil); err == nil {
			t.Errorf("%s: typed, it is taken", name)
		}
		if err := j.Do("spoiling", func(tx *journal.Tx) error {
			fresh := &journal.Bake{Name: "Fresh", At: j.Now()}
			spoil(fresh)
			return journal.Put(tx, fresh)
		}); err == nil {
			t.Errorf("%s: in a new record it is taken", name)
		}
	}
	got, err := journal.Get[journal.Bake](j, bake.ID)
	if err != nil || !reflect.DeepEqual(got.Outcome, bake.Outcome) || len(got.Steps) != 0 {
		t.Errorf("something was kept: %+v, %v", got, err)
	}
	if err := journal.Edit(j, bake.ID, "loaves", func(b *journal.Bake) { b.Loaves = 2 }); err != nil {
		t.Errorf("what can be is refused: %v", err)
	}
}

// Text from elsewhere is made valid, so that one name does not sink a batch.
func TestTextIsMadeValid(t *testing.T) {
	j, _ := journaltest.Open(t, journal.Options{})
	bake := &journal.Bake{Name: "Caf\xe9", At: j.Now(), Ingredients: []journal.Ingredient{{ID: "a", Name: "r\xf8d"}}}
	write(t, j, bake)
	got, err := journal.Get[journal.Bake](j, bake.ID)
	if err != nil || got.Name != "Caf\uFFFD" || got.Ingredients[0].Name != "r\uFFFDd" {
		t.Fatalf("%+v, %v", got, err)
	}
	if err := journal.Edit(j, bake.ID, "notes", func(b *journal.Bake) { b.Outcome.Notes = "a\xff" }); err != nil {
		t.Fatal(err)
	}
	if got, err = journal.Get[journal.Bake](j, bake.ID); err != nil || !utf8.ValidString(got.Outcome.Notes) {
		t.Errorf("%q, %v", got.Outcome.Notes, err)
	}
}

// Every tag of a record names a kind of figure.
func TestLimitTagsAreKnown(t *testing.T) {
	seen := map[reflect.Type]bool{}
	found := 0
	var look func(reflect.Type)
	look = func(x reflect.Type) {
		for x.Kind() == reflect.Pointer || x.Kind() == reflect.Slice {
			x = x.Elem()
		}
		if x.Kind() != reflect.Struct || seen[x] || x == reflect.TypeFor[time.Time]() {
			return
		}
		seen[x] = true
		for f := range x.Fields() {
			if tag, has := f.Tag.Lookup("limit"); has {
				found++
				if _, ok := limit.Named(tag); !ok {
					t.Errorf("%s.%s: no figures are called %q", x.Name(), f.Name, tag)
				}
			}
			look(f.Type)
		}
	}
	for _, rec := range []any{journal.Bake{}, journal.Culture{}, journal.Feeding{}, journal.Reading{}, journal.Move{},
		journal.Formula{}, journal.Flour{}, journal.Photo{}, journal.Settings{}} {
		look(reflect.TypeOf(rec))
	}
	if found < 15 {
		t.Errorf("only %d figures say what they are", found)
	}
}

func write[T any, R journal.Record[T]](t *testing.T, j *journal.Journal, rec R) {
	t.Helper()
	if err := j.Do("writing down", func(tx *journal.Tx) error { return journal.Put(tx, rec) }); err != nil {
		t.Fatal(err)
	}
}
