package shelf

import (
	"strings"

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
