package journal

import (
	"encoding/binary"
	"errors"
	"math"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
)

// summaryLayout is the first byte of a stored summary: the layout that this program
// writes. A summary of another layout is no damage; the summaries are made anew. Give it
// another value whenever what a summary holds, or how it is derived, changes.
const summaryLayout = 6

// Errors of stored summaries.
var (
	errOtherLayout  = errors.New("the summary is of another layout")
	errSummaryShort = errors.New("the summary is cut short")
)

// A summary is stored as its members one after another, as short as they can be: all
// of them are read whenever a journal is opened, and JSON took most of that time.
//
//	text    its length as an unsigned varint, its bytes
//	number  the eight bytes of a float64, lowest first
//	count   an unsigned varint
//	time    seconds since 1970, nanoseconds and the zone's seconds east of
//	        Greenwich, each as a signed varint

type summaryWriter struct{ b []byte }

func (w *summaryWriter) count(n int) { w.b = binary.AppendUvarint(w.b, uint64(n)) }
func (w *summaryWriter) number(v float64) {
	w.b = binary.LittleEndian.AppendUint64(w.b, math.Float64bits(v))
}
func (w *summaryWriter) flag(v bool) {
	if v {
		w.b = append(w.b, 1)
	} else {
		w.b = append(w.b, 0)
	}
}
func (w *summaryWriter) text(s string) {
	w.count(len(s))
	w.b = append(w.b, s...)
}

// encodeSummary gives the same bytes for the same summary.
func encodeSummary(c *BakeSummary) []byte {
	w := &summaryWriter{b: make([]byte, 1, 384+len(c.Text))}
	w.b[0] = summaryLayout
	for _, s := range []string{string(c.ID), c.Name, string(c.State), string(c.Culture), string(c.Trial), string(c.Formula), c.Cover, string(c.CoverPhoto), c.Text} {
		w.text(s)
	}
	_, east := c.At.Zone()
	for _, v := range []int64{c.At.Unix(), int64(c.At.Nanosecond()), int64(east)} {
		w.b = binary.AppendVarint(w.b, v)
	}
	w.flag(c.Binned)
	w.flag(c.Crumb)
	w.count(c.Photos)
	w.count(len(c.Metrics))
	for _, v := range c.Metrics {
		w.text(string(v.Figure))
		w.number(v.Value)
	}
	w.count(len(c.Flours))
	for _, f := range c.Flours {
		w.text(f.Key)
		w.text(f.Name)
		w.text(f.Grain)
		w.number(float64(f.Share))
		w.number(float64(f.Weighed))
	}
	w.count(len(c.AddIns))
	for _, a := range c.AddIns {
		w.text(a)
	}
	return w.b
}

// summaryReader reads summaries one after another. Words that come in many of them, such
// as the names of flours, are kept once.
type summaryReader struct {
	b     []byte
	err   error
	kept  map[string]string
	zones map[int]*time.Location
}

func newSummaryReader() *summaryReader {
	return &summaryReader{kept: map[string]string{}, zones: map[int]*time.Location{0: time.UTC}}
}

func (r *summaryReader) take(n int) []byte {
	if r.err != nil || n < 0 || n > len(r.b) {
		r.err, r.b = errSummaryShort, nil
		return nil
	}
	out := r.b[:n]
	r.b = r.b[n:]
	return out
}

func (r *summaryReader) count() int {
	v, n := binary.Uvarint(r.b)
	if n <= 0 || v > math.MaxInt32 {
		r.take(-1)
		return 0
	}
	r.b = r.b[n:]
	return int(v)
}

// items is a count of things that each take at least a byte.
func (r *summaryReader) items() int {
	n := r.count()
	if n > len(r.b) {
		r.take(-1)
		return 0
	}
	return n
}

func (r *summaryReader) number() float64 {
	if b := r.take(8); b != nil {
		return math.Float64frombits(binary.LittleEndian.Uint64(b))
	}
	return 0
}

func (r *summaryReader) flag() bool {
	b := r.take(1)
	return b != nil && b[0] == 1
}

func (r *summaryReader) signed() int64 {
	v, n := binary.Varint(r.b)
	if n <= 0 {
		r.take(-1)
		return 0
	}
	r.b = r.b[n:]
	return v
}

func (r *summaryReader) time() time.Time {
	seconds, nanos, east := r.signed(), r.signed(), int(r.signed())
	zone, ok := r.zones[east]
	if !ok {
		zone = time.FixedZone("", east)
		r.zones[east] = zone
	}
	return time.Unix(seconds, nanos).In(zone)
}

func (r *summaryReader) text() string { return string(r.take(r.count())) }

// word is a text that other summaries are likely to have too.
func (r *summaryReader) word() string {
	b := r.take(r.count())
	if s, ok := r.kept[string(b)]; ok {
		return s
	}
	s := string(b)
	r.kept[s] = s
	return s
}

// read decodes one summary.
func (r *summaryReader) read(body []byte) (*BakeSummary, error) {
	if len(body) == 0 || body[0] != summaryLayout {
		return nil, errOtherLayout
	}
	r.b, r.err = body[1:], nil
	c := new(BakeSummary)
	c.ID, c.Name = ID(r.text()), r.word()
	c.State, c.Culture, c.Trial, c.Formula = BakeState(r.word()), ID(r.word()), ID(r.word()), ID(r.word())
	c.Cover, c.CoverPhoto, c.Text = r.text(), ID(r.text()), r.text()
	c.At = r.time()
	c.Binned, c.Crumb, c.Photos = r.flag(), r.flag(), r.count()
	if n := r.items(); n > 0 {
		c.Metrics = make([]shelf.Value, n)
		for i := range c.Metrics {
			c.Metrics[i] = shelf.Value{Figure: shelf.Metric(r.word()), Value: r.number()}
		}
	}
	if n := r.items(); n > 0 {
		c.Flours = make([]SummaryFlour, n)
		for i := range c.Flours {
			c.Flours[i] = SummaryFlour{Key: r.word(), Name: r.word(), Grain: r.word(), Share: formula.Percent(r.number()), Weighed: formula.Grams(r.number())}
		}
	}
	if n := r.items(); n > 0 {
		c.AddIns = make([]string, n)
		for i := range c.AddIns {
			c.AddIns[i] = r.word()
		}
	}
	if r.err != nil {
		return nil, r.err
	}
	return c, nil
}
