package shelf

import (
	"bytes"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
)

// keepView keeps what is shown under a name; the same name again replaces what was
// kept under it. It reports whether it was kept.
func (p *shelfPage) keepView(name string) bool {
	name = strings.Join(strings.Fields(name), " ")
	if name == "" {
		p.env.Say(lang.L("Give the view a name first."), false)
		return false
	}
	filter, err := p.state.keep()
	if p.env.Failed(err) {
		return false
	}
	view := &journal.View{Name: name, Filter: filter}
	for _, v := range p.views {
		if strings.EqualFold(v.Name, name) {
			view.Head = v.Head
		}
	}
	if !p.env.Do(lang.L("saving a view"), func(tx *journal.Tx) error { return journal.Put(tx, view) }) {
		return false
	}
	p.env.Say(lang.L("Saved as “{{.Name}}”.", map[string]any{"Name": name}), true)
	return true
}

// viewShown is the kept view that is shown now; nil for none.
func (p *shelfPage) viewShown() *journal.View {
	now, err := p.state.keep()
	if err != nil {
		return nil
	}
	for _, v := range p.views {
		if s, err := readState(v.Filter); err == nil {
			if kept, err := s.keep(); err == nil && bytes.Equal(kept, now) {
				return v
			}
		}
	}
	return nil
}

// showView shows what was kept.
func (p *shelfPage) showView(v *journal.View) {
	s, err := readState(v.Filter)
	if p.env.Failed(err) {
		return
	}
	p.state = s
	p.again()
}

// forgetView puts a kept view in the bin.
func (p *shelfPage) forgetView(v *journal.View) {
	if p.env.Do(lang.L("forgetting a view"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.View](tx, v.ID) }) {
		p.env.Say(lang.L("“{{.Name}}” is forgotten.", map[string]any{"Name": v.Name}), true)
	}
}

// renameInViews has the kept views, the bin among them, ask for a flour under its new key.
func renameInViews(tx *journal.Tx, key, to string) error {
	kept, err := journal.All[journal.View](tx)
	if err != nil {
		return err
	}
	binned, err := journal.Bin[journal.View](tx)
	if err != nil {
		return err
	}
	for _, v := range append(kept, binned...) {
		s, err := readState(v.Filter)
		if err != nil {
			continue // it is shown as one that cannot be read
		}
		before, err := s.keep()
		if err != nil {
			return err
		}
		s.Filter.RenameFlour(key, to)
		s.Order.RenameFlour(key, to)
		after, err := s.keep()
		if err != nil {
			return err
		}
		if bytes.Equal(before, after) {
			continue
		}
		v.Filter = after
		if err := journal.Put(tx, v); err != nil {
			return err
		}
	}
	return nil
}
