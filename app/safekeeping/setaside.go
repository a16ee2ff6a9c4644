package safekeeping

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/room"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// setAside tells what could not be read when the journal was opened, newest first.
type setAside struct {
	env    *room.Env
	column *fyne.Container
}

func newSetAside(env *room.Env) *setAside {
	s := &setAside{env: env, column: kit.Stack(2)}
	s.shown()
	return s
}

func (s *setAside) object() fyne.CanvasObject { return s.column }
func (s *setAside) keys() []kit.Key           { return nil }
func (s *setAside) left()                     {}
func (s *setAside) changed(journal.Changed)   {}

func (s *setAside) shown() {
	all, err := s.env.Journal.SetAside()
	if err != nil {
		s.env.Fail(err)
		return
	}
	s.column.Objects = nil
	units := s.env.Units()
	for _, a := range slices.Backward(all) {
		if len(s.column.Objects) == 0 {
			s.column.Add(kit.Section(lang.L("Damage that was found")))
		}
		s.column.Add(kit.Body(units.Say(say.Of("On {{.Day}} a part of the journal could not be read.", say.With{"Day": say.Moment{At: a.At, As: say.DayClock}}))))
		for _, l := range a.Lines() {
			s.column.Add(kit.Body(units.Say(l)))
		}
	}
	if len(s.column.Objects) > 0 {
		s.column.Add(kit.Small(lang.L("The damaged file was kept, whole, in {{.Folder}}. A backup from before that day may still have what is missing.",
			map[string]any{"Folder": filepath.Join(s.env.Journal.Dir(), journal.AsideFolder)})))
	}
	s.column.Hidden = len(s.column.Objects) == 0
	s.column.Refresh()
}
