package journal

import (
	"context"
	"errors"
	"testing"
	"time"

	"github.com/go-json-experiment/json"
	bolt "go.etcd.io/bbolt"
	"pgregory.net/rapid"

	"twinloaf/journal/formula"
	"twinloaf/journal/store"
)

func TestWhatWasPutIsThereAfterReopening(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	id := newBake(t, j, "Ferry loaf")
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	b, err := Get[Bake](j, id)
	if err != nil {
		t.Fatal(err)
	}
	if b.Name != "Ferry loaf" || !b.At.Equal(clock.now) {
		t.Errorf("read back %q at %v", b.Name, b.At)
	}
}

func TestTypingIsSeenAtOnceAndKeptByClose(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	id := newBake(t, j, "")
	for _, name := range []string{"F", "Fe", "Ferry"} {
		if err := Edit(j, id, "name", func(b *Bake) { b.Name = name }); err != nil {
			t.Fatal(err)
		}
		if b, err := Get[Bake](j, id); err != nil || b.Name != name {
			t.Fatalf("typed %q, read %v, %v", name, b, err)
		}
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	if b, err := Get[Bake](j, id); err != nil || b.Name != "Ferry" {
		t.Fatalf("after closing in the middle of typing: %v, %v", b, err)
	}
	if undo, _ := j.Steps(); undo != "name" {
		t.Errorf("the step to undo is %q", undo)
	}
	if _, err := j.Undo(); err != nil {
		t.Fatal(err)
	}
	if b, _ := Get[Bake](j, id); b.Name != "" {
		t.Errorf("one undo took the word back to %q", b.Name)
	}
}

func TestTypingIsCommittedByItself(t *testing.T) {
	j, err := Open(context.Background(), t.TempDir(), Options{GatherFor: time.Millisecond})
	if err != nil {
		t.Fatal(err)
	}
	defer j.Close()
	id := newBake(t, j, "")
	committed := make(chan bool, 8)
	j.Listen(func(c Changed) {
		if !c.Typed && c.Touches(id) {
			committed <- true
		}
	})
	if err := Edit(j, id, "name", func(b *Bake) { b.Name = "Ferry" }); err != nil {
		t.Fatal(err)
	}
	<-committed
	v := onDisk(j, Ref{Kind: KindBake, ID: id})
	if b, err := decode[Bake](id, v); err != nil || b.Name != "Ferry" {
		t.Errorf("on disk: %v, %v", b, err)
	}
}

func TestTypingSurvivesAChangeOfTheSameRecord(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "")
	if err := Edit(j, id, "name", func(b *Bake) { b.Name = "Ferry" }); err != nil {
		t.Fatal(err)
	}
	err := j.Do("notes", func(tx *Tx) error {
		return Change(tx, id, func(b *Bake) { b.Notes = "windy" })
	})
	if err != nil {
		t.Fatal(err)
	}
	if b, err := Get[Bake](j, id); err != nil || b.Name != "Ferry" || b.Notes != "windy" {
		t.Errorf("got %+v, %v", b, err)
	}
}

func TestAChangeThatFailsLeavesNothing(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	boom := errors.New("boom")
	err := j.Do("two bakes", func(tx *Tx) error {
		if err := Put(tx, &Bake{Name: "one"}); err != nil {
			return err
		}
		return boom
	})
	if !errors.Is(err, boom) {
		t.Fatalf("got %v", err)
	}
	if all, err := All[Bake](j); err != nil || len(all) != 0 {
		t.Errorf("left behind: %v, %v", all, err)
	}
	if undo, _ := j.Steps(); undo != "" {
		t.Errorf("a step %q was remembered", undo)
	}
}

func TestAHandedInScoreIsNotUndone(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	ta := &Tasting{Name: "two loaves"}
	if err := j.Do("plan a tasting", func(tx *Tx) error { return Put(tx, ta) }); err != nil {
		t.Fatal(err)
	}
	err := j.DoWithoutUndo("hand in", func(tx *Tx) error {
		return Change(tx, ta.ID, func(x *Tasting) { x.Notes = "scored" })
	})
	if err != nil {
		t.Fatal(err)
	}
	if _, err := j.Undo(); !errors.Is(err, ErrMovedOn) {
		t.Errorf("undo gave %v", err)
	}
	if x, err := Get[Tasting](j, ta.ID); err != nil || x.Notes != "scored" {
		t.Errorf("the score is %v, %v", x, err)
	}
}

