package cultures

import (
	"slices"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/histories"
)

// moveDialog is a move being written down.
type moveDialog struct {
	env   *pages.Env
	rec   journal.Move
	label string
	sheet *kit.Dialog
}

// homes are the places a culture lives in, in the order in which they are offered.
func homes() []journal.Home {
	return []journal.Home{journal.Counter, journal.WarmSpot, journal.Refrigerator}
}

// homeLabels are the homes as they are chosen.
func homeLabels() []string {
	return []string{lang.L("counter"), lang.L("warm spot"), lang.L("refrigerator")}
}

// moveCulture opens the dialog for a new move: out of the refrigerator if it rests
// there, else into it.
func moveCulture(env *pages.Env, l *histories.CultureHistory) *moveDialog {
	to := journal.Refrigerator
	if l.Home(env.Now()) == journal.Refrigerator {
		to = journal.Counter
	}
	s := &moveDialog{env: env, rec: journal.Move{Culture: l.Culture.ID, At: env.Now(), To: to},
		label: lang.L("moving {{.Name}}", map[string]any{"Name": nameOf(l.Culture)})}
	s.show(lang.L("Where does {{.Name}} go?", map[string]any{"Name": nameOf(l.Culture)}))
	return s
}

// alterMove opens the dialog on a move that was written down before.
func alterMove(env *pages.Env, l *histories.CultureHistory, m *journal.Move) *moveDialog {
	s := &moveDialog{env: env, rec: *m, label: lang.L("moving {{.Name}}", map[string]any{"Name": nameOf(l.Culture)})}
	s.show(lang.L("Moved {{.When}}", map[string]any{"When": env.Units().Moment(m.At, env.Now())}))
	return s
}

func (s *moveDialog) show(title string) {
	u := s.env.Units()
	chosen := max(0, slices.Index(homes(), s.rec.To))
	hint := kit.Small("")
	say := func() {
		switch s.rec.To {
		case journal.Refrigerator:
			hint.SetText(lang.L("Leave it out for an hour or two after feeding, then chill it for up to a week (common practice)."))
		default:
			hint.SetText(lang.L("Straight from the refrigerator it needs a feeding or two before a bake (common practice)."))
		}
	}
	say()
	to := kit.NewSegments("", homeLabels(), chosen, func(i int) { s.rec.To = homes()[i]; say(); s.sheet.Refresh() })
	when := whenField(s.env, &s.rec.At, func() {})
	temp := kit.NewQuantityField(kit.QuantityOptions{Label: lang.L("Temperature there"), Measure: u.Temperature(), Keep: func(v *float64) { s.rec.Temp = celsius(v) }})
	temp.Set(kit.Number(s.rec.Temp))
	note := noteField(&s.rec.Note)
	bin := func() { s.sheet.Close(); binEntry(s.env, journal.RefOf(&s.rec)) }
	s.sheet = kit.ShowDialog(s.env.Window, kit.DialogOptions{Title: title, Width: 520, Buttons: keepButtons(lang.L("Save"), s.keep, s.rec.ID != "", bin), OnEnter: s.keep,
		Content: kit.Stack(4, to, hint, kit.Columns(look.Space(30), when, temp), note),
		Keys: []kit.Key{
			{Name: "1", Do: func() { to.SetChosen(0); to.OnChanged(0) }},
			{Name: "2", Do: func() { to.SetChosen(1); to.OnChanged(1) }},
			{Name: "3", Do: func() { to.SetChosen(2); to.OnChanged(2) }},
		}})
}

func (s *moveDialog) keep() {
	if s.sheet == nil || !s.sheet.Ready() {
		return
	}
	ok := s.env.Do(s.label, func(tx *journal.Tx) error {
		if s.rec.ID == "" {
			return journal.Put(tx, &s.rec)
		}
		return journal.Change(tx, s.rec.ID, func(m *journal.Move) {
			m.At, m.To, m.Temp, m.Note = s.rec.At, s.rec.To, s.rec.Temp, s.rec.Note
		})
	})
	if ok {
		s.sheet.Close()
		s.env.Say(moveWords(&s.rec, s.env.Units())+".", true)
	}
}
