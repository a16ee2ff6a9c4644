package carry

import (
	"context"
	"errors"
	"fmt"
	"slices"
	"strconv"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal"
	"twinloaf/journal/archive"
)

// A Standing is how a record of an archive stands to the journal.
type Standing int

// The standings.
const (
	New       Standing = iota // the journal has no record of this ID
	Same                      // the journal has it as it is, or was brought it before
	Different                 // the journal has another version of it
	Refused                   // it cannot be brought in: see Why
)

// Why says why a record cannot be brought in.
type Why string

// The reasons.
const (
	Newer       Why = "newer"         // a newer program wrote it
	NoRecord    Why = "no record"     // it does not hold what a record of its kind holds
	SealedThere Why = "sealed there"  // a sealed tasting, without what is sealed
	SealedHere  Why = "sealed here"   // the journal's own is sealed, and stays so
	DamagedHere Why = "damaged here"  // the journal's own cannot be read, and stays
	NoPicture   Why = "no picture"    // the photo's file is in neither
	NoOwner     Why = "without owner" // what it belongs to cannot be brought in
	Impossible  Why = "impossible"    // a figure in it cannot be: see Item.Figure
)

// An Item is one record of an archive.
type Item struct {
	journal.Ref
	Name     string
	At       time.Time   // when it happened, or was begun; zero where a record has no time
	Owner    journal.Ref // what it belongs to; zero for what stands by itself
	Standing Standing
	Why      Why
	// Members are those of the record in which the two versions differ.
	Members []string
	// Figure says, with Impossible, which figure cannot be.
	Figure error

	// came and here are the two versions, where it is Different.
	came, here jsontext.Value

	theirs jsontext.Value // as it would be kept under its own ID
	digest archive.Digest // of it as it came
	mine   archive.Digest // of the journal's version, where it is Different
	// settled says that the journal's own belongs to a copy already.
	settled bool
}

// An Arrival is what an archive would bring.
type Arrival struct {
	Manifest *archive.Manifest
	Items    []Item
	// Bytes is how large the pictures are that the journal has not got yet, of what is new
	// or different.
	Bytes int64

	j *journal.Journal
	a *archive.Archive
	// beside names the copies that were kept of what differed, now or before.
	beside map[string]string
	photos map[string]archive.Photo // by hash
	at     map[journal.Ref]int      // index into Items
}

// Of gives the items of a standing, in order.
func (ar *Arrival) Of(s Standing) []*Item {
	var out []*Item
	for i := range ar.Items {
		if ar.Items[i].Standing == s {
			out = append(out, &ar.Items[i])
		}
	}
	return out
}

