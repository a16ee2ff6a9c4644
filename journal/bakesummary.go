package journal

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"maps"
	"math"
	"slices"
	"strings"
	"time"

	"twinloaf/journal/formula"
	"twinloaf/journal/shelf"
	"twinloaf/journal/store"
)

// A BakeSummary is what the shelf knows of a bake without reading it: the figures
// that it is found, sorted and shown by. It is derived from the bake and its
// photos in the transaction that changes them, and can be rebuilt from them.
type BakeSummary struct {
	ID      ID
	Name    string
	At      time.Time
	State   BakeState
	Binned  bool
	Culture ID
	Trial   ID
	Formula ID

	Flours []SummaryFlour // most first
	AddIns []string

	// Metrics are the figures that it has, in the order of their names: of the dough, of
	// its day, of how it came out, its scores, and what was measured of its crumb and can
	// stand beside that of other bakes (see onShelf).
	Metrics []shelf.Value

	Photos     int
	Cover      string // hash of the picture shown, crumb first
	CoverPhoto ID
	Crumb      bool // has a crumb photo
	// Text is what a search looks through: name and notes, in lower case.
	Text string
}

// SummaryFlour is one flour of a bake.
type SummaryFlour struct {
	Key     string // see [FlourKey]
	Name    string
	Grain   string
	Share   formula.Percent // of the flour that went into the dough, what is in a culture aside
	Weighed formula.Grams   // with what is in the part of a levain that was kept over
}

// Metric gives a figure by its name, or one that is no number where it has none.
func (c *BakeSummary) Metric(m shelf.Metric) float64 {
	if i, ok := slices.BinarySearchFunc(c.Metrics, m, func(v shelf.Value, m shelf.Metric) int { return cmp.Compare(v.Figure, m) }); ok {
		return c.Metrics[i].Value
	}
	return math.NaN()
}

// Score is the overall score, 1 to 9; 0 without one.
func (c *BakeSummary) Score() int {
	if v := c.Metric(shelf.Score); v > 0 {
		return int(v)
	}
	return 0
}

// summarize derives the summary of a bake; crumb is what was measured of its crumb.
func summarize(b *Bake, photos []*Photo, crumb map[string]float64) *BakeSummary {
	flours := summaryFlours(b)
	c := &BakeSummary{
		ID: b.ID, Name: b.Name, At: b.At, State: b.State, Binned: b.InBin(),
		Culture: b.Culture, Trial: b.Trial, Formula: b.Formula,
		Flours: flours, AddIns: addIns(b), Photos: len(photos),
	}
	metrics := metricsOf(b, len(flours) > 0)
	for measure, v := range crumb {
		metrics[shelf.CrumbOf(measure)] = v
	}
	var text []string
	text = append(text, b.Name, b.Notes, b.Outcome.Notes)
	for _, s := range b.Outcome.Scores {
		switch {
		case s.Score == 0:
			continue
		case s.Attribute == Overall:
			metrics[shelf.Score] = float64(s.Score)
		default:
			metrics[shelf.ScoreOf(s.Attribute)] = float64(s.Score)
		}
		text = append(text, s.Note)
	}
	for _, m := range slices.Sorted(maps.Keys(metrics)) {
		c.Metrics = append(c.Metrics, shelf.Value{Figure: m, Value: metrics[m]})
	}
	for _, s := range b.Steps {
		text = append(text, s.Note)
	}
	for _, p := range photos {
		text = append(text, p.Caption)
		c.Crumb = c.Crumb || p.Role == RoleCrumb
	}
	c.Text = strings.ToLower(strings.Join(slices.DeleteFunc(text, func(s string) bool { return s == "" }), "\n"))
	if cover := coverOf(photos); cover != nil {
		c.Cover, c.CoverPhoto = cover.Hash, cover.ID
	}
	return c
}

