package journal

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"
)

// After what is not undone, repeated undo takes back all else, names what it passes,
// and comes to an end; redo leads all the way forward again.
func TestUndoStepsPastWhatCannotBeTakenBack(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	id := newBake(t, j, "Ferry loaf")
	ta := &Tasting{Name: "two loaves"}
	do := func(label string, fn func(tx *Tx) error) {
		t.Helper()
		if err := j.Do(label, fn); err != nil {
			t.Fatal(err)
		}
	}
	do("plan a tasting", func(tx *Tx) error { return Put(tx, ta) })
	do("name the tasting", func(tx *Tx) error { return Change(tx, ta.ID, func(x *Tasting) { x.Name = "harbour or gorse" }) })
	do("first notes", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Notes = "windy" }) })
	if err := j.DoWithoutUndo("score", func(tx *Tx) error { return Change(tx, ta.ID, func(x *Tasting) { x.Notes = "scored" }) }); err != nil {
		t.Fatal(err)
	}
	do("loaves", func(tx *Tx) error { return Change(tx, id, func(b *Bake) { b.Loaves = 2 }) })
	end := records(t, j)

	var said []string
	for range 20 {
		label, err := j.Undo()
		if errors.Is(err, ErrNothingToUndo) {
			break
		}
		if s, ok := errors.AsType[*Skipped](err); ok {
			said = append(said, "skipped "+strings.Join(s.Labels, " and "))
			continue
		}
		if err != nil {
			t.Fatal(err)
		}
		said = append(said, label)
	}
	want := []string{"loaves", "first notes", "skipped name the tasting and plan a tasting", "new bake"}
	if !slices.Equal(said, want) {
		t.Errorf("undo said %q, want %q", said, want)
	}
	if x, err := Get[Tasting](j, ta.ID); err != nil || x.Notes != "scored" {
		t.Errorf("the tasting is %v, %v", x, err)
	}
	if undo, redo := j.Steps(); undo != "" || redo != "new bake" {
		t.Errorf("the steps are %q and %q", undo, redo)
	}
	mustBeSound(t, j)

	said = nil
	for range 20 {
		label, err := j.Redo()
		if errors.Is(err, ErrNothingToRedo) {
			break
		}
		if err != nil {
			t.Fatal(err)
		}
		said = append(said, label)
	}
	if want := []string{"new bake", "first notes", "loaves"}; !slices.Equal(said, want) {
		t.Errorf("redo said %q, want %q", said, want)
	}
	if n := records(t, j).Differences(end); n != 0 {
		t.Errorf("there and back, %d records differ", n)
	}
}

func TestWhatIsSkippedIsNamed(t *testing.T) {
	for n, want := range map[int]string{
		1: "“a” can no longer be undone, because more was recorded on it since; nothing was changed. Press again for what came before",
		2: "“a” and “b” can no longer be undone, because more was recorded on them since; nothing was changed. Press again for what came before",
		5: "“a”, “b”, “c” and 2 more can no longer be undone, because more was recorded on them since; nothing was changed. Press again for what came before",
	} {
		s := &Skipped{Labels: []string{"a", "b", "c", "d", "e"}[:n]}
		if fmt.Sprint(s) != want {
			t.Errorf("%d: %v", n, s)
		}
	}
}
