package shelf

import (
	"bytes"
	"strings"

	"fyne.io/fyne/v2/lang"
	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/shelf"
)

// state is a way of looking at the shelf: what is kept under a name.
type state struct {
	Filter  shelf.Filter   `json:"filter"`
	Order   shelf.Order    `json:"order,omitzero"`
	GroupBy shelf.Grouping `json:"groupBy,omitzero"`
}

func (s state) keep() (jsontext.Value, error) { return json.Marshal(s, json.Deterministic(true)) }

func readState(v jsontext.Value) (s state, err error) {
	err = json.Unmarshal(v, &s)
	return s, err
}

// lookPrefix begins the More of a place that carries a state.
const lookPrefix = "look "

// routeOf is the shelf as a state shows it, for the other pages to go to.
func routeOf(s state) pages.Route {
	v, err := s.keep()
	if err != nil {
		return pages.Route{Name: pages.Shelf} // nothing in a state cannot be written
	}
	return pages.Route{Name: pages.Shelf, More: lookPrefix + string(v)}
}

// stateOf is what a place of the shelf shows: a view by its ID, a state in More, or
// everything.
func stateOf(r journal.Reader, p pages.Route) (state, error) {
	if p.ID != "" {
		view, err := journal.Get[journal.View](r, p.ID)
		if err != nil {
			return state{}, err
		}
		return readState(view.Filter)
	}
	if v, ok := strings.CutPrefix(p.More, lookPrefix); ok {
		return readState(jsontext.Value(v))
	}
	return state{}, nil
}

// picked is the range after a bin of the histogram was tapped: the bin alone at
// first; one outside the range widens it, one inside makes it that bin alone, and
// the only bin of a range takes the range away.
func picked(old *shelf.Range, bin shelf.Range) shelf.Range {
	if old == nil || old.AtLeast == nil || old.AtMost == nil {
		return bin
	}
	switch {
	case sameRange(old, &bin):
		return shelf.Range{Figure: bin.Figure}
	case *bin.AtMost <= *old.AtLeast:
		return shelf.Range{Figure: bin.Figure, AtLeast: bin.AtLeast, AtMost: old.AtMost, Below: old.Below}
	case *bin.AtLeast >= *old.AtMost:
		return shelf.Range{Figure: bin.Figure, AtLeast: old.AtLeast, AtMost: bin.AtMost, Below: bin.Below}
	}
	return bin
}

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
