package journal

import (
	"cmp"
	"encoding/binary"
	"errors"
	"math"
	"slices"
	"time"

	"twinloaf/journal/formula"
)

// cardLayout is the first byte of a stored card: the layout that this program
// writes. A card of another layout is no damage; the cards are made anew. Give it
// another value whenever what a card holds, or how it is derived, changes.
const cardLayout = 3

// Errors of stored cards.
var (
	errOtherLayout = errors.New("the card is of another layout")
	errCardShort   = errors.New("the card is cut short")
)

// A card is stored as its members one after another, as short as they can be: all
// of them are read whenever a journal is opened, and JSON took most of that time.
//
//	text    its length as an unsigned varint, its bytes
//	number  the eight bytes of a float64, lowest first
//	count   an unsigned varint
//	time    seconds since 1970, nanoseconds and the zone's seconds east of
//	        Greenwich, each as a signed varint
//	a measurement that may be missing: a byte, 1 before the number, 0 without one

type cardWriter struct{ b []byte }

func (w *cardWriter) count(n int) { w.b = binary.AppendUvarint(w.b, uint64(n)) }
func (w *cardWriter) number(v float64) {
	w.b = binary.LittleEndian.AppendUint64(w.b, math.Float64bits(v))
}
func (w *cardWriter) flag(v bool) {
	if v {
		w.b = append(w.b, 1)
	} else {
		w.b = append(w.b, 0)
	}
}
func (w *cardWriter) text(s string) {
	w.count(len(s))
	w.b = append(w.b, s...)
}

func writeMaybe[N ~float64](w *cardWriter, v *N) {
	w.flag(v != nil)
	if v != nil {
		w.number(float64(*v))
	}
}

func writeMap[N int | float64](w *cardWriter, m map[string]N) {
	w.count(len(m))
	names := make([]string, 0, len(m))
	for name := range m {
		names = append(names, name)
	}
	slices.SortFunc(names, cmp.Compare)
	for _, name := range names {
		w.text(name)
		w.number(float64(m[name]))
	}
}

// encodeCard gives the same bytes for the same card.
func encodeCard(c *Card) []byte {
	w := &cardWriter{b: make([]byte, 1, 384+len(c.Text))}
	w.b[0] = cardLayout
	for _, s := range []string{string(c.ID), c.Name, string(c.State), string(c.Culture), string(c.Trial), string(c.Formula), c.Cover, string(c.CoverPhoto), c.Text} {
		w.text(s)
	}
	_, east := c.At.Zone()
	for _, v := range []int64{c.At.Unix(), int64(c.At.Nanosecond()), int64(east)} {
		w.b = binary.AppendVarint(w.b, v)
	}
	w.flag(c.Binned)
	w.flag(c.Crumb)
	w.number(float64(c.Score))
	w.count(c.Photos)
	for _, v := range []float64{float64(c.Hydration), float64(c.Salt), float64(c.Prefermented), float64(c.Wholegrain), float64(c.Inoculation), float64(c.DoughG), float64(c.FlourG)} {
		w.number(v)
	}
	writeMaybe(w, c.Loss)
	writeMaybe(w, c.Volume)
	writeMaybe(w, c.HeightMM)
	writeMaybe(w, c.Rise)
	writeMaybe(w, c.DoughC)
	writeMaybe(w, c.InsideC)
	writeMaybe(w, c.RoomC)
	writeMaybe(w, c.ColdHours)
	writeMaybe(w, c.BulkHours)
	writeMaybe(w, c.ProofHours)
	w.count(len(c.Flours))
	for _, f := range c.Flours {
		w.text(f.Key)
		w.text(f.Name)
		w.text(f.Grain)
		w.number(float64(f.Share))
	}
	w.count(len(c.AddIns))
	for _, a := range c.AddIns {
		w.text(a)
	}
	writeMap(w, c.Scores)
	writeMap(w, c.Structure)
	return w.b
}

// cardReader reads cards one after another. Words that come in many of them, such
// as the names of flours, are kept once.
type cardReader struct {
	b     []byte
	err   error
	kept  map[string]string
	zones map[int]*time.Location
}

func newCardReader() *cardReader {
	return &cardReader{kept: map[string]string{}, zones: map[int]*time.Location{0: time.UTC}}
}

