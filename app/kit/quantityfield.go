package kit

import (
	"strings"
	"unicode"

	"twinloaf/app/look"
	"twinloaf/journal/measure"
)

// QuantityOptions says what a quantity field is for.
type QuantityOptions struct {
	Label   string          // small, above; may be empty
	Measure measure.Measure // how it is written and read: units.Weight(), units.Number("ml", 0)
	Hint    string          // shown while there is no figure: "any"; without one, a blank and the unit
	Origin  string          // small beside the unit: "by displacement", "measured 07:40"
	Derived string          // how the figure was derived, shown on hover
	Large   bool            // a figure that matters: set in look.TextTitle
	Ends    float32         // where the figure ends, so that those of a column line up; 0 begins it at the left
	// Keep is called while typing, with each figure that is understood and can be, and
	// with nil when the text is emptied. Meanwhile nothing is told: the text is kept, a
	// sentence shown beneath it, and the record has the last figure that was understood.
	Keep func(v *float64)
	// Instead is asked first what a text is that says more than a figure, such as a ratio. It
	// says whether it is one of those, and what the figure then is or why it is none.
	Instead func(text string) (v float64, is bool, err error)
	// OnDone is called when the cursor leaves the field.
	OnDone func()
	// Check may object to a figure with a sentence: "more water than a bowl holds".
	// Its sentence is shown; the figure still counts.
	Check func(v float64) string
}

// QuantityField is a number with its unit, read first and edited in place.
type QuantityField struct {
	field
	o     QuantityOptions
	value float64
	has   bool
	style Span
}

// NewQuantityField makes a field without a figure.
func NewQuantityField(o QuantityOptions) *QuantityField {
	f := &QuantityField{o: o}
	if o.Large {
		f.style = Span{Size: look.TextTitle, Bold: true}
	}
	f.field.init(f, o.Label, f.style, false)
	f.numeric, f.ends = true, o.Ends
	f.entry.selectAll = true
	f.entry.onRune = f.keyOfDialog
	f.entry.PlaceHolder = o.Hint
	f.derived = o.Derived
	f.spans = f.words
	f.changed = f.typed
	f.left = f.done
	f.Refresh()
	return f
}

// keyOfDialog hands a letter that no figure begins with to the dialog around the field, if
// it is one of its keys and nothing has been typed yet.
func (f *QuantityField) keyOfDialog(r rune) bool {
	from, to := f.entry.w.selected()
	if !unicode.IsLetter(r) || from != 0 || to != len(f.entry.text()) {
		return false
	}
	s := dialogAround(f.entry)
	return s != nil && s.press(string(unicode.ToUpper(r)))
}

func (f *QuantityField) words() []Span {
	s := f.style
	switch {
	case f.has && f.Problem() == "":
		s.Text = f.o.Measure.Format(f.value)
	case f.entry.text() != "":
		s.Text = f.entry.text()
	default:
		s = Span{Text: f.o.Hint, Size: f.style.Size, Color: look.ColorFaint}
	}
	f.beside = strings.TrimSpace(f.o.Measure.Unit + "  " + f.o.Origin)
	if f.has || f.entry.editing || f.o.Hint == "" {
		f.aside.SetText(f.beside)
	} else {
		f.aside.SetText(f.o.Origin)
	}
	return []Span{s}
}

func (f *QuantityField) typed(text string) {
	if strings.TrimSpace(text) == "" {
		f.has, f.value, f.shown = false, 0, ""
		f.Remark("")
		tell(f.o.Keep, nil)
		return
	}
	v, err := f.read(text)
	if err != nil {
		f.has = false
		f.SetProblem(err.Error())
		return
	}
	f.value, f.has = v, true
	f.shown = f.o.Measure.Format(v)
	f.Remark(f.objection())
	tell(f.o.Keep, &v)
}

// read gives the figure that a text is, or why it is none.
func (f *QuantityField) read(text string) (float64, error) {
	if f.o.Instead != nil {
		if v, is, err := f.o.Instead(text); is {
			return v, err
		}
	}
	v, err := f.o.Measure.Parse(text)
	if err == nil {
		err = f.o.Measure.Check(v)
	}
	return v, err
}

func (f *QuantityField) objection() string {
	if f.o.Check == nil || !f.has {
		return ""
	}
	return f.o.Check(f.value)
}

// done writes a figure that is understood in its usual form.
func (f *QuantityField) done() {
	if f.has && !f.refused {
		f.setText(f.o.Measure.Format(f.value))
	}
	call(f.o.OnDone)
}

// SetValue shows another figure. While the field is edited it changes nothing; nor
// does it while what was typed is not understood and v is the figure last told.
func (f *QuantityField) SetValue(v float64) {
	s := f.o.Measure.Format(v)
	if f.keeps(s) {
		return
	}
	f.value, f.has = v, true
	f.setText(s)
	f.Remark(f.objection())
}

// Clear shows no figure, where SetValue would show another.
func (f *QuantityField) Clear() {
	if f.keeps("") {
		return
	}
	f.value, f.has = 0, false
	f.setText("")
	f.Remark("")
}

// Set shows a figure, or none. It is cheap when nothing changed.
func (f *QuantityField) Set(v *float64) {
	switch {
	case v != nil && (!f.has || f.value != *v):
		f.SetValue(*v)
	case v == nil && f.entry.text() != "":
		f.Clear()
	}
}

// Value gives the figure in the base unit; ok is false without a readable one.
func (f *QuantityField) Value() (v float64, ok bool) { return f.value, f.has }

// SetOrigin changes what stands beside the unit.
func (f *QuantityField) SetOrigin(s string) {
	f.o.Origin = s
	f.Refresh()
}

// SetMeasure changes the face of the figure: its units, or the decimals of its column. It is
// cheap when nothing changed. What is being typed stays.
func (f *QuantityField) SetMeasure(m measure.Measure) {
	was := f.o.Measure
	f.o.Measure = m
	if m.Unit == was.Unit && m.Format(f.value) == was.Format(f.value) {
		return
	}
	if f.has && !f.Editing() {
		f.setText(m.Format(f.value))
	}
	f.Refresh()
}
