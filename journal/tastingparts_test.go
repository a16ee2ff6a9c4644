package journal

import (
	"math/rand/v2"
	"reflect"
	"testing"

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
