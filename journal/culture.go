package journal

import (
	"errors"
	"fmt"
	"slices"
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
)

// A Culture is a natural leaven kept alive by feeding.
type Culture struct {
	Head
	Name string    `json:"name,omitzero"`
	Born time.Time `json:"born,omitzero"` // the first mixing of flour and water
	// BornAbout marks a birth that is only known roughly.
	BornAbout bool             `json:"bornAbout,omitzero"`
	Flours    []FlourShare     `json:"flours,omitempty"`
	Hydration *formula.Percent `json:"hydration,omitzero"` // as usually kept
	Home      Home             `json:"home,omitzero"`
	Usual     *formula.Celsius `json:"usualC,omitzero"` // where it lives
	// Parent is the culture it was split from.
	Parent ID        `json:"parent,omitzero"`
	Ended  time.Time `json:"ended,omitzero"` // given up, thrown away
	// Colour and Shape are the culture's places, from 1, among the colours and the shapes of
	// data; 0 until it is given one. [Culture.Mark] reads them.
	Colour int        `json:"colour,omitzero"`
	Shape  int        `json:"shape,omitzero"`
	Ready  Thresholds `json:"ready,omitzero"`
	// FeedEvery is how often it wants feeding where it lives; zero lets the
	// journal work it out.
	FeedEvery time.Duration `json:"feedEvery,omitzero"`
	// Cleared is when the baker said that the mould or tint noted until then was something
	// else; zero if never.
	Cleared time.Time `json:"cleared,omitzero"`
	Notes   string    `json:"notes,omitzero"`
}

func (*Culture) kind() Kind { return KindCulture }

// CultureNamed finds a culture by its name, of several one that is still kept; nil without one.
func CultureNamed(all []*Culture, name string) (found *Culture) {
	key := FlourKey(name)
	for _, c := range all {
		if key != "" && FlourKey(c.Name) == key && (found == nil || !found.Ended.IsZero() && c.Ended.IsZero()) {
			found = c
		}
	}
	return found
}

// CultureOf finds the culture that a line of the bake is of: the one that it is named after,
// of several the bake's own first, or else the bake's own; nil without one.
func (b *Bake) CultureOf(all []*Culture, name string) *Culture {
	var own *Culture
	if i := slices.IndexFunc(all, func(c *Culture) bool { return c.ID == b.Culture }); i >= 0 {
		own = all[i]
	}
	named := CultureNamed(all, name)
	if named == nil || own != nil && FlourKey(own.Name) == FlourKey(name) {
		return own
	}
	return named
}

// CulturesIn gives the cultures that are in the dough of a bake: its own first, and those that
// lines of it are of, the bin among them.
func CulturesIn(r Reader, b *Bake) ([]*Culture, error) {
	all, err := everyCulture(r)
	if b.Culture != "" && err == nil {
		if _, own := Get[Culture](r, b.Culture); !errors.Is(own, ErrNotFound) {
			err = own // what cannot be read is passed over in a list, and must not be here
		}
	}
	if err != nil {
		return nil, fmt.Errorf("reading the cultures in bake %s: %w", b.ID, err)
	}
	out := []*Culture{b.CultureOf(all, "")}
	for _, in := range b.everyLine() {
		if c := b.CultureOf(all, in.Name); in.Role == formula.Culture && !slices.Contains(out, c) {
			out = append(out, c)
		}
	}
	return slices.DeleteFunc(out, func(c *Culture) bool { return c == nil }), nil
}

// everyCulture reads every culture, those in the bin last: they were in doughs all the same.
func everyCulture(r Reader) ([]*Culture, error) {
	kept, err := All[Culture](r)
	if err != nil {
		return nil, err
	}
	binned, err := Bin[Culture](r)
	return append(kept, binned...), err
}

// A Home is where a culture lives.
type Home string

// The homes of a culture.
const (
	Counter      Home = "counter"
	WarmSpot     Home = "warm spot"
	Refrigerator Home = "refrigerator"
)

// FlourShare is one flour among those that a culture is fed with.
type FlourShare struct {
	Name       string          `json:"name"`
	Grain      string          `json:"grain,omitzero"`
	Share      formula.Percent `json:"share" limit:"percent"`
	Wholegrain formula.Percent `json:"wholegrain,omitzero" limit:"share"`
	Rest       jsontext.Value  `json:",embed"`
}

// Thresholds say when this culture counts as ready. A zero figure stands for
// the usual one.
type Thresholds struct {
	Within   time.Duration  `json:"within,omitzero"`
	Rise     float64        `json:"rise,omitzero" limit:"rise"` // times the start
	Feedings int            `json:"feedings,omitzero" limit:"count"`
	MinAge   time.Duration  `json:"minAge,omitzero" limit:"age"`
	Rest     jsontext.Value `json:",embed"`
}

