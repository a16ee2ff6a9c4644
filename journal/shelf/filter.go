package shelf

import (
	"slices"
	"time"
)

// A Filter says which bakes are meant. Its parts hold together: a bake is let
// through when every part lets it through. The zero Filter lets all through.
type Filter struct {
	Flours   []FlourPart `json:"flours,omitempty"`   // each of them
	AddIns   []string    `json:"addIns,omitempty"`   // each of them
	Cultures []string    `json:"cultures,omitempty"` // any of them
	Trials   []string    `json:"trials,omitempty"`   // any of them; AnyTrial for every one
	Seasons  []Season    `json:"seasons,omitempty"`  // any of them
	From     time.Time   `json:"from,omitzero"`      // not before
	To       time.Time   `json:"to,omitzero"`        // before
	Ranges   []Range     `json:"ranges,omitempty"`   // each of them, one for a figure
	Photos   Photos      `json:"photos,omitzero"`
	Text     string      `json:"text,omitzero"` // each of its words, in any order
}

// A FlourPart asks for a flour with a share. Without bounds any share will do.
type FlourPart struct {
	Flour   string   `json:"flour"`
	AtLeast *float64 `json:"atLeast,omitzero"` // percent
	AtMost  *float64 `json:"atMost,omitzero"`
}

func (p FlourPart) holds(share float64) bool {
	return share > 0 && (p.AtLeast == nil || share >= *p.AtLeast-slack) && (p.AtMost == nil || share <= *p.AtMost+slack)
}

// A Range asks for a figure between bounds, both included unless Below leaves the
// upper one out. A bake without the figure is not let through.
type Range struct {
	Figure  Metric   `json:"figure"`
	AtLeast *float64 `json:"atLeast,omitzero"`
	AtMost  *float64 `json:"atMost,omitzero"`
	Below   bool     `json:"below,omitzero"` // AtMost itself is not meant
}

func (r Range) holds(v float64) bool {
	return v == v && (r.AtLeast == nil || v >= *r.AtLeast-slack) &&
		(r.AtMost == nil || r.Below && v < *r.AtMost-slack || !r.Below && v <= *r.AtMost+slack)
}

// slack lets through what is outside a bound only by the rounding of its
// arithmetic: three parts of twenty are 15 %, though a division may say less.
const slack = 1e-9

// Photos asks for bakes by the photos they have.
type Photos string

// What can be asked of the photos.
const (
	AnyPhotos Photos = ""
	WithPhoto Photos = "with"
	WithCrumb Photos = "crumb"
	NoPhoto   Photos = "none"
)

func (p Photos) holds(r *Row) bool {
	switch p {
	case WithPhoto:
		return r.Photos > 0
	case WithCrumb:
		return r.Crumb
	case NoPhoto:
		return r.Photos == 0
	}
	return true
}

// AnyTrial, among the trials of a filter, stands for every one of them.
const AnyTrial = "*"

// Empty reports whether the filter lets everything through.
func (f Filter) Empty() bool {
	return len(f.Flours)+len(f.AddIns)+len(f.Cultures)+len(f.Trials)+len(f.Seasons)+len(f.Ranges) == 0 &&
		f.From.IsZero() && f.To.IsZero() && f.Photos == AnyPhotos && len(words(f.Text)) == 0
}

// Flour gives the part that asks for a flour; nil if none does.
func (f *Filter) Flour(key string) *FlourPart {
	i := slices.IndexFunc(f.Flours, func(p FlourPart) bool { return p.Flour == key })
	if i < 0 {
		return nil
	}
	return &f.Flours[i]
}

// Range gives the bounds of a figure; nil if there are none.
func (f *Filter) Range(figure Metric) *Range {
	i := slices.IndexFunc(f.Ranges, func(r Range) bool { return r.Figure == figure })
	if i < 0 {
		return nil
	}
	return &f.Ranges[i]
}

// SetRange bounds a figure in the place of its former bounds; with neither
// bound it takes them away.
func (f *Filter) SetRange(r Range) {
	f.Ranges = slices.DeleteFunc(slices.Clone(f.Ranges), func(o Range) bool { return o.Figure == r.Figure })
	if r.AtLeast != nil || r.AtMost != nil {
		f.Ranges = append(f.Ranges, r)
	}
}

// SetFlour asks for a flour in the place of what was asked of it.
func (f *Filter) SetFlour(p FlourPart) {
	f.Flours = slices.Clone(f.Flours)
	if old := f.Flour(p.Flour); old != nil {
		*old = p
		return
	}
	f.Flours = append(f.Flours, p)
}

// DropFlour no longer asks for a flour.
func (f *Filter) DropFlour(key string) {
	f.Flours = slices.DeleteFunc(slices.Clone(f.Flours), func(p FlourPart) bool { return p.Flour == key })
}

// RenameFlour asks for a flour under another key.
func (f *Filter) RenameFlour(key, to string) {
	if part := f.Flour(key); part != nil {
		named := *part
		named.Flour = to
		f.DropFlour(key)
		f.SetFlour(named)
	}
	f.Ranges = slices.Clone(f.Ranges)
	for i := range f.Ranges {
		f.Ranges[i].Figure = f.Ranges[i].Figure.named(key, to)
	}
}

// RenameFlour is [Filter.RenameFlour] for what rows are sorted by.
func (o *Order) RenameFlour(key, to string) { o.By = o.By.named(key, to) }

// Toggled gives list with v taken out, or else put in.
func Toggled[T comparable](list []T, v T) []T {
	if slices.Contains(list, v) {
		return slices.DeleteFunc(slices.Clone(list), func(o T) bool { return o == v })
	}
	return append(slices.Clone(list), v)
}
