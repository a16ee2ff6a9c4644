package carry_test

import (
	"math/rand/v2"
	"slices"
	"testing"

	"twinloaf/journal"
	"twinloaf/journal/carry"
)

// parted gives two journals that were one, and in which the culture, its feeding and
// the bake have gone different ways since; and the archive of the second.
func parted(t *testing.T) (mine *kitchen, theirs *kitchen, file []byte) {
	theirs = filled(t)
	mine = fresh(t)
	bring(t, mine.Journal, take(t, theirs.Journal), carry.KeepBoth)
	for _, side := range []struct {
		j   *journal.Journal
		say string
	}{{mine.Journal, "mine"}, {theirs.Journal, "theirs"}} {
		do(t, side.j, func(tx *journal.Tx) error {
			if err := journal.Change(tx, theirs.culture, func(c *journal.Culture) { c.Notes = side.say }); err != nil {
				return err
			}
			if err := journal.Change(tx, theirs.feeding, func(f *journal.Feeding) { f.Note = side.say }); err != nil {
				return err
			}
			return journal.Change(tx, theirs.bake, func(b *journal.Bake) { b.Notes, b.Loaves = side.say, len(side.say) })
		})
	}
	do(t, theirs.Journal, func(tx *journal.Tx) error {
		return journal.Put(tx, &journal.Feeding{Culture: theirs.culture, At: theirs.Now(), Note: "a later one"})
	})
	return mine, theirs, take(t, theirs.Journal)
}

func TestWhatDiffersIsShown(t *testing.T) {
	mine, theirs, file := parted(t)
	ar := compare(t, mine.Journal, file)
	if n := counts(ar); n[carry.New] != 1 || n[carry.Different] != 3 || n[carry.Refused] != 0 {
		t.Errorf("new, same, different, refused: %v", n)
	}
	for _, it := range ar.Of(carry.Different) {
		want := map[journal.Kind][]string{journal.KindCulture: {"notes"}, journal.KindFeeding: {"note"}, journal.KindBake: {"loaves", "notes"}}[it.Kind]
		if !slices.Equal(it.Members, want) {
			t.Errorf("%s differs in %v, want %v", it.Kind, it.Members, want)
		}
		if it.Kind == journal.KindBake && (it.Name != "Saturday" || it.At.IsZero()) || it.Kind == journal.KindFeeding && it.Owner.ID != theirs.culture {
			t.Errorf("it is told as %+v", it)
		}
	}
}

func TestKeepMineTakesOnlyWhatIsNew(t *testing.T) {
	mine, _, file := parted(t)
	before := contents(t, mine.Journal)
	if done := bring(t, mine.Journal, file, carry.KeepMine); done.Records != 1 {
		t.Errorf("%+v", done)
	}
	after := contents(t, mine.Journal)
	for name, body := range before {
		if after[name] != body {
			t.Errorf("%s has changed", name)
		}
	}
}

func TestTakeTheirsEndsAsTheirs(t *testing.T) {
	mine, theirs, file := parted(t)
	bring(t, mine.Journal, file, carry.TakeTheirs)
	same(t, contents(t, mine.Journal), contents(t, theirs.Journal))
	if _, err := mine.Undo(); err != nil {
		t.Fatal(err)
	}
	if b, err := journal.Get[journal.Bake](mine, theirs.bake); err != nil || b.Notes != "mine" {
		t.Errorf("after undo: %+v, %v", b, err)
	}
}