// metricsOf gives the figures of a bake's dough, its day and how it came out. A share of
// nothing is none: a bake without its flour written down.
func metricsOf(b *Bake, weighed bool) map[shelf.Metric]float64 {
	out := map[shelf.Metric]float64{}
	if weighed {
		of := b.Dough().Metrics()
		out[shelf.Hydration], out[shelf.Salt], out[shelf.Prefermented] = float64(of.Hydration), float64(of.Salt), float64(of.Prefermented)
		out[shelf.Wholegrain], out[shelf.Inoculation], out[shelf.DoughWeight] = float64(of.Wholegrain), float64(of.Inoculation), float64(of.Dough)
	}
	day := dayOf(b)
	for m, v := range map[shelf.Metric]*float64{
		shelf.Loss: plain(b.Outcome.BakeLoss()), shelf.Volume: b.Outcome.SpecificVolume(), shelf.Height: b.Outcome.HeightMM,
		shelf.InsideTemp: plain(b.Outcome.Inside), shelf.RoomTemp: plain(b.Water.Room), shelf.DoughTemp: day.dough, shelf.Rise: day.rise,
		shelf.ColdHours: day.cold, shelf.ProofHours: day.proof, shelf.BulkHours: day.bulk,
	} {
		if v != nil {
			out[m] = *v
		}
	}
	return out
}

// plain is a quantity as a plain number.
func plain[N ~float64](v *N) *float64 {
	if v == nil {
		return nil
	}
	return new(float64(*v))
}

// dayFigures are the hours of bulk, proof and cold rest, the greatest rise and, where
// the water plan has none, the dough's temperature.
type dayFigures struct{ rise, dough, cold, proof, bulk *float64 }

func dayOf(b *Bake) dayFigures {
	d := dayFigures{dough: plain(b.Water.Dough)}
	for _, s := range b.Steps {
		if s.Skipped {
			continue
		}
		if s.Rise != nil && (d.rise == nil || *s.Rise > *d.rise) {
			d.rise = s.Rise
		}
		d.dough = cmp.Or(d.dough, plain(s.Dough))
		h := s.Length().Hours()
		if h <= 0 {
			continue
		}
		switch s.Kind {
		case StepCold:
			d.cold = new(deref(d.cold) + h)
		case StepProof:
			d.proof = new(deref(d.proof) + h)
		case StepBulk, StepTurns:
			d.bulk = new(deref(d.bulk) + h)
		}
	}
	return d
}

// summaryFlours gives the flours of a bake with their grains.
func summaryFlours(b *Bake) []SummaryFlour {
	out := FloursOf(b.Dough())
	for _, in := range b.everyLine() {
		if in.Role != formula.Flour || in.Grams <= 0 || in.Flour == nil {
			continue
		}
		key := FlourKey(in.Name)
		if i := slices.IndexFunc(out, func(f SummaryFlour) bool { return f.Key == key }); i >= 0 && out[i].Grain == "" {
			out[i].Grain = in.Flour.Grain
		}
	}
	return out
}

// addIns names what went in beside flour, water, salt and culture.
func addIns(b *Bake) []string {
	var out []string
	for _, in := range b.everyLine() {
		switch in.Role {
		case formula.Flour, formula.Water, formula.Salt, formula.Culture, formula.SoakWater:
			continue
		}
		if name := FlourKey(in.Name); name != "" && !slices.Contains(out, name) {
			out = append(out, name)
		}
	}
	return out
}

// coverOf chooses the picture that stands for a bake: its crumb, else its
// crust, else the latest.
func coverOf(photos []*Photo) *Photo {
	for _, role := range []Role{RoleCrumb, RoleCrust} {
		if i := slices.IndexFunc(photos, func(p *Photo) bool { return p.Role == role }); i >= 0 {
			return photos[i]
		}
	}
	if n := len(photos); n > 0 {
		return photos[n-1]
	}
	return nil
}

// summaryChange is a summary to keep, or, without one, an ID whose summary is gone.
type summaryChange struct {
	id      ID
	summary *BakeSummary
}

// reindex brings the stored summaries up to what a change wrote.
func reindex(t *Tx, edits []store.Edit) ([]summaryChange, error) {
	touched := t.reindex
	if touched == nil {
		touched = map[ID]bool{}
	}
	for _, e := range edits {
		r, ok := registered(e.Ref.Kind)
		if !ok || !r.summarized {
			continue
		}
		for _, v := range [][]byte{e.Before, e.After} {
			if len(v) == 0 {
				continue
			}
			rec, err := r.glance(e.Ref.ID, v)
			if err != nil {
				continue // what cannot be read goes into no summary
			}
			for _, id := range rec.(summarized).summarizedIn() {
				touched[id] = true
			}
		}
	}
	var out []summaryChange
	for id := range touched {
		summary, err := storeSummary(t, id)
		if err != nil {
			return nil, fmt.Errorf("indexing bake %s: %w", id, err)
		}
		out = append(out, summaryChange{id, summary})
	}
	return out, nil
}

