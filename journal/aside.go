package journal

import (
	"cmp"
	"context"
	"errors"
	"fmt"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"time"

	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/say"
	"twinloaf/journal/store"
)

// A SetAside is what was found when a damaged journal was opened. The file as it was
// is kept.
type SetAside struct {
	At time.Time `json:"at"`
	// Kept is where the damaged file lies, within the journal's folder.
	Kept  string      `json:"kept,omitzero"`
	Items []AsideItem `json:"items,omitempty"`
	// Unnamed are the kinds of which records may be missing that nothing tells of.
	Unnamed []Kind `json:"unnamed,omitempty"`
	// Steps counts the changes that can no longer be undone.
	Steps int `json:"steps,omitzero"`
	// LastChange says that the last change before the damage may be missing.
	LastChange bool `json:"lastChange,omitzero"`
}

// An AsideItem is one or, where they belong to the same record, several records that
// were damaged.
type AsideItem struct {
	Kind  Kind        `json:"kind"`
	IDs   []ID        `json:"ids"`
	State store.State `json:"state"`
	// Name and Day are the record's own, or those of the record that it belongs
	// to; an empty name is one that was not given, or is not known.
	Name string    `json:"name,omitzero"`
	Day  time.Time `json:"day,omitzero"`
	// Seal says that it is the sealed plan of the tasting that is damaged.
	Seal bool `json:"seal,omitzero"`
}

// AsideFolder is where the damaged files are kept, within the journal's folder.
const AsideFolder = "damaged"

// openable looks at the file of records, and makes a damaged one whole.
func openable(ctx context.Context, path string, opt Options) (*SetAside, error) {
	err := opt.Inspect(ctx, path)
	if !errors.Is(err, ErrDamaged) {
		return nil, err
	}
	var aside SetAside
	m, err := store.Mend(ctx, path, layout(), store.Mending{
		Aside: filepath.Join(filepath.Dir(path), AsideFolder), At: opt.Clock(), Verify: opt.Inspect,
		Finish: func(st *store.Tx, m store.Mended) error {
			t := &Tx{st: st}
			if err := reindexAll(t); err != nil {
				return err
			}
			aside = describe(t, m, opt.Clock())
			body, err := json.Marshal(aside, jsonOptions, jsontext.AllowInvalidUTF8(true))
			if err != nil {
				return err
			}
			return st.Side(sideAside).Put(aside.At.UTC().Format(time.RFC3339Nano), body)
		},
	})
	if errors.Is(err, ErrDamaged) {
		return nil, &say.Error{Said: say.Of("Nothing in the journal at {{.File}} can be read any more. It was left as it is.", say.With{"File": path}), Err: err}
	}
	if err != nil {
		return nil, err
	}
	aside.Kept = filepath.Join(AsideFolder, filepath.Base(m.Kept))
	return &aside, nil
}

// SetAside lists what was set aside when this journal was opened, oldest first.
func (j *Journal) SetAside() ([]SetAside, error) {
	var out []SetAside
	err := j.store.View(func(st *store.Tx) error {
		return st.Side(sideAside).Each("", func(_ string, body []byte, damage error) error {
			var a SetAside
			if damage == nil && json.Unmarshal(body, &a, jsonOptions) == nil {
				out = append(out, a)
			}
			return nil
		})
	})
	if err != nil {
		return nil, fmt.Errorf("reading what was set aside: %w", err)
	}
	return out, nil
}

// Mended gives what was set aside in this opening; nil when the file was whole.
func (j *Journal) Mended() *SetAside { return j.mended }

// describe finds the names and days for what was damaged.
func describe(t *Tx, m store.Mended, now time.Time) SetAside {
	out := SetAside{At: now, Steps: m.Steps, LastChange: m.LastChange}
	for _, name := range m.Gone {
		if _, ok := registered(Kind(name)); ok {
			out.Unnamed = append(out.Unnamed, Kind(name))
		}
	}
	d := describer{t: t, summaries: m.Indexes[sideSummaries], reader: newSummaryReader()}
	for _, f := range m.Found {
		switch _, record := registered(Kind(f.Bucket)); {
		case record:
			item := d.item(f)
			if f.State == store.Lost && t.st.Get(Ref{Kind: item.Kind, ID: item.IDs[0]}) != nil {
				continue // what lay under a damaged key came back from elsewhere
			}
			out.add(item)
		case f.Bucket == sideVault:
			item := d.item(store.Found{Bucket: string(KindTasting), Key: f.Key})
			item.State, item.Seal = f.State, true
			out.add(item)
		}
		// What was worked out is worked out again.
	}
	if slices.Contains(m.Gone, sideVault) {
		missingSeals(t, &out)
	}
	return out
}

