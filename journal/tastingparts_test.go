package journal

import (
	"math/rand/v2"
	"reflect"
	"testing"
	"time"

	"twinloaf/journal/blind"
)

func TestATastingGivesBackItsParts(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	draft, err := blind.Draw(blind.Plan{
		Method: blind.Triangle, Mode: blind.WithHelper, Rounds: 2, Tasters: []string{"Ailsa", "Bram"},
		Loaves: [2]blind.Loaf{{ID: "a", Name: "one"}, {ID: "b", Name: "two"}},
	}, rand.NewChaCha8([32]byte{3}))
	if err != nil {
		t.Fatal(err)
	}
	sealed, setting, err := draft.Seal()
	if err != nil {
		t.Fatal(err)
	}
	session := blind.Begin(setting)
	if err := session.AllergensShown(0); err != nil {
		t.Fatal(err)
	}
	tasting := &Tasting{At: j.Now()}
	if err := tasting.SetSetting(setting); err != nil {
		t.Fatal(err)
	}
	if err := tasting.setProgress(session.Progress()); err != nil {
		t.Fatal(err)
	}
	err = j.DoWithoutUndo("seal", func(tx *Tx) error {
		if err := Put(tx, tasting); err != nil {
			return err
		}
		return keepSealed(tx, tasting, sealed)
	})
	if err != nil {
		t.Fatal(err)
	}
	got, err := Get[Tasting](j, tasting.ID)
	if err != nil {
		t.Fatal(err)
	}
	if s, err := got.Setting(); err != nil || !reflect.DeepEqual(s, setting) || got.Commitment != setting.Commitment {
		t.Errorf("the setting came back as %+v, %v", s, err)
	}
	if p, err := got.Progress(); err != nil || !reflect.DeepEqual(p, session.Progress()) {
		t.Errorf("the progress came back as %+v, %v", p, err)
	}
	if _, known, err := got.Opened(); known || err != nil {
		t.Errorf("a sealed tasting says it is open: %v", err)
	}
	err = j.DoWithoutUndo("look", func(tx *Tx) error {
		_, err := sealedOf(tx, tasting.ID, setting, "")
		return err
	})
	if err != nil {
		t.Errorf("the seal cannot be read back: %v", err)
	}
}

// Two loaves of one name are told apart by what differs of them.
func TestTwoLoavesOfATastingHaveTwoNames(t *testing.T) {
	j := openTest(t, t.TempDir(), newClock())
	at := time.Date(2026, 3, 1, 9, 0, 0, 0, time.UTC)
	var cultures [2]ID
	for i, name := range []string{"Gorse", "Harbour"} {
		c := &Culture{Name: name}
		if err := j.Do("a culture", func(tx *Tx) error { return Put(tx, c) }); err != nil {
			t.Fatal(err)
		}
		cultures[i] = c.ID
	}
	for _, c := range []struct {
		a, b *Bake
		want [2]string
	}{
		{&Bake{Name: "Deck rye", At: at}, &Bake{Name: "Ferry loaf", At: at}, [2]string{"Deck rye", "Ferry loaf"}},
		{&Bake{Name: "Ferry loaf", At: at, Culture: cultures[0]}, &Bake{Name: "ferry loaf ", At: at, Culture: cultures[1]}, [2]string{"Ferry loaf, Gorse", "ferry loaf, Harbour"}},
		{&Bake{Name: "Ferry loaf", At: at}, &Bake{Name: "Ferry loaf", At: at.Add(-25 * time.Minute)}, [2]string{"Ferry loaf, 09:00", "Ferry loaf, 08:35"}},
		{&Bake{Name: "Ferry loaf", At: at}, &Bake{Name: "Ferry loaf", At: at.AddDate(0, 0, -1)}, [2]string{"Ferry loaf, 2026-03-01", "Ferry loaf, 2026-02-28"}},
		{&Bake{Name: "Ferry loaf", At: at}, &Bake{Name: "Ferry loaf", At: at}, [2]string{"Ferry loaf, 1", "Ferry loaf, 2"}},
		{&Bake{At: at}, &Bake{At: at.Add(time.Hour)}, [2]string{"09:00", "10:00"}},
		{&Bake{At: at}, &Bake{Name: "Ferry loaf", At: at}, [2]string{"", "Ferry loaf"}},
	} {
		for _, b := range []*Bake{c.a, c.b} {
			if err := j.Do("a bake", func(tx *Tx) error { return Put(tx, b) }); err != nil {
				t.Fatal(err)
			}
		}
		loaves, err := LoavesOf(j, [2]*Bake{c.a, c.b})
		if got := [2]string{loaves[0].Name, loaves[1].Name}; err != nil || got != c.want {
			t.Errorf("%q, %v; want %q", got, err, c.want)
		}
	}
}