func TestKeepBothKeepsEitherWhole(t *testing.T) {
	mine, theirs, file := parted(t)
	before := contents(t, mine.Journal)
	bring(t, mine.Journal, file, carry.KeepBoth)
	after := contents(t, mine.Journal)
	for name, body := range before {
		if after[name] != body {
			t.Errorf("%s has changed", name)
		}
	}
	cultures, err := journal.All[journal.Culture](mine)
	if err != nil {
		t.Fatal(err)
	}
	i := slices.IndexFunc(cultures, func(c *journal.Culture) bool { return c.Name == "Gorse (brought in)" })
	if len(cultures) != 3 || i < 0 || cultures[i].Notes != "theirs" || cultures[i].Parent == "" {
		t.Fatalf("the cultures are %+v", cultures)
	}
	copied := cultures[i].ID
	feedings, err := journal.Linked[journal.Feeding](mine, copied)
	if err != nil {
		t.Fatal(err)
	}
	var notes []string
	for _, f := range feedings {
		notes = append(notes, f.Note)
	}
	slices.Sort(notes)
	if !slices.Equal(notes, []string{"a later one", "theirs"}) {
		t.Errorf("the copy was fed %q", notes)
	}
	readings, err := journal.Linked[journal.Reading](mine, copied)
	if err != nil || len(readings) != 1 {
		t.Fatalf("%d readings of the copy, %v", len(readings), err)
	}
	if photos, err := journal.Photos(mine, readings[0].ID); err != nil || len(photos) != 1 {
		t.Errorf("%d photos of the copy's reading, %v", len(photos), err)
	}
	bakes, err := journal.Linked[journal.Bake](mine, copied)
	if err != nil || len(bakes) != 1 || bakes[0].Name != "Saturday (brought in)" {
		t.Fatalf("the copy's bakes are %+v, %v", bakes, err)
	}
	if photos, err := journal.Photos(mine, bakes[0].ID); err != nil || len(photos) != 1 {
		t.Errorf("%d photos of the copy, %v", len(photos), err)
	}
	if report, err := mine.Check(t.Context(), false); err != nil || !report.Sound() {
		t.Errorf("%+v, %v", report, err)
	}

	// The same archive again brings nothing more, not even copies.
	if n := counts(compare(t, mine.Journal, file)); n[carry.New]+n[carry.Different]+n[carry.Refused] != 0 {
		t.Errorf("again new, same, different, refused: %v", n)
	}
	if done := bring(t, mine.Journal, file, carry.KeepBoth); done.Records != 0 {
		t.Errorf("again it brings %+v", done)
	}
	same(t, contents(t, mine.Journal), after)
	_ = theirs
}

func TestTheSettingsStayTheBakers(t *testing.T) {
	mine, theirs := fresh(t), fresh(t)
	for j, currency := range map[*kitchen]string{mine: "kr", theirs: "€"} {
		if err := j.Set("settings", func(s *journal.Settings) { s.Currency = currency }); err != nil {
			t.Fatal(err)
		}
	}
	file := take(t, theirs.Journal)
	for way, want := range map[carry.Way]string{carry.KeepBoth: "kr", carry.KeepMine: "kr"} {
		bring(t, mine.Journal, file, way)
		if s, err := mine.Settings(); err != nil || s.Currency != want {
			t.Errorf("way %d: %q, %v", way, s.Currency, err)
		}
	}
	bring(t, mine.Journal, file, carry.TakeTheirs)
	if s, err := mine.Settings(); err != nil || s.Currency != "€" {
		t.Errorf("taken: %q, %v", s.Currency, err)
	}
}

// Both versions of what differs can be laid side by side.
func TestBothVersionsAreGiven(t *testing.T) {
	mine, _, file := parted(t)
	for _, it := range compare(t, mine.Journal, file).Of(carry.Different) {
		if it.Kind != journal.KindBake {
			continue
		}
		var got []string
		for _, p := range it.Pairs() {
			got = append(got, p.Member, string(p.Mine), string(p.Theirs))
		}
		if want := []string{"loaves", "4", "6", "notes", `"mine"`, `"theirs"`}; !slices.Equal(got, want) {
			t.Errorf("%q, want %q", got, want)
		}
	}
}

// More than one undo takes back is told beforehand.
func TestWhatCannotBeUndoneIsToldBeforehand(t *testing.T) {
	from := fresh(t)
	r := rand.New(rand.NewPCG(1, 2))
	letters := make([]byte, 800_000) // drawn, so that they do not look like a trap that unpacks to more and more
	for i := range letters {
		letters[i] = "abcdefghijklmnopqrstuvwxyz     "[r.IntN(31)]
	}
	long := string(letters)
	for range 12 {
		do(t, from.Journal, func(tx *journal.Tx) error { return journal.Put(tx, &journal.Bake{Notes: long, At: from.Now()}) })
	}
	ar := compare(t, fresh(t).Journal, take(t, from.Journal))
	done, err := ar.BringIn(t.Context(), carry.Order{Label: "bring in"})
	if err != nil || ar.Undoable(carry.Order{}) || done.Undoable {
		t.Errorf("told %v, %+v, %v", ar.Undoable(carry.Order{}), done, err)
	}
}