func TestTheBinGivesBack(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "Ferry loaf")
	do := func(fn func(tx *Tx) error) {
		t.Helper()
		if err := j.Do("bin", fn); err != nil {
			t.Fatal(err)
		}
	}
	do(func(tx *Tx) error { return MoveToBin[Bake](tx, id) })
	if all, _ := All[Bake](j); len(all) != 0 {
		t.Errorf("still listed: %v", all)
	}
	if bin, _ := Bin[Bake](j); len(bin) != 1 {
		t.Errorf("the bin holds %v", bin)
	}
	do(func(tx *Tx) error { return Restore[Bake](tx, id) })
	if all, _ := All[Bake](j); len(all) != 1 {
		t.Errorf("after restoring: %v", all)
	}
}

func TestWhatAnotherVersionAddedSurvives(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "Ferry loaf")
	body := []byte(`{"id":"` + string(id) + `","v":1,"at":"2026-03-04T08:54:00Z","moon":{"phase":"full"},` +
		`"ingredients":[{"id":"a","name":"Spelt","role":"flour","g":100,"mill":"north"}],"outcome":{"echo":7}}`)
	err := j.store.Bolt().Update(func(tx *bolt.Tx) error {
		return tx.Bucket([]byte(KindBake)).Put([]byte(id), store.Wrap(string(KindBake), string(id), body))
	})
	if err != nil {
		t.Fatal(err)
	}
	err = j.Do("name", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Name = "Renamed" }) })
	if err != nil {
		t.Fatal(err)
	}
	raw, err := GetRaw(j, Ref{Kind: KindBake, ID: id})
	if err != nil {
		t.Fatal(err)
	}
	body = raw.Body
	var got struct {
		Name        string
		Moon        map[string]string
		Ingredients []map[string]any
		Outcome     map[string]int
	}
	if err := json.Unmarshal(body, &got, json.MatchCaseInsensitiveNames(true)); err != nil {
		t.Fatal(err)
	}
	if got.Name != "Renamed" || got.Moon["phase"] != "full" || got.Ingredients[0]["mill"] != "north" || got.Outcome["echo"] != 7 {
		t.Errorf("stored %s", body)
	}
}

func TestANewerRecordIsRefusedAndLeftAlone(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "")
	for _, body := range []string{
		`{"id":"` + string(id) + `","v":99}`,
		`{"id":"` + string(id) + `","v":99,"at":["not","a","time"]}`,
	} {
		value := store.Wrap(string(KindBake), string(id), []byte(body))
		err := j.store.Bolt().Update(func(tx *bolt.Tx) error { return tx.Bucket([]byte(KindBake)).Put([]byte(id), value) })
		if err != nil {
			t.Fatal(err)
		}
		if _, err := Get[Bake](j, id); !errors.Is(err, ErrNewer) {
			t.Errorf("reading %s gave %v", body, err)
		}
		if err := Edit(j, id, "name", func(b *Bake) { b.Name = "x" }); !errors.Is(err, ErrNewer) {
			t.Errorf("editing %s gave %v", body, err)
		}
		if got := onDisk(j, Ref{Kind: KindBake, ID: id}); string(got) != string(value) {
			t.Errorf("the record was altered to %s", got)
		}
	}
}

func TestListenersHearOfEveryChange(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	var heard []string
	stop := j.Listen(func(c Changed) { heard = append(heard, c.Label) })
	id := newBake(t, j, "")
	_ = Edit(j, id, "name", func(b *Bake) { b.Name = "x" })
	_ = j.Flush()
	_, _ = j.Undo()
	_, _ = j.Redo()
	stop()
	newBake(t, j, "unheard")
	want := []string{"new bake", "name", "name", "name", "name"}
	if len(heard) != len(want) {
		t.Fatalf("heard %q", heard)
	}
	for i := range want {
		if heard[i] != want[i] {
			t.Errorf("heard %q, want %q", heard, want)
		}
	}
}

// script runs random changes against a journal: the state machine of the
// property tests below.
type script struct {
	j     *Journal
	clock *fakeClock
	bakes []ID
}