func (r *cardReader) take(n int) []byte {
	if r.err != nil || n < 0 || n > len(r.b) {
		r.err, r.b = errCardShort, nil
		return nil
	}
	out := r.b[:n]
	r.b = r.b[n:]
	return out
}

func (r *cardReader) count() int {
	v, n := binary.Uvarint(r.b)
	if n <= 0 || v > math.MaxInt32 {
		r.take(-1)
		return 0
	}
	r.b = r.b[n:]
	return int(v)
}

// items is a count of things that each take at least a byte.
func (r *cardReader) items() int {
	n := r.count()
	if n > len(r.b) {
		r.take(-1)
		return 0
	}
	return n
}

func (r *cardReader) number() float64 {
	if b := r.take(8); b != nil {
		return math.Float64frombits(binary.LittleEndian.Uint64(b))
	}
	return 0
}

func (r *cardReader) flag() bool {
	b := r.take(1)
	return b != nil && b[0] == 1
}

func (r *cardReader) signed() int64 {
	v, n := binary.Varint(r.b)
	if n <= 0 {
		r.take(-1)
		return 0
	}
	r.b = r.b[n:]
	return v
}

func (r *cardReader) time() time.Time {
	seconds, nanos, east := r.signed(), r.signed(), int(r.signed())
	zone, ok := r.zones[east]
	if !ok {
		zone = time.FixedZone("", east)
		r.zones[east] = zone
	}
	return time.Unix(seconds, nanos).In(zone)
}

func (r *cardReader) text() string { return string(r.take(r.count())) }

// word is a text that other cards are likely to have too.
func (r *cardReader) word() string {
	b := r.take(r.count())
	if s, ok := r.kept[string(b)]; ok {
		return s
	}
	s := string(b)
	r.kept[s] = s
	return s
}

func readMaybe[N ~float64](r *cardReader) *N {
	if !r.flag() {
		return nil
	}
	return new(N(r.number()))
}

func readMap[N int | float64](r *cardReader) map[string]N {
	n := r.items()
	if n == 0 {
		return nil
	}
	out := make(map[string]N, n)
	for range n {
		name := r.word()
		out[name] = N(r.number())
	}
	return out
}

// read decodes one card.
func (r *cardReader) read(body []byte) (*Card, error) {
	if len(body) == 0 || body[0] != cardLayout {
		return nil, errOtherLayout
	}
	r.b, r.err = body[1:], nil
	c := new(Card)
	c.ID, c.Name = ID(r.text()), r.word()
	c.State, c.Culture, c.Trial, c.Formula = BakeState(r.word()), ID(r.word()), ID(r.word()), ID(r.word())
	c.Cover, c.CoverPhoto, c.Text = r.text(), ID(r.text()), r.text()
	c.At = r.time()
	c.Binned, c.Crumb, c.Score, c.Photos = r.flag(), r.flag(), int(r.number()), r.count()
	for _, p := range []*formula.Percent{&c.Hydration, &c.Salt, &c.Prefermented, &c.Wholegrain, &c.Inoculation} {
		*p = formula.Percent(r.number())
	}
	c.DoughG, c.FlourG = formula.Grams(r.number()), formula.Grams(r.number())
	c.Loss, c.Volume, c.HeightMM = readMaybe[formula.Percent](r), readMaybe[float64](r), readMaybe[float64](r)
	c.Rise, c.DoughC, c.InsideC = readMaybe[float64](r), readMaybe[formula.Celsius](r), readMaybe[formula.Celsius](r)
	c.RoomC, c.ColdHours, c.BulkHours = readMaybe[formula.Celsius](r), readMaybe[float64](r), readMaybe[float64](r)
	c.ProofHours = readMaybe[float64](r)
	if n := r.items(); n > 0 {
		c.Flours = make([]CardFlour, n)
		for i := range c.Flours {
			c.Flours[i] = CardFlour{Key: r.word(), Name: r.word(), Grain: r.word(), Share: formula.Percent(r.number())}
		}
	}
	if n := r.items(); n > 0 {
		c.AddIns = make([]string, n)
		for i := range c.AddIns {
			c.AddIns[i] = r.word()
		}
	}
	c.Scores, c.Structure = readMap[int](r), readMap[float64](r)
	if r.err != nil {
		return nil, r.err
	}
	return c, nil
}
