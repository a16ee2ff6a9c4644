package kit

import (
	"cmp"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/look"
	"twinloaf/journal/measure"
)

// WhenOptions says what a when field is for.
type WhenOptions struct {
	Label string
	Hint  string // shown while there is no time
	Units measure.Units
	// Now gives the present in the zone that times are shown and read in.
	Now func() time.Time
	// OnChanged is called while typing, with each time that is understood, and when a
	// day is picked. While the text is not understood nothing is told.
	OnChanged func(t time.Time)
	OnCleared func() // the text was emptied; without it a time is needed
	OnDone    func()
	// After is the time that stands above this one: on the same day only the hour is read.
	After time.Time
	// From gives the moment from which on an hour that stands alone is looked for; without
	// it that is an hour of today.
	From func() time.Time
}

// WhenField is a date and time in one field: "24 Nov 07:30", "yesterday 21:10",
// "-20 min". A small calendar opens by its button, or by Down.
type WhenField struct {
	field
	o     WhenOptions
	value time.Time
	popup *popup
}

// NewWhenField makes a field without a time.
func NewWhenField(o WhenOptions) *WhenField {
	w := &WhenField{o: o}
	w.field.init(w, o.Label, Span{}, false)
	w.entry.PlaceHolder = o.Hint
	w.entry.selectAll = true
	w.numeric = true
	w.tail = newMonthButton(w.showMonth)
	w.spans = w.words
	w.changed = w.typed
	w.left = w.done
	w.entry.onKey = func(ev *fyne.KeyEvent) bool {
		if ev.Name != fyne.KeyDown {
			return false
		}
		w.showMonth()
		return true
	}
	w.Refresh()
	return w
}

func (w *WhenField) words() []Span {
	switch {
	case !w.value.IsZero() && w.Problem() == "":
		zone := w.o.Now().Location()
		if at := w.value.In(zone); noonOf(at).Equal(noonOf(w.o.After.In(zone))) {
			return []Span{{Text: w.o.Units.Clock(at)}}
		}
		return []Span{{Text: w.o.Units.Moment(w.value, w.o.Now())}}
	case strings.TrimSpace(w.entry.text()) != "":
		return []Span{{Text: w.entry.text()}}
	}
	hint := cmp.Or(w.o.Hint, lang.L("no time yet"))
	return []Span{{Text: hint, Color: look.ColorFaint}}
}

func (w *WhenField) typed(text string) {
	if strings.TrimSpace(text) == "" {
		w.value = time.Time{}
		w.aside.SetText("")
		if w.o.OnCleared == nil {
			w.SetProblem(lang.L("A time is needed here."))
			return
		}
		w.shown = ""
		w.Remark("")
		w.o.OnCleared()
		return
	}
	t, err := w.o.Units.ParseWhen(text, w.o.Now())
	if w.o.From != nil {
		if hour, ok := w.o.Units.Shorthand().HourFrom(text, w.o.From().In(w.o.Now().Location())); ok {
			t = hour
		}
	}
	if err != nil {
		w.value = time.Time{}
		w.aside.SetText("")
		w.SetProblem(err.Error())
		return
	}
	w.value = t
	w.shown = w.o.Units.Moment(t, w.o.Now())
	w.aside.SetText(w.o.Units.Moment(t, w.o.Now()))
	w.Remark("")
	tell(w.o.OnChanged, t)
}

func (w *WhenField) done() {
	w.aside.SetText("")
	if !w.value.IsZero() {
		w.setText(w.o.Units.Moment(w.value, w.o.Now()))
	}
	call(w.o.OnDone)
}

// SetTime shows another time; the zero time shows none. While the field is edited it
// changes nothing; nor does it while what was typed is not understood and t is the time
// last told.
func (w *WhenField) SetTime(t time.Time) {
	if !w.keeps(w.written(t)) {
		w.put(t)
	}
}

func (w *WhenField) written(t time.Time) string {
	if t.IsZero() {
		return ""
	}
	return w.o.Units.Moment(t, w.o.Now())
}

func (w *WhenField) put(t time.Time) {
	w.value = t
	w.setText(w.written(t))
	w.Remark("")
}

// Time gives the moment; ok is false without a readable one.
func (w *WhenField) Time() (t time.Time, ok bool) { return w.value, !w.value.IsZero() }

// showMonth opens the small calendar at the field's day. Picking a day keeps the
// time of day.
func (w *WhenField) showMonth() {
	c := canvasOf(w.entry)
	if c == nil {
		return
	}
	at := w.value.In(w.o.Now().Location())
	if w.value.IsZero() {
		at = w.o.Now()
	}
	m := NewMonth(at, w.o.Now())
	m.OnPicked = func(day time.Time) {
		w.closeMonth()
		y, mo, d := day.Date()
		t := time.Date(y, mo, d, at.Hour(), at.Minute(), 0, 0, at.Location())
		w.put(t)
		tell(w.o.OnChanged, t)
	}
	m.OnCancel = w.closeMonth
	pos := fyne.CurrentApp().Driver().AbsolutePositionForObject(w.entry)
	w.popup = showPopup(c, m, pos.Add(fyne.NewPos(0, w.entry.Size().Height)))
	c.Focus(m)
}

func (w *WhenField) closeMonth() {
	if w.popup != nil {
		w.popup.close()
		w.popup = nil
	}
}
