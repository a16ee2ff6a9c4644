package carry

import (
	"context"
	"errors"

	"github.com/go-json-experiment/json"

	"twinloaf/journal"
	"twinloaf/journal/archive"
)

// A Packing is what is about to be taken away.
type Packing struct {
	Scope archive.Scope
	// Records counts what goes, by kind.
	Records map[journal.Kind]int
	// Bytes is the length of the pictures that go, each once.
	Bytes int64
	// LeftOut is what stays though it belongs to what goes. More may be added when the
	// pictures are read.
	LeftOut []archive.LeftOut

	j        *journal.Journal
	chosen   []journal.Ref
	records  map[journal.Kind][]journal.Raw
	pictures []picture
}

// A picture is an original that goes.
type picture struct {
	hash  string
	bytes int64 // as its record says
}

// Pack gathers what goes when the records chosen are taken away, which are bakes and
// cultures; with none of them, the whole journal. It is a picture of the journal at
// one time, however long writing it takes.
func Pack(ctx context.Context, j *journal.Journal, chosen ...journal.Ref) (*Packing, error) {
	p := &Packing{
		Scope: archive.Whole, Records: map[journal.Kind]int{},
		j: j, chosen: chosen, records: map[journal.Kind][]journal.Raw{},
	}
	err := j.Snapshot(func(r journal.Reader) error {
		if len(chosen) == 0 {
			return p.everything(ctx, r)
		}
		p.Scope = archive.Choice
		return (&gathering{p: p, r: r, seen: map[journal.Ref]bool{}}).all(chosen)
	})
	if err != nil {
		return nil, err
	}
	seen := map[string]bool{}
	for _, raw := range p.records[journal.KindPhoto] {
		f := fileOf(raw)
		if !seen[f.hash] {
			seen[f.hash] = true
			p.pictures = append(p.pictures, f)
			p.Bytes += f.bytes
		}
	}
	for kind, records := range p.records {
		p.Records[kind] = len(records)
	}
	return p, nil
}

func (p *Packing) everything(ctx context.Context, r journal.Reader) error {
	for _, kind := range journal.Kinds() {
		err := journal.EachRaw(r, kind, func(raw journal.Raw, damage error) error {
			p.add(raw, damage)
			return ctx.Err()
		})
		if err != nil {
			return err
		}
	}
	return nil
}

// add takes a record along unless it must stay.
func (p *Packing) add(raw journal.Raw, damage error) {
	switch {
	case damage != nil:
		p.leaveOut(raw, archive.Unreadable)
	case raw.Kind == journal.KindTasting && isSealed(raw):
		p.leaveOut(raw, archive.Sealed)
	default:
		p.records[raw.Kind] = append(p.records[raw.Kind], raw)
	}
}

func (p *Packing) leaveOut(raw journal.Raw, why archive.Why) {
	p.LeftOut = append(p.LeftOut, leftOut(raw, why))
}

func leftOut(raw journal.Raw, why archive.Why) archive.LeftOut {
	var named struct {
		Name string `json:"name"`
	}
	_ = json.Unmarshal(raw.Body, &named) // one that cannot be read has no name
	return archive.LeftOut{Ref: archive.Ref{Kind: string(raw.Kind), ID: string(raw.ID)}, Name: named.Name, Why: why}
}

// isSealed reports whether a tasting is sealed. One that does not tell counts as
// sealed: what is doubtful stays.
func isSealed(raw journal.Raw) bool {
	var t struct {
		Sealed   *string `json:"sealed"`
		Unsealed *string `json:"unsealed"`
	}
	return json.Unmarshal(raw.Body, &t) != nil || t.Sealed != nil && t.Unsealed == nil
}

// fileOf reads from a photo record what it says of its file.
func fileOf(raw journal.Raw) picture {
	var p struct {
		Hash  string `json:"hash"`
		Bytes int64  `json:"bytes"`
	}
	_ = json.Unmarshal(raw.Body, &p) // without a hash there is no file to be found
	return picture{p.Hash, max(p.Bytes, 0)}
}