// Compare reads the records of an archive and holds each against the journal. It
// changes nothing; progress, where there is one, is told how many of the records it has got
// through. An error is one of package archive's sentences, of the context or of
// the journal's file.
func Compare(ctx context.Context, j *journal.Journal, a *archive.Archive, progress func(done, total int)) (*Arrival, error) {
	ar := &Arrival{
		Manifest: a.Manifest, j: j, a: a,
		beside: map[string]string{}, photos: map[string]archive.Photo{}, at: map[journal.Ref]int{},
	}
	for _, p := range a.Manifest.Photos {
		ar.photos[p.SHA256] = p
	}
	// Each record is read, and then held against the journal.
	done, total := 0, 0
	for _, m := range a.Manifest.Records {
		total += 2 * m.Count
	}
	tell := func() {
		if done++; progress != nil {
			progress(done/2, total/2)
		}
	}
	var came []archive.Record
	for _, m := range inOrder(a.Manifest.Records) {
		if err := a.Records(ctx, m, func(r archive.Record) error { came = append(came, r); tell(); return nil }); err != nil {
			return nil, err
		}
	}
	err := j.Snapshot(func(r journal.Reader) error {
		for _, rec := range came {
			if err := ctx.Err(); err != nil {
				return err
			}
			item, err := ar.compare(r, rec)
			if err != nil {
				return fmt.Errorf("comparing %s %s: %w", rec.Kind, rec.ID, err)
			}
			tell()
			ar.at[item.Ref] = len(ar.Items)
			ar.Items = append(ar.Items, item)
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	var could []journal.Raw
	for _, i := range ar.Items {
		if i.Standing == New || i.Standing == Different {
			could = append(could, journal.Raw{Ref: i.Ref, Body: i.theirs})
		}
	}
	for _, p := range ar.missing(could) {
		ar.Bytes += p.Bytes
	}
	return ar, nil
}

// inOrder puts owners before what belongs to them, and kinds that nobody knows last.
func inOrder(members []archive.Records) []archive.Records {
	kinds := journal.Kinds()
	place := func(m archive.Records) int {
		if i := slices.Index(kinds, journal.Kind(m.Kind)); i >= 0 {
			return i
		}
		return len(kinds)
	}
	out := slices.Clone(members)
	slices.SortStableFunc(out, func(a, b archive.Records) int { return place(a) - place(b) })
	return out
}

// facts are what is read of a record of any kind. A member may be something else
// in another kind, so that its value is looked at when it is asked for.
type facts struct {
	At      jsontext.Value `json:"at"`
	Taken   jsontext.Value `json:"taken"`
	Added   jsontext.Value `json:"added"`
	Born    jsontext.Value `json:"born"`
	From    jsontext.Value `json:"from"`
	Culture jsontext.Value `json:"culture"`
	Owner   journal.Ref    `json:"owner"`
}

func (f facts) when() time.Time {
	for _, v := range []jsontext.Value{f.At, f.Taken, f.Added, f.Born, f.From} {
		var t time.Time
		if json.Unmarshal(v, &t) == nil && !t.IsZero() {
			return t
		}
	}
	return time.Time{}
}

// owner is what a record cannot be without: the culture of what is noted of it, and
// what a photo shows.
func (f facts) owner(kind journal.Kind) journal.Ref {
	switch kind {
	case journal.KindFeeding, journal.KindReading, journal.KindMove, journal.KindTempLog:
		var id journal.ID
		if json.Unmarshal(f.Culture, &id) == nil && id != "" {
			return journal.Ref{Kind: journal.KindCulture, ID: id}
		}
	case journal.KindPhoto:
		return f.Owner
	}
	return journal.Ref{}
}

func (ar *Arrival) compare(r journal.Reader, rec archive.Record) (Item, error) {
	item := Item{Ref: journal.Ref{Kind: journal.Kind(rec.Kind), ID: journal.ID(rec.ID)}, Name: rec.Name, theirs: rec.Body}
	refuse := func(why Why) (Item, error) {
		item.Standing, item.Why = Refused, why
		return item, nil
	}
	if !slices.Contains(journal.Kinds(), item.Kind) {
		return refuse(Newer)
	}
	if err := journal.CheckRaw(journal.Raw{Ref: item.Ref, Body: rec.Body}); errors.Is(err, journal.ErrNewer) {
		return refuse(Newer)
	} else if err != nil || !ar.whole(item.Kind, rec.Body) {
		return refuse(NoRecord)
	}
	var f facts
	if err := json.Unmarshal(rec.Body, &f); err != nil {
		return refuse(NoRecord)
	}
	item.At, item.Owner = f.when(), f.owner(item.Kind)
	mine, err := journal.GetRaw(r, item.Ref)
	switch {
	case errors.Is(err, journal.ErrNotFound):
		mine.Body = nil
	case errors.Is(err, journal.ErrDamaged), errors.Is(err, journal.ErrNewer):
		return refuse(DamagedHere)
	case err != nil:
		return item, err
	}
	if item.Kind == journal.KindTasting && isSealed(journal.Raw{Body: rec.Body}) {
		return refuse(SealedThere)
	}
	if item.Figure = journal.CheckFigures(journal.Raw{Ref: item.Ref, Body: rec.Body}, mine); item.Figure != nil {
		return refuse(Impossible)
	}
	if item.Kind == journal.KindPhoto {
		if item.theirs, err = ar.asHere(rec.Body, mine.Body); err != nil {
			return refuse(NoRecord)
		}
		if hash := fileOf(journal.Raw{Body: item.theirs}).hash; ar.photos[hash].Path == "" && !ar.j.HasOriginal(hash) {
			return refuse(NoPicture)
		}
	}
	if item.Owner.ID != "" && ar.refused(item.Owner) && !there(r, item.Owner) {
		return refuse(NoOwner)
	}
	return ar.stand(r, item, mine)
}

// stand compares a record that could be brought in with the journal's own.
func (ar *Arrival) stand(r journal.Reader, item Item, mine journal.Raw) (Item, error) {
	var err error
	if item.digest, err = archive.DigestOf(item.theirs); err != nil {
		return item, err
	}
	came := item.theirs
	if item.theirs, err = ar.renamed(item.Kind, item.theirs, ar.beside); err != nil {
		return item, err
	}
	if mine.Body == nil {
		return item, nil // New
	}
	if item.mine, err = archive.DigestOf(mine.Body); err != nil {
		return item, err
	}
	now, err := archive.DigestOf(item.theirs)
	if err != nil {
		return item, err
	}
	copied, err := ar.keptBeside(r, item, came)
	if err != nil {
		return item, err
	}
	if copied != "" {
		ar.beside[string(item.ID)] = copied
	}
	switch {
	case item.mine == item.digest || item.mine == now || copied != "":
		item.Standing, item.settled = Same, item.mine == now && now != item.digest
	case item.Kind == journal.KindTasting && isSealed(mine):
		item.Standing, item.Why = Refused, SealedHere
	default:
		item.Standing, item.Members = Different, differing(came, mine.Body)
		item.came, item.here = came, mine.Body
	}
	return item, nil
}

// keptBeside names the copy of a record that was kept beside the journal's own when
// the same record came before; empty where there is none.
func (ar *Arrival) keptBeside(r journal.Reader, item Item, came jsontext.Value) (string, error) {
	id := besideOwner(item, ar.beside)
	if id == "" {
		id = archive.Beside(string(item.ID), item.digest)
		if !there(r, journal.Ref{Kind: item.Kind, ID: journal.ID(id)}) {
			id = ""
		}
		return id, nil
	}
	// It belongs to a copy and is known by what it says, with the copies' names.
	raw, err := journal.GetRaw(r, journal.Ref{Kind: item.Kind, ID: journal.ID(id)})
	if errors.Is(err, journal.ErrNotFound) {
		return "", nil
	}
	if err != nil {
		return "", err
	}
	ar.beside[string(item.ID)] = id
	body, err := ar.renamed(item.Kind, came, ar.beside)
	delete(ar.beside, string(item.ID))
	if err != nil || !sameValue(body, raw.Body) {
		return "", err
	}
	return id, nil
}

// besideOwner names the copy that goes with the copy of a record's owner; empty where
// the owner has none.
func besideOwner(item Item, beside map[string]string) string {
	owner := beside[string(item.Owner.ID)]
	if item.Owner.ID == "" || owner == "" {
		return ""
	}
	var mark archive.Digest
	copy(mark[:], owner)
	return archive.Beside(string(item.ID), mark)
}

// asHere gives a photo record the file that the journal has of it, where the archive
// has that without place and device.
func (ar *Arrival) asHere(theirs, mine jsontext.Value) (jsontext.Value, error) {
	here := fileOf(journal.Raw{Body: mine})
	original := ar.photos[fileOf(journal.Raw{Body: theirs}).hash].Original
	if mine == nil || original == "" || here.hash != original {
		return theirs, nil
	}
	return archive.With(theirs, map[string]jsontext.Value{
		"hash":  jsontext.Value(strconv.Quote(here.hash)),
		"bytes": jsontext.Value(strconv.FormatInt(here.bytes, 10)),
	})
}

// renamed has a record name the copies that were kept beside. The sealed text of a
// tasting names its bakes, so that those stay as they are.
func (ar *Arrival) renamed(kind journal.Kind, body jsontext.Value, to map[string]string) (jsontext.Value, error) {
	if len(to) == 0 {
		return body, nil
	}
	return archive.Renamed(body, to, func(member string) bool {
		return kind == journal.KindTasting && slices.Contains([]string{"plan", "session", "result", "bakes"}, member)
	})
}

func (ar *Arrival) refused(ref journal.Ref) bool {
	i, came := ar.at[ref]
	return came && ar.Items[i].Standing == Refused
}

func there(r journal.Reader, ref journal.Ref) bool {
	_, err := journal.GetRaw(r, ref)
	return !errors.Is(err, journal.ErrNotFound)
}

// whole looks into those members that a record keeps packed.
func (ar *Arrival) whole(kind journal.Kind, body jsontext.Value) bool {
	switch kind {
	case journal.KindTempLog:
		var log journal.TempLog
		if json.Unmarshal(body, &log) != nil {
			return false
		}
		points, err := journal.UnpackTemps(log.Packed, time.UTC)
		return err == nil && len(points) == log.Count
	case journal.KindTasting:
		var t journal.Tasting
		if json.Unmarshal(body, &t) != nil {
			return false
		}
		_, err1 := t.Setting()
		_, err2 := t.Progress()
		_, _, err3 := t.Opened()
		return err1 == nil && err2 == nil && err3 == nil
	}
	return true
}

// A Pair is one member of a record in the journal's version and in the archive's, as JSON;
// nil where a version has not got it.
type Pair struct {
	Member       string
	Mine, Theirs jsontext.Value
}

// Pairs gives what differs, in the order of Members.
func (it *Item) Pairs() []Pair {
	var mine, theirs map[string]jsontext.Value
	if json.Unmarshal(it.here, &mine) != nil || json.Unmarshal(it.came, &theirs) != nil {
		return nil
	}
	var out []Pair
	for _, m := range it.Members {
		out = append(out, Pair{Member: m, Mine: mine[m], Theirs: theirs[m]})
	}
	return out
}

// NameOf gives the name of a record that the archive brings; empty for none.
func (ar *Arrival) NameOf(id journal.ID) string {
	for i := range ar.Items {
		if ar.Items[i].ID == id {
			return ar.Items[i].Name
		}
	}
	return ""
}

// differing names the members in which two records differ, in order.
func differing(a, b jsontext.Value) []string {
	var one, other map[string]jsontext.Value
	if json.Unmarshal(a, &one) != nil || json.Unmarshal(b, &other) != nil {
		return nil
	}
	var out []string
	for name, v := range one {
		if !sameValue(v, other[name]) {
			out = append(out, name)
		}
	}
	for name := range other {
		if _, ok := one[name]; !ok {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	return out
}

func sameValue(a, b jsontext.Value) bool {
	if a == nil || b == nil {
		return false
	}
	x, err1 := archive.DigestOf(a)
	y, err2 := archive.DigestOf(b)
	return err1 == nil && err2 == nil && x == y
}