// missingSeals tells of the sealed tastings whose sealed plan is gone.
func missingSeals(t *Tx, out *SetAside) {
	tastings, err := All[Tasting](t)
	if err != nil {
		return
	}
	for _, ta := range tastings {
		if ta.IsSealed() && !t.st.Side(sideVault).Has(string(ta.ID)) {
			out.add(AsideItem{Kind: KindTasting, IDs: []ID{ta.ID}, State: store.Lost, Name: ta.Name, Day: ta.At, Seal: true})
		}
	}
}

// add counts an item with those that are told in one sentence.
func (s *SetAside) add(item AsideItem) {
	for _, old := range s.Items {
		if old.Kind == item.Kind && old.Seal == item.Seal && slices.Contains(old.IDs, item.IDs[0]) {
			return
		}
	}
	for i, old := range s.Items {
		if belongs(item.Kind) && old.Kind == item.Kind && old.State == item.State && old.Name == item.Name && old.Day.Equal(item.Day) {
			s.Items[i].IDs = append(old.IDs, item.IDs...)
			return
		}
	}
	s.Items = append(s.Items, item)
}

// belongs reports whether records of a kind are told by what they belong to.
func belongs(kind Kind) bool {
	return slices.Contains([]Kind{KindFeeding, KindReading, KindMove, KindTempLog, KindPhoto}, kind)
}

type describer struct {
	t         Reader
	summaries map[string][]byte
	reader    *summaryReader
}

var (
	idIn    = regexp.MustCompile(`^.{0,8}"id":"([0-9A-Z]{26})"`)
	nameIn  = regexp.MustCompile(`"name":("(?:[^"\\]|\\.)*")`)
	timeIn  = regexp.MustCompile(`"(?:at|born|from|added)":"([^"]+)"`)
	ownerIn = regexp.MustCompile(`"(?:culture|owner)":(?:\{"kind":"[a-z]+","id":)?"([0-9A-Z]{26})"`)
)

// item names one damaged record, by whatever can still be read.
func (d describer) item(f store.Found) AsideItem {
	kind, id := Kind(f.Bucket), ID(f.Key)
	if m := idIn.FindSubmatch(f.Body); m != nil && !id.Valid() { // its key is damaged, too
		id = ID(m[1])
	}
	item := AsideItem{Kind: kind, State: f.State, IDs: []ID{id}}
	if belongs(kind) {
		owner := f.Owner
		if m := ownerIn.FindSubmatch(f.Body); m != nil {
			owner = ID(m[1])
		}
		item.Name, item.Day = d.nameOf(owner)
		return item
	}
	item.Name, item.Day = read(f.Body)
	if item.Name == "" || item.Day.IsZero() {
		name, day := d.nameOf(id)
		item.Name = cmp.Or(item.Name, name)
		if item.Day.IsZero() {
			item.Day = day
		}
	}
	if item.Day.IsZero() {
		item.Day = id.Made()
	}
	return item
}

// nameOf gives the name and the day of a record of which the ID is known.
func (d describer) nameOf(id ID) (name string, day time.Time) {
	for _, kind := range []Kind{KindBake, KindCulture, KindTasting, KindFormula, KindTrial, KindFlour, KindSeries, KindPhoto} {
		if raw, err := GetRaw(d.t, Ref{Kind: kind, ID: id}); err == nil {
			return read(raw.Body)
		}
	}
	if body := d.summaries[string(id)]; body != nil {
		if c, err := d.reader.read(body); err == nil {
			return c.Name, c.At
		}
	}
	return "", time.Time{}
}

// read takes a name and a time from the JSON of a record, which may be damaged.
func read(body []byte) (name string, at time.Time) {
	if m := nameIn.FindSubmatch(body); m != nil {
		name, _ = strconv.Unquote(string(m[1]))
	}
	if m := timeIn.FindSubmatch(body); m != nil {
		at, _ = time.Parse(time.RFC3339Nano, string(m[1]))
	}
	return name, at
}

// Whole reports whether nothing of what the baker recorded is missing or may be.
func (s *SetAside) Whole() bool {
	return len(s.Unnamed) == 0 && s.Steps == 0 && !s.LastChange &&
		!slices.ContainsFunc(s.Items, func(i AsideItem) bool { return i.State != store.Whole })
}