func (s *script) change(rt *rapid.T) {
	s.clock.Forward(time.Duration(rapid.IntRange(0, 20).Draw(rt, "seconds")) * time.Second)
	pick := func() ID { return rapid.SampledFrom(s.bakes).Draw(rt, "bake") }
	what := rapid.IntRange(0, 6).Draw(rt, "what")
	if len(s.bakes) == 0 {
		what = 0
	}
	var err error
	switch what {
	case 0:
		b := &Bake{Name: rapid.StringN(0, 8, 20).Draw(rt, "name"), At: s.clock.now}
		err = s.j.Do("new bake", func(tx *Tx) error { return Put(tx, b) })
		s.bakes = append(s.bakes, b.ID)
	case 1:
		name := rapid.StringN(0, 8, 20).Draw(rt, "name")
		err = Edit(s.j, pick(), "name", func(b *Bake) { b.Name = name })
	case 2:
		g := formula.Grams(rapid.IntRange(0, 900).Draw(rt, "grams"))
		err = Edit(s.j, pick(), "flour", func(b *Bake) {
			b.Ingredients = []Ingredient{{ID: "f", Name: "Spelt", Role: formula.Flour, Grams: g}}
		})
	case 3:
		p := &Photo{Owner: Ref{Kind: KindBake, ID: pick()}, Hash: "aa", Added: s.clock.now, Role: RoleCrumb}
		err = s.j.Do("photo", func(tx *Tx) error { return Put(tx, p) })
	case 4:
		id := pick()
		err = s.j.Do("bin", func(tx *Tx) error { return MoveToBin[Bake](tx, id) })
	case 5:
		id := pick()
		err = s.j.Do("two at once", func(tx *Tx) error {
			if err := Change(tx, id, func(b *Bake) { b.Notes += "." }); err != nil {
				return err
			}
			return Put(tx, &Feeding{Culture: "c", At: s.clock.now, Flour: 60})
		})
	case 6:
		err = s.j.Flush()
	}
	// A bake that an undo took away again cannot be changed; that is all that
	// may go wrong.
	if err != nil && !errors.Is(err, ErrNotFound) {
		rt.Fatal(err)
	}
}

func TestUndoGivesBackTheEarlierRecordsByteForByte(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		clock := newClock()
		j, err := Open(context.Background(), mustTempDir(rt, dir), Options{Clock: clock.Now, GatherFor: time.Hour})
		if err != nil {
			rt.Fatal(err)
		}
		defer j.Close()
		s := &script{j: j, clock: clock}
		for range rapid.IntRange(1, 12).Draw(rt, "changes") {
			s.change(rt)
		}
		if err := j.Flush(); err != nil {
			rt.Fatal(err)
		}
		states := []store.Contents{records(t, j)}
		for {
			if _, err := j.Undo(); errors.Is(err, ErrNothingToUndo) {
				break
			} else if err != nil {
				rt.Fatal(err)
			}
			mustBeSound(t, j)
			states = append(states, records(t, j))
		}
		if len(states[len(states)-1]) != 0 {
			rt.Fatalf("undoing everything left %d records", len(states[len(states)-1]))
		}
		for i := len(states) - 2; i >= 0; i-- {
			if _, err := j.Redo(); err != nil {
				rt.Fatal(err)
			}
			if n := records(t, j).Differences(states[i]); n != 0 {
				rt.Fatalf("after redoing to step %d, %d records differ", i, n)
			}
		}
		if _, err := j.Redo(); !errors.Is(err, ErrNothingToRedo) {
			rt.Fatalf("one redo more gave %v", err)
		}
	})
}

func TestIndexesEqualARebuildAndSummariesTheDisk(t *testing.T) {
	dir := t.TempDir()
	rapid.Check(t, func(rt *rapid.T) {
		clock := newClock()
		folder := mustTempDir(rt, dir)
		j, err := Open(context.Background(), folder, Options{Clock: clock.Now, GatherFor: time.Hour})
		if err != nil {
			rt.Fatal(err)
		}
		if _, err := j.BakeSummaries(); err != nil { // so that they are kept up to date in memory
			rt.Fatal(err)
		}
		s := &script{j: j, clock: clock}
		for range rapid.IntRange(1, 15).Draw(rt, "changes") {
			switch rapid.IntRange(0, 4).Draw(rt, "step") {
			case 0:
				_, _ = j.Undo()
			case 1:
				_, _ = j.Redo()
			default:
				s.change(rt)
			}
		}
		if err := j.Flush(); err != nil {
			rt.Fatal(err)
		}
		mustBeSound(t, j)
		inMemory, err := j.BakeSummaries()
		if err != nil {
			rt.Fatal(err)
		}
		if err := j.Close(); err != nil {
			rt.Fatal(err)
		}
		j, err = Open(context.Background(), folder, Options{Clock: clock.Now})
		if err != nil {
			rt.Fatal(err)
		}
		defer j.Close()
		onDisk, err := j.BakeSummaries()
		if err != nil {
			rt.Fatal(err)
		}
		a, _ := json.Marshal(inMemory, json.Deterministic(true))
		b, _ := json.Marshal(onDisk, json.Deterministic(true))
		if string(a) != string(b) {
			rt.Fatalf("in memory %s\non disk %s", a, b)
		}
	})
}