// gathering follows a choice to what goes along with it. What is referred to and is
// not there is passed over.
type gathering struct {
	p      *Packing
	r      journal.Reader
	seen   map[journal.Ref]bool
	flours []*journal.Flour
}

func (g *gathering) all(chosen []journal.Ref) (err error) {
	if g.flours, err = journal.All[journal.Flour](g.r); err != nil {
		return err
	}
	for _, ref := range chosen {
		switch ref.Kind {
		case journal.KindBake:
			err = g.bake(ref.ID)
		case journal.KindCulture:
			err = g.culture(ref.ID)
		default:
			err = g.one(ref)
		}
		if err != nil {
			return err
		}
	}
	return nil
}

// one takes a single record along, once.
func (g *gathering) one(ref journal.Ref) error {
	if ref.ID == "" || g.seen[ref] {
		return nil
	}
	g.seen[ref] = true
	raw, err := journal.GetRaw(g.r, ref)
	switch {
	case errors.Is(err, journal.ErrNotFound):
		return nil
	case err != nil && !errors.Is(err, journal.ErrDamaged):
		return err
	}
	g.p.add(raw, err)
	return nil
}

func (g *gathering) bake(id journal.ID) error {
	b, err := journal.Get[journal.Bake](g.r, id)
	if err != nil {
		return err
	}
	if err := g.one(journal.RefOf(b)); err != nil {
		return err
	}
	if err := g.photos(id); err != nil {
		return err
	}
	if err := g.series(id); err != nil {
		return err
	}
	if err := g.lineage(b.Culture); err != nil {
		return err
	}
	if err := g.one(journal.Ref{Kind: journal.KindFormula, ID: b.Formula}); err != nil {
		return err
	}
	lines := b.Ingredients
	for _, l := range b.Levains {
		lines = append(lines[:len(lines):len(lines)], l.Lines...)
	}
	for _, in := range lines {
		for _, f := range g.flours {
			if journal.FlourKey(f.Name) != journal.FlourKey(in.Name) {
				continue
			}
			if err := g.one(journal.RefOf(f)); err != nil {
				return err
			}
		}
	}
	return nil
}

// lineage takes a culture's record along, and those that it was split from.
func (g *gathering) lineage(id journal.ID) error {
	for id != "" && !g.seen[journal.Ref{Kind: journal.KindCulture, ID: id}] {
		if err := g.one(journal.Ref{Kind: journal.KindCulture, ID: id}); err != nil {
			return err
		}
		c, err := journal.Get[journal.Culture](g.r, id)
		if err != nil {
			return nil // what cannot be read was left out by one
		}
		id = c.Parent
	}
	return nil
}

func (g *gathering) culture(id journal.ID) error {
	if err := g.lineage(id); err != nil {
		return err
	}
	if err := g.photos(id); err != nil {
		return err
	}
	if err := owned[journal.Feeding](g, id, g.photos); err != nil {
		return err
	}
	if err := owned[journal.Reading](g, id, g.photos); err != nil {
		return err
	}
	if err := owned[journal.Move](g, id, nil); err != nil {
		return err
	}
	if err := g.series(id); err != nil {
		return err
	}
	return owned[journal.TempLog](g, id, nil)
}

// series takes along the rows of pictures of a culture or a bake, their frames, and of
// these the originals.
func (g *gathering) series(owner journal.ID) error {
	return owned[journal.Series](g, owner, func(id journal.ID) error { return owned[journal.Photo](g, id, g.photos) })
}

func (g *gathering) photos(owner journal.ID) error { return owned[journal.Photo](g, owner, nil) }

// owned takes along the records of one kind that belong to owner, and then what with
// takes along for each of them.
func owned[T any, R journal.Record[T]](g *gathering, owner journal.ID, with func(journal.ID) error) error {
	list, err := journal.Linked[T, R](g.r, owner)
	if err != nil {
		return err
	}
	for _, rec := range list {
		ref := journal.RefOf[T, R](rec)
		if err := g.one(ref); err != nil {
			return err
		}
		if with == nil {
			continue
		}
		if err := with(ref.ID); err != nil {
			return err
		}
	}
	return nil
}