// A Feeding is one refreshment of a culture. Without flour and water it is none:
// something was taken off the jar, and Kept is what stays.
type Feeding struct {
	Head
	Culture ID            `json:"culture"`
	At      time.Time     `json:"at"`
	Kept    formula.Grams `json:"keptG,omitzero"`
	Flour   formula.Grams `json:"flourG,omitzero"`
	Water   formula.Grams `json:"waterG,omitzero"`
	// Flours is set where this feeding was not with the culture's usual ones.
	Flours []FlourShare     `json:"flours,omitempty"`
	Taken  []TakenOff       `json:"taken,omitempty"`
	WaterC *formula.Celsius `json:"waterC,omitzero"`
	RoomC  *formula.Celsius `json:"roomC,omitzero"`
	// StartMM is the height in the jar just after feeding.
	StartMM *float64 `json:"startMM,omitzero" limit:"length"`
	Note    string   `json:"note,omitzero"`
}

func (*Feeding) kind() Kind { return KindFeeding }

// TakenOff is what left the jar at a feeding, and for what.
type TakenOff struct {
	Grams formula.Grams  `json:"g"`
	For   string         `json:"for,omitzero"` // discarded, baked, given
	Bake  ID             `json:"bake,omitzero"`
	Rest  jsontext.Value `json:",embed"`
}

// What can be taken off a culture for.
const (
	Discarded = "discarded"
	Baked     = "baked"
	Given     = "given"
)

// A Reading is what was seen, smelt or measured of a culture at one time. A
// nil figure was not taken.
type Reading struct {
	Head
	Culture ID        `json:"culture"`
	At      time.Time `json:"at"`
	// Height against the start of the feeding before it: Rise is the ratio
	// (2 is doubled), or HeightMM the height above the bottom of the jar.
	Rise     *float64 `json:"rise,omitzero" limit:"rise"`
	HeightMM *float64 `json:"heightMM,omitzero" limit:"length"`
	// Trend is which way it was going, in the words of journal/ferment: rising, top,
	// fallen; empty if not noted.
	Trend   string           `json:"trend,omitzero"`
	Temp    *formula.Celsius `json:"c,omitzero"`
	Bubbles *int             `json:"bubbles,omitzero"` // 0 none to 4 frothing
	// Smells scores each smell that was noticed, 1 faint to 3 strong. The keys are
	// those of journal/ferment: none, milky, fruity, sour, solvent, foul.
	Smells map[string]int `json:"smells,omitempty"`
	Liquid bool           `json:"liquid,omitzero"` // grey liquid on top
	Mould  bool           `json:"mould,omitzero"`
	Tint   bool           `json:"tint,omitzero"` // pink or orange
	PH     *float64       `json:"pH,omitzero" limit:"ph"`
	// TTA is titratable acidity: mL of 0.1 M NaOH for TTASampleG grams, to TTAEndPH.
	TTA        *float64       `json:"ttaML,omitzero" limit:"volume"`
	TTASampleG *formula.Grams `json:"ttaSampleG,omitzero"`
	TTAEndPH   *float64       `json:"ttaEndPH,omitzero" limit:"ph"`
	// Lines are the three lines drawn on a photo of the jar, when Rise was measured so.
	Lines *JarLines `json:"lines,omitzero"`
	Note  string    `json:"note,omitzero"`
}

func (*Reading) kind() Kind { return KindReading }

// JarLines are heights on a photo, as shares of the picture's height from its top.
type JarLines struct {
	Photo  ID             `json:"photo"`
	Bottom float64        `json:"bottom"`
	Start  float64        `json:"start"`
	Now    float64        `json:"now"`
	Rest   jsontext.Value `json:",embed"`
}

// A Move is a change of where a culture lives: into the refrigerator, woken,
// to a warm spot.
type Move struct {
	Head
	Culture ID               `json:"culture"`
	At      time.Time        `json:"at"`
	To      Home             `json:"to"`
	Temp    *formula.Celsius `json:"c,omitzero"`
	Note    string           `json:"note,omitzero"`
}

func (*Move) kind() Kind { return KindMove }

// A TempLog is a run of temperatures from a data logger.
type TempLog struct {
	Head
	Culture ID        `json:"culture,omitzero"`
	Name    string    `json:"name,omitzero"` // the file it came from
	From    time.Time `json:"from"`
	To      time.Time `json:"to"`
	Count   int       `json:"count"`
	// Packed holds the points: see [PackTemps].
	Packed []byte `json:"packed"`
}

func (*TempLog) kind() Kind { return KindTempLog }
