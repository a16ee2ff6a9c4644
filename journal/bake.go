package journal

import (
	"time"

	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

// A Bake is one dough from the scale to the last note about it. It is planned,
// then under way, then out of the oven; one record holds it all, so that what
// happened stands beside what was meant.
type Bake struct {
	Head
	Name string    `json:"name,omitzero"`
	At   time.Time `json:"at"` // when it is or was begun
	// Ready is when the bread came out of the oven, or should.
	Ready time.Time `json:"ready,omitzero"`
	State BakeState `json:"state,omitzero"`

	Culture ID `json:"culture,omitzero"`
	// Formula is the version of the formula it follows, when it follows one.
	Formula ID `json:"formula,omitzero"`
	// From is the bake that it repeats, when it repeats one.
	From  ID `json:"from,omitzero"`
	Trial ID `json:"trial,omitzero"`
	// Mark is the bowl mark by which the doughs of a trial are told apart.
	Mark string `json:"mark,omitzero"`

	Loaves      int           `json:"loaves,omitzero" limit:"count"`
	Ingredients []Ingredient  `json:"ingredients,omitempty"`
	Levains     []LevainBuild `json:"levains,omitempty"`
	Steps       []Step        `json:"steps,omitempty"`
	Water       WaterPlan     `json:"water,omitzero"`
	Outcome     Outcome       `json:"outcome,omitzero"`
	Notes       string        `json:"notes,omitzero"`
}

func (*Bake) kind() Kind { return KindBake }

// BakeState says how far a bake has come. The zero state is a bake written
// down after the fact.
type BakeState string

// The states of a bake.
const (
	Recorded BakeState = ""
	Planned  BakeState = "planned"
	Running  BakeState = "running"
	Finished BakeState = "finished"
)

// Over says that a bake is neither planned nor under way.
func (s BakeState) Over() bool { return s != Planned && s != Running }

// An Ingredient is one line of what went into a dough.
type Ingredient struct {
	ID   ID     `json:"id"`
	Name string `json:"name,omitzero"`
	// Role says what the line is to the dough: flour, water, salt, culture...
	Role  formula.Role  `json:"role,omitzero"`
	Grams formula.Grams `json:"g,omitzero"`
	// Flour is set for a flour.
	Flour *FlourFacts `json:"flour,omitzero"`
	// Hydration is that of a culture or levain: water in percent of its flour.
	// Nil means 100 %.
	Hydration *formula.Percent `json:"hydration,omitzero"`
	// WaterShare is the share of a liquid that is water, in percent, when the
	// baker gives it.
	WaterShare *formula.Percent `json:"waterShare,omitzero" limit:"share"`
	// CountsAsWater brings a soaker's water into the hydration.
	CountsAsWater bool   `json:"countsAsWater,omitzero"`
	Lot           string `json:"lot,omitzero"`
	// Allergens are the baker's corrections to what the name gives away.
	Allergens formula.Corrections `json:"allergens,omitzero"`
	Rest      jsontext.Value      `json:",embed"`
}

// FlourFacts are what is known of a flour. A nil figure is not known.
type FlourFacts struct {
	Grain      string           `json:"grain,omitzero"` // wheat, rye, spelt...
	Wholegrain formula.Percent  `json:"wholegrain,omitzero" limit:"share"`
	Protein    *formula.Percent `json:"protein,omitzero" limit:"share"` // of the flour as it is
	Ash        *formula.Percent `json:"ash,omitzero" limit:"share"`     // of dry matter
	Type       string           `json:"type,omitzero"`                  // as on the bag: "550", "T65", "00"
	Rest       jsontext.Value   `json:",embed"`
}

// A Step is one thing done to the dough, as it was meant and as it went.
type Step struct {
	ID   ID     `json:"id"`
	Kind string `json:"kind,omitzero"` // as in journal/plan, or the baker's own word
	Name string `json:"name,omitzero"`
	// Planned start, length and bounds; zero when the step was only recorded.
	PlannedAt time.Time     `json:"plannedAt,omitzero"`
	Planned   time.Duration `json:"planned,omitzero"`
	Min       time.Duration `json:"min,omitzero"`
	Max       time.Duration `json:"max,omitzero"`
	// Wished is the length the baker would have it, where the plan had to give
	// way to the sleep hours; zero where it did not.
	Wished time.Duration `json:"wished,omitzero"`
	// Every and Times make a step of turns.
	Every time.Duration `json:"every,omitzero"`
	Times int           `json:"times,omitzero" limit:"turns"`
	// Hands says when the step needs the baker. Empty means as its kind
	// usually does, [HandsNone] not at all.
	Hands plan.Hands `json:"hands,omitzero"`
	// Advice is what the formula says about the step.
	Advice string `json:"advice,omitzero"`

	// At and End are when it really began and ended.
	At  time.Time `json:"at,omitzero"`
	End time.Time `json:"end,omitzero"`
	// Ended says that the baker told the end; else it is when the next step began.
	Ended   bool        `json:"ended,omitzero"`
	Skipped bool        `json:"skipped,omitzero"`
	Done    []time.Time `json:"done,omitempty"` // the turns, as they were made
	// Missed are the turns that were left out, by number from 1; Done holds
	// the others in their order.
	Missed []int `json:"missed,omitempty"`
	// Weighed are the lines of the dough that were weighed for the step, by their IDs;
	// "levain 1" is the first levain, whole.
	Weighed []string `json:"weighed,omitempty"`
	// PutOff says which moments of the step were put off, and by how long.
	PutOff []PutOff `json:"putOff,omitempty"`
	// Temperatures: of the dough, and of what is around it (room, refrigerator, oven).
	Dough *formula.Celsius `json:"doughC,omitzero"`
	Air   *formula.Celsius `json:"airC,omitzero"`
	// Rise is the dough's volume against its start: 1.5 is half as much again.
	Rise *float64 `json:"rise,omitzero" limit:"rise"`
	// Readings are those figures as they were measured, with their times.
	Readings []StepReading  `json:"readings,omitempty"`
	Note     string         `json:"note,omitzero"`
	Rest     jsontext.Value `json:",embed"`
}

// A PutOff is a moment of a step that was put off while the day ran.
type PutOff struct {
	// Turn is 0 for the step's beginning, the number of a turn, or dayEnd.
	Turn int            `json:"turn,omitzero"`
	By   time.Duration  `json:"by" limit:"shift"` // negative when it was brought forward
	Rest jsontext.Value `json:",embed"`
}

// dayEnd is the [PutOff.Turn] of the end of a day's last step.
const dayEnd = -1

// WaterPlan holds the temperatures that the water's temperature is worked out
// from, and what the dough came to.
type WaterPlan struct {
	Wanted *formula.Celsius `json:"wantedC,omitzero"`
	Flour  *formula.Celsius `json:"flourC,omitzero"`
	Room   *formula.Celsius `json:"roomC,omitzero"`
	Levain *formula.Celsius `json:"levainC,omitzero"`
	Tap    *formula.Celsius `json:"tapC,omitzero"`
	Water  *formula.Celsius `json:"waterC,omitzero"` // as used
	Dough  *formula.Celsius `json:"doughC,omitzero"` // as measured after mixing
	// Friction is what mixing adds, as a difference, when the baker sets it.
	Friction *formula.Celsius `json:"frictionC,omitzero" limit:"difference"`
	Rest     jsontext.Value   `json:",embed"`
}

// An Outcome is how the bread came out. A nil figure was not measured.
type Outcome struct {
	DoughWeight *formula.Grams   `json:"doughG,omitzero"` // into the oven, all loaves
	LoafWeight  *formula.Grams   `json:"loafG,omitzero"`  // cooled, all loaves
	HeightMM    *float64         `json:"heightMM,omitzero" limit:"length"`
	WidthMM     *float64         `json:"widthMM,omitzero" limit:"length"`
	VolumeML    *float64         `json:"volumeML,omitzero" limit:"volume"` // by displacement, all loaves
	Inside      *formula.Celsius `json:"insideC,omitzero"`                 // at the centre, out of the oven
	Scores      []AttributeScore `json:"scores,omitempty"`
	Notes       string           `json:"notes,omitzero"`
	DisplacedBy string           `json:"displacedBy,omitzero"` // rape seed, millet...
	CooledFor   time.Duration    `json:"cooledFor,omitzero"`
	Rest        jsontext.Value   `json:",embed"`
}

// An AttributeScore is one attribute judged on the nine-point scale, 1 to 9.
type AttributeScore struct {
	Attribute string         `json:"attribute"`
	Score     int            `json:"score,omitzero" limit:"score"` // 0 while not judged
	Note      string         `json:"note,omitzero"`
	Rest      jsontext.Value `json:",embed"`
}

// Overall is the attribute whose score ranks a bake among others.
const Overall = "overall"