func TestTwoHundredChangesCanBeUndoneAfterARestart(t *testing.T) {
	dir, clock := t.TempDir(), newClock()
	j := openTest(t, dir, clock)
	id := newBake(t, j, "")
	for i := range 250 {
		clock.Forward(time.Minute)
		err := j.Do("notes", func(tx *Tx) error {
			return Change(tx, id, func(b *Bake) { b.Loaves = i + 1 })
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	j = openTest(t, dir, clock)
	for range 200 {
		if _, err := j.Undo(); err != nil {
			t.Fatal(err)
		}
	}
	if b, err := Get[Bake](j, id); err != nil || b.Loaves != 50 {
		t.Fatalf("got %+v, %v", b, err)
	}
	for range 200 {
		if _, err := j.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	if b, err := Get[Bake](j, id); err != nil || b.Loaves != 250 {
		t.Fatalf("got %+v, %v", b, err)
	}
}

func TestAPanicWithinAChangeLeavesTheJournalUsable(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	func() {
		defer func() {
			if recover() == nil {
				t.Error("the panic was swallowed")
			}
		}()
		_ = j.Do("broken", func(tx *Tx) error {
			if err := Put(tx, &Bake{Name: "half"}); err != nil {
				return err
			}
			panic("boom")
		})
	}()
	newBake(t, j, "whole")
	if all, err := All[Bake](j); err != nil || len(all) != 1 || all[0].Name != "whole" {
		t.Errorf("the journal holds %v, %v", all, err)
	}
}

func TestAFlourIsAnAllergenByItsGrainToo(t *testing.T) {
	line := func(grain string, said formula.Corrections) formula.AllergenReport {
		in := Ingredient{Name: "Old Mill 12", Role: formula.Flour, Grams: 100, Flour: &FlourFacts{Grain: grain}, Allergens: said}
		return formula.Formula{Lines: []formula.Ingredient{in.Line()}}.Allergens()
	}
	if r := line("rye", formula.Corrections{}); len(r.Found) != 1 || r.Found[0].Allergen != formula.Rye || len(r.Unknown) != 0 {
		t.Errorf("rye: %+v", r)
	}
	if r := line("", formula.Corrections{}); len(r.Found) != 0 || len(r.Unknown) != 1 {
		t.Errorf("a flour of no known grain: %+v", r)
	}
	if r := line("wheat", formula.Corrections{Remove: []formula.Allergen{formula.Wheat}}); len(r.Found) != 0 {
		t.Errorf("the baker's correction was overruled: %+v", r)
	}
}

// Of two cultures of one name a bake holds what its own is fed with, in the bin too.
func TestABakeHoldsTheFloursOfItsOwnCulture(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	own := &Culture{Name: "Harbour", Flours: []FlourShare{{Name: "Wheat flour", Grain: "wheat", Share: 100}}}
	err := j.Do("two cultures", func(tx *Tx) error {
		if err := Put(tx, &Culture{Name: "Harbour", Flours: []FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}); err != nil {
			return err
		}
		return Put(tx, own)
	})
	if err != nil {
		t.Fatal(err)
	}
	holds := func(when string) {
		t.Helper()
		r, err := Allergens(j, &Bake{Culture: own.ID, Ingredients: []Ingredient{{Name: "Harbour", Role: formula.Culture, Grams: 90}}})
		if err != nil || len(r.Found) != 1 || r.Found[0].Allergen != formula.Wheat || len(r.Unknown) != 0 {
			t.Errorf("%s: it holds %+v, %v", when, r, err)
		}
	}
	holds("beside an older one")
	if err := j.Do("into the bin", func(tx *Tx) error { return MoveToBin[Culture](tx, own.ID) }); err != nil {
		t.Fatal(err)
	}
	holds("in the bin")
}

// A closed journal still answers, with an error: a page may ask while the window goes.
func TestAClosedJournalAnswers(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "Ferry loaf")
	if err := j.Close(); err != nil {
		t.Fatal(err)
	}
	if _, err := Get[Bake](j, id); err == nil {
		t.Error("it was read")
	}
	if err := j.Do("loaves", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) }); !errors.Is(err, ErrClosed) {
		t.Errorf("a change gives %v", err)
	}
	if err := j.Close(); err != nil {
		t.Errorf("closing it twice: %v", err)
	}
}
