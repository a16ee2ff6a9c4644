package cultures

import (
	"maps"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
	"twinloaf/journal/limit"
	"twinloaf/journal/measure"
)

// A readForm is a reading as it is being written down.
type readForm struct {
	rec journal.Reading
	// feeding is the one that the height is read against; nil before the first.
	feeding *journal.Feeding
	// startMM is the height at the mark of that feeding, when it is told here.
	startMM *float64
	// picture is a photo to go with the reading; nil for none.
	picture *journal.Picture
}

// mark is the height of the feeding's start in the jar, if it is known.
func (f *readForm) mark() (mm float64, ok bool) {
	if f.startMM != nil && *f.startMM > 0 {
		return *f.startMM, true
	}
	if f.feeding != nil && f.feeding.StartMM != nil && *f.feeding.StartMM > 0 {
		return *f.feeding.StartMM, true
	}
	return 0, false
}

// parseHeight reads a height as it is typed, as a ratio to the mark or the millimetres
// above the bottom of the jar: see [shorthand.Style.Rise].
func parseHeight(text string, u measure.Units) (ratio, mm *float64, err error) {
	if strings.TrimSpace(text) == "" {
		return nil, nil, nil
	}
	r, err := u.Shorthand().Rise(text)
	switch {
	case err != nil:
		return nil, nil, err
	case r.MM > 0:
		return nil, &r.MM, limit.Check(limit.Length, r.MM)
	}
	return &r.Times, nil, limit.Check(limit.Rise, r.Times)
}

// setHeight takes what was typed.
func (f *readForm) setHeight(text string, u measure.Units) error {
	ratio, mm, err := parseHeight(text, u)
	if err != nil {
		return err
	}
	f.rec.Rise, f.rec.HeightMM = ratio, mm
	if text != "" {
		f.rec.Lines = nil
	}
	return nil
}

// heightText writes the height as it was noted, as [parseHeight] reads it.
func (f *readForm) heightText(u measure.Units) string {
	switch {
	case f.rec.Rise != nil:
		return u.Times().Write(*f.rec.Rise)
	case f.rec.HeightMM != nil:
		m := millimetres(u)
		return m.Format(*f.rec.HeightMM) + " " + m.Unit
	}
	return ""
}

// riseWords say what a height means.
func (f *readForm) riseWords(u measure.Units) string {
	feeding := f.feeding
	if mm, ok := f.mark(); ok {
		feeding = &journal.Feeding{StartMM: &mm}
	}
	rise, ok := histories.Rise(&f.rec, feeding)
	data := map[string]any{"Rise": u.Times().Write(rise), "Over": u.FormatNumber(100*(rise-1), 0)}
	switch {
	case !ok && f.rec.HeightMM != nil:
		return lang.L("How high did it stand at the mark, just after the feeding?")
	case !ok:
		return ""
	case f.rec.Lines != nil:
		return lang.L("{{.Rise}} the mark, measured on the photo.", data)
	}
	return lang.L("{{.Rise}} the mark, {{.Over}} % over it.", data)
}

// toggleSmell goes from a smell not noticed over faint and clear to strong and back.
func (f *readForm) toggleSmell(s ferment.Smell) int {
	scores := maps.Clone(f.rec.Smells)
	if scores == nil {
		scores = map[string]int{}
	}
	n := (scores[string(s)] + 1) % 4
	if s == ferment.SmellNone && n > 1 {
		n = 0
	}
	if n == 0 {
		delete(scores, string(s))
	} else {
		scores[string(s)] = n
		if s == ferment.SmellNone {
			scores = map[string]int{string(s): 1}
		} else {
			delete(scores, string(ferment.SmellNone))
		}
	}
	if len(scores) == 0 {
		scores = nil
	}
	f.rec.Smells = scores
	return n
}

// empty says that nothing has been noted.
func (f *readForm) empty() bool {
	r := f.rec
	return r.Rise == nil && r.HeightMM == nil && r.Temp == nil && r.Bubbles == nil && len(r.Smells) == 0 && !r.Liquid && !r.Mould && !r.Tint &&
		r.PH == nil && r.TTA == nil && r.Lines == nil && r.Trend == "" && strings.TrimSpace(r.Note) == "" && f.picture == nil
}

// danger says that what was seen is a reason to throw the culture away.
func (f *readForm) danger() bool { return f.rec.Mould || f.rec.Tint }

// cautions are what the reading calls for, the gravest first.
func (f *readForm) cautions(u measure.Units) []string {
	var out []string
	if f.danger() {
		out = append(out, u.Say(ferment.ThrowAway()))
	}
	if f.rec.Liquid {
		out = append(out, u.Say(ferment.Hungry()))
	}
	return out
}

// write makes the reading part of a change, and with it what was told of the mark.
func (f *readForm) write(tx *journal.Tx) error {
	if f.startMM != nil && f.feeding == nil { // no feeding has the mark: the rise is kept instead
		if rise, ok := histories.Rise(&f.rec, &journal.Feeding{StartMM: f.startMM}); ok {
			f.rec.Rise = &rise
		}
	}
	if f.startMM != nil && f.feeding != nil {
		err := journal.Change(tx, f.feeding.ID, func(x *journal.Feeding) { x.StartMM = f.startMM })
		if err != nil {
			return err
		}
	}
	if f.rec.ID == "" {
		return journal.Put(tx, &f.rec)
	}
	return journal.Change(tx, f.rec.ID, func(r *journal.Reading) {
		head := r.Head
		*r = f.rec
		r.Head = head
	})
}

// acidityWords set a measured pH beside what is published.
func (f *readForm) acidityWords(u measure.Units) string {
	if f.rec.PH == nil {
		return ""
	}
	return u.Say(ferment.AcidityWords(*f.rec.PH))
}