// storeSummary derives the summary of one bake and stores it; nil if the bake is gone or
// cannot be read. The summary of one that a newer program wrote stays as it is.
func storeSummary(t *Tx, id ID) (*BakeSummary, error) {
	summaries := t.st.Side(sideSummaries)
	v := t.st.Get(Ref{Kind: KindBake, ID: id})
	if v == nil {
		return nil, summaries.Delete(string(id))
	}
	b, err := decode[Bake](id, v)
	if errors.Is(err, ErrNewer) {
		return storedSummary(t, id), nil
	}
	if err != nil {
		return nil, summaries.Delete(string(id))
	}
	photos, err := Linked[Photo](t, id)
	if err != nil {
		return nil, err
	}
	summary := summarize(b, photos, structureOf(t, photos))
	return summary, summaries.Put(string(id), encodeSummary(summary))
}

// storedSummary reads the summary of one bake as it was stored, if there is one.
func storedSummary(t *Tx, id ID) *BakeSummary {
	body, err := t.st.Side(sideSummaries).Get(string(id))
	if err != nil || body == nil {
		return nil
	}
	c, err := newSummaryReader().read(bytes.Clone(body))
	if err != nil {
		return nil
	}
	return c
}

// readSummaries reads every stored summary. It fails with [errOtherLayout] when one is not
// of the layout that this program writes, or cannot be read: then all are made anew.
func readSummaries(st *store.Tx) (map[ID]*BakeSummary, error) {
	out := map[ID]*BakeSummary{}
	reader := newSummaryReader()
	err := st.Side(sideSummaries).Each("", func(key string, body []byte, err error) error {
		if err != nil {
			return errOtherLayout
		}
		c, err := reader.read(body)
		if err != nil {
			return errOtherLayout
		}
		out[ID(key)] = c
		return nil
	})
	return out, err
}

// reindexAll derives every summary anew: those that are kept are of another layout.
func reindexAll(t *Tx) error {
	ids, err := t.st.IDs(KindBake)
	if err != nil {
		return err
	}
	for _, id := range ids {
		if _, err := storeSummary(t, id); err != nil {
			return fmt.Errorf("indexing bake %s: %w", id, err)
		}
	}
	return nil
}

// summarySet is every summary in memory, with the newest-first list made when asked for.
type summarySet struct {
	byID   map[ID]*BakeSummary
	sorted []*BakeSummary
}

func (s *summarySet) apply(changes []summaryChange) {
	for _, c := range changes {
		if c.summary == nil {
			delete(s.byID, c.id)
		} else {
			s.byID[c.id] = c.summary
		}
		s.sorted = nil
	}
}

func (s *summarySet) list() []*BakeSummary {
	if s.sorted == nil {
		s.sorted = slices.SortedFunc(maps.Values(s.byID), func(a, b *BakeSummary) int {
			return cmp.Or(b.At.Compare(a.At), cmp.Compare(b.ID, a.ID))
		})
	}
	return s.sorted
}

// BakeSummaries lists every bake's summary, newest first, those in the bin among them.
// The summaries and the list are shared: they must not be altered. The first call
// reads them from disk.
func (j *Journal) BakeSummaries() ([]*BakeSummary, error) {
	j.mu.Lock()
	if j.summaries != nil {
		defer j.mu.Unlock()
		return j.summaries.list(), nil
	}
	j.mu.Unlock()
	// The writer is held off, so that no summary changes between the reading and
	// the keeping.
	j.write.Lock()
	defer j.write.Unlock()
	var byID map[ID]*BakeSummary
	err := j.store.View(func(st *store.Tx) (err error) {
		byID, err = readSummaries(st)
		return err
	})
	if errors.Is(err, errOtherLayout) {
		err = j.store.Update(func(st *store.Tx) (err error) {
			if err = reindexAll(&Tx{st: st, j: j}); err == nil {
				byID, err = readSummaries(st)
			}
			return err
		})
	}
	if err != nil {
		return nil, err
	}
	j.mu.Lock()
	defer j.mu.Unlock()
	if j.summaries == nil {
		j.summaries = &summarySet{byID: byID}
	}
	return j.summaries.list(), nil
}
