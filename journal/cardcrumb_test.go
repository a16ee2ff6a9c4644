package journal

import (
	"maps"
	"testing"
)

// Crumb figures reach the card with the change that keeps them, survive a
// rebuild of the indexes, and leave retakes of a slice out.
func TestCrumbFiguresOnTheCard(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	bake := newBake(t, j, "Ferry loaf")
	photos := make([]*Photo, 3)
	for i := range photos {
		photos[i] = &Photo{Owner: Ref{KindBake, bake}, Hash: "h", Role: RoleCrumb, Added: j.Now()}
		if err := j.Do("photo", func(tx *Tx) error { return Put(tx, photos[i]) }); err != nil {
			t.Fatal(err)
		}
	}
	if err := j.Do("retake", func(tx *Tx) error {
		return Change(tx, photos[2].ID, func(p *Photo) { p.Slice = &Slice{Same: photos[0].ID} })
	}); err != nil {
		t.Fatal(err)
	}
	var told []Ref
	defer j.Listen(func(c Changed) { told = append(told, c.Refs...) })()
	keep := func(photo ID, f map[string]float64) {
		t.Helper()
		if err := j.Do("measuring", func(tx *Tx) error { return KeepCrumbFigures(tx, photo, f) }); err != nil {
			t.Fatal(err)
		}
	}
	card := func() *Card {
		t.Helper()
		cards, err := j.Cards()
		if err != nil || len(cards) != 1 {
			t.Fatalf("%d cards, %v", len(cards), err)
		}
		return cards[0]
	}
	card() // so that the cards are in memory before they change
	keep(photos[0].ID, map[string]float64{"openness": 20, "evenness": 0.5})
	keep(photos[1].ID, map[string]float64{"openness": 30})
	keep(photos[2].ID, map[string]float64{"openness": 99})
	want := map[string]float64{"openness": 25, "evenness": 0.5}
	if got := card().Structure; !maps.Equal(got, want) {
		t.Errorf("structure %v, want %v", got, want)
	}
	if (Changed{Refs: told}).Touches(bake) == false {
		t.Error("nobody was told that the bake's card changed")
	}
	mustBeSound(t, j)
	keep(photos[0].ID, nil)
	keep(photos[1].ID, nil)
	if got := card().Structure; got != nil {
		t.Errorf("structure %v after taking the figures away", got)
	}
	mustBeSound(t, j)
}
