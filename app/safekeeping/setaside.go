package safekeeping

import (
	"path/filepath"
	"slices"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/say"
)

// setAside tells what could not be read when the journal was opened, newest first.
type setAside struct {
	env    *pages.Env
	column *fyne.Container
}

func newSetAside(env *pages.Env) *setAside {
	s := &setAside{env: env, column: kit.Stack(3)}
	s.shown()
	return s
}

func (s *setAside) object() fyne.CanvasObject { return s.column }
func (s *setAside) keys() []kit.Key           { return nil }
func (s *setAside) left()                     {}
func (s *setAside) changed(journal.Changed)   {}

func (s *setAside) shown() {
	all, err := s.env.Journal.SetAside()
	if s.env.Failed(err) {
		return
	}
	s.column.Objects = nil
	units := s.env.Units()
	if len(all) > 0 {
		s.column.Add(kit.Section(lang.L("Damage that was found")))
	}
	for _, a := range slices.Backward(all) {
		day := say.With{"Day": say.Moment{At: a.At, As: say.DayClock}}
		found := say.Of("On {{.Day}} a part of the journal could not be read.", day)
		if a.Whole() {
			found = say.Of("On {{.Day}} the journal was found damaged, and was made whole again.", day)
		}
		one := kit.Stack(1.5, kit.Strong(units.Say(found)))
		for _, l := range a.Lines() {
			one.Add(kit.Body(units.Say(l)))
		}
		if !a.Whole() {
			one.Add(kit.Small(lang.L("A backup from before that day may still have what is missing.")))
		}
		s.column.Add(one)
	}
	if len(all) > 0 {
		s.column.Add(kit.Small(lang.N("{{.N}} damaged files are kept, unchanged, in {{.Folder}}.", len(all),
			map[string]any{"N": len(all), "Folder": filepath.Join(s.env.Journal.Dir(), journal.AsideFolder)})))
	}
	s.column.Hidden = len(s.column.Objects) == 0
	s.column.Refresh()
}
