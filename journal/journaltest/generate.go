package journaltest

import (
	"context"
	"errors"
	"fmt"
	"math"
	"math/rand/v2"
	"time"

	"twinloaf/journal"
	"twinloaf/journal/formula"
)

// A Spec says how large a journal to make. The same Spec makes the same records.
type Spec struct {
	Bakes  int
	Photos int // spread over the bakes
	Seed   uint64
	// Contents is how many different pictures the photos share; 0 means 200.
	Contents int
	// Until is when the last bake was; zero means the beginning of [Clock]. The
	// first was ten years before.
	Until time.Time
}

// years is the span of a generated journal.
const years = 10

// batch is how many bakes go into one change: many, so that the disk is not
// waited for at each.
const batch = 500

// Generate makes a journal in the folder dir, which must not hold one: cultures
// with feedings, flours, bakes of varied make-up over ten years, and photos.
// Nothing in it can be undone. It is quick rather than lifelike.
func Generate(ctx context.Context, dir string, spec Spec) (err error) {
	if spec.Until.IsZero() {
		spec.Until = begin
	}
	clock := new(Clock)
	clock.Set(spec.Until.AddDate(-years, 0, 0))
	originals, err := pictures(ctx, dir, spec)
	if err != nil {
		return fmt.Errorf("generating a journal: %w", err)
	}
	j, err := journal.Open(ctx, dir, journal.Options{Clock: clock.Now, Random: Random(spec.Seed)})
	if err != nil {
		return fmt.Errorf("generating a journal: %w", err)
	}
	defer func() { err = errors.Join(err, j.Close()) }()
	g := &generator{
		Spec: spec, clock: clock, originals: originals,
		rng: rand.New(rand.NewPCG(spec.Seed, 0x6e6e)),
	}
	if err := j.DoWithoutUndo("larder and cultures", g.begin); err != nil {
		return fmt.Errorf("generating a journal: %w", err)
	}
	for from := 0; from < spec.Bakes; from += batch {
		if err := ctx.Err(); err != nil {
			return err
		}
		err := j.DoWithoutUndo("bakes", func(tx *journal.Tx) error {
			for i := from; i < min(spec.Bakes, from+batch); i++ {
				if err := g.bake(tx, i); err != nil {
					return err
				}
			}
			return nil
		})
		if err != nil {
			return fmt.Errorf("generating a journal: %w", err)
		}
	}
	return nil
}

type generator struct {
	Spec
	clock     *Clock
	rng       *rand.Rand
	originals []journal.Photo // what each content's photo says of its file
	cultures  []journal.ID
	lines     int
}

var flours = []struct {
	name, grain string
	whole       formula.Percent
}{
	{"Strong white", "wheat", 0}, {"Whole wheat", "wheat", 100}, {"Spelt", "spelt", 0}, {"Whole spelt", "spelt", 100},
	{"Dark rye", "rye", 0}, {"Whole rye", "rye", 100}, {"Emmer", "emmer", 100}, {"Einkorn", "einkorn", 100},
	{"Durum", "durum", 0}, {"Buckwheat", "buckwheat", 100}, {"Oat flour", "oats", 100}, {"Fine white", "wheat", 0},
}

var addIns = []string{"Walnuts", "Sesame seeds", "Sunflower seeds", "Oats", "Olives", "Raisins"}

var words = []string{
	"crust", "open", "crumb", "sour", "cold", "warm", "slack", "dough", "ferry", "harbour", "sticky", "lively", "pale",
	"dark", "ear", "burst", "tight", "fold", "kettle", "swell", "late", "early", "sweet", "nutty", "flat", "high",
}

func (g *generator) begin(tx *journal.Tx) error {
	for _, f := range flours {
		rec := &journal.Flour{Name: f.name, Facts: journal.FlourFacts{Grain: f.grain, Wholegrain: f.whole}}
		if err := journal.Put(tx, rec); err != nil {
			return err
		}
	}
	for i := range 4 {
		c := &journal.Culture{Name: fmt.Sprintf("Culture %d", i+1), Born: g.clock.Now().AddDate(0, 0, -30*i)}
		if err := journal.Put(tx, c); err != nil {
			return err
		}
		g.cultures = append(g.cultures, c.ID)
	}
	return nil
}

// bake puts one bake with its share of the photos.
func (g *generator) bake(tx *journal.Tx, i int) error {
	span := years * 365.25 * 24 * float64(time.Hour)
	at := g.Until.AddDate(-years, 0, 0).Add(time.Duration(span * float64(i+1) / float64(g.Bakes+1))).Truncate(time.Minute)
	g.clock.Set(at)
	b := &journal.Bake{
		Name: "Loaf of " + g.word() + " " + g.word(), At: at, Ready: at.Add(20 * time.Hour), State: journal.Finished,
		Culture: g.cultures[g.rng.IntN(len(g.cultures))], Loaves: 1 + g.rng.IntN(3), Notes: g.sentence(),
	}
	g.dough(b)
	g.day(b)
	g.outcome(b)
	if g.rng.IntN(40) == 0 {
		b.Binned = at.Add(48 * time.Hour)
	}
	if err := journal.Put(tx, b); err != nil {
		return err
	}
	if err := g.feeding(tx, b); err != nil {
		return err
	}
	roles := []journal.Role{journal.RoleCrumb, journal.RoleCrust, journal.RoleDough, journal.RoleOther}
	for n := range g.share(i) {
		p := g.originals[g.rng.IntN(len(g.originals))]
		p.Owner, p.Role, p.Taken, p.Added = journal.RefOf(b), roles[n%len(roles)], at.Add(time.Duration(n)*time.Hour), at
		if n == 0 {
			p.Caption = g.word()
		}
		if err := journal.Put(tx, &p); err != nil {
			return err
		}
	}
	return nil
}

// share is how many photos go to bake i.
func (g *generator) share(i int) int { return g.Photos*(i+1)/g.Bakes - g.Photos*i/g.Bakes }

func (g *generator) feeding(tx *journal.Tx, b *journal.Bake) error {
	f := &journal.Feeding{Culture: b.Culture, At: b.At.Add(-8 * time.Hour), Kept: 20, Flour: 50, Water: 50}
	if err := journal.Put(tx, f); err != nil {
		return err
	}
	r := &journal.Reading{Culture: b.Culture, At: b.At, Rise: new(1.6 + 0.8*g.rng.Float64()), Temp: new(formula.Celsius(20 + 6*g.rng.Float64()))}
	return journal.Put(tx, r)
}

// line names a line of a bake; lines need IDs that are unique in their bake only.
func (g *generator) line() journal.ID {
	g.lines++
	return journal.ID(fmt.Sprintf("line%d", g.lines))
}

func (g *generator) dough(b *journal.Bake) {
	total := 400 + 50*float64(g.rng.IntN(20))
	first, left, kinds := g.rng.IntN(len(flours)), 100, 1+g.rng.IntN(3)
	for k := range kinds {
		share := left
		if k < kinds-1 {
			share = min(left, 20+g.rng.IntN(60))
		}
		if left -= share; share == 0 {
			break
		}
		f := flours[(first+5*k)%len(flours)]
		b.Ingredients = append(b.Ingredients, journal.Ingredient{
			ID: g.line(), Name: f.name, Role: formula.Flour, Grams: formula.Grams(total * float64(share) / 100),
			Flour: &journal.FlourFacts{Grain: f.grain, Wholegrain: f.whole},
		})
	}
	add := func(name string, role formula.Role, percent float64) {
		b.Ingredients = append(b.Ingredients, journal.Ingredient{ID: g.line(), Name: name, Role: role, Grams: formula.Grams(math.Round(total * percent / 100))})
	}
	add("Water", formula.Water, 55+30*g.rng.Float64())
	add("Culture", formula.Culture, 10+30*g.rng.Float64())
	add("Salt", formula.Salt, 1.6+0.8*g.rng.Float64())
	if g.rng.IntN(3) == 0 {
		add(addIns[g.rng.IntN(len(addIns))], formula.Seeds, 5+10*g.rng.Float64())
	}
}

func (g *generator) day(b *journal.Bake) {
	at := b.At
	add := func(kind string, length time.Duration) *journal.Step {
		b.Steps = append(b.Steps, journal.Step{ID: g.line(), Kind: kind, At: at, End: at.Add(length)})
		at = at.Add(length)
		return &b.Steps[len(b.Steps)-1]
	}
	add("mix", 15*time.Minute).Dough = new(formula.Celsius(21 + 7*g.rng.Float64()))
	add(journal.StepTurns, 3*time.Hour)
	add(journal.StepBulk, time.Duration(30+g.rng.IntN(180))*time.Minute).Rise = new(1.3 + 0.7*g.rng.Float64())
	if g.rng.IntN(4) > 0 {
		add(journal.StepCold, time.Duration(8+g.rng.IntN(30))*time.Hour)
	}
	add("bake covered", 45*time.Minute)
}

func (g *generator) outcome(b *journal.Bake) {
	if g.rng.IntN(10) == 0 {
		return // never measured
	}
	dough := b.Dough().Metrics().Dough
	o := &b.Outcome
	o.DoughWeight, o.LoafWeight = new(dough), new(dough*formula.Grams(0.84+0.07*g.rng.Float64()))
	o.HeightMM = new(60 + 60*g.rng.Float64())
	if g.rng.IntN(3) == 0 {
		o.VolumeML = new(float64(*o.LoafWeight) * (2 + 2*g.rng.Float64()))
	}
	for _, a := range []string{journal.Overall, "crust", "openness", "sourness"} {
		o.Scores = append(o.Scores, journal.AttributeScore{Attribute: a, Score: 1 + g.rng.IntN(9)})
	}
}

func (g *generator) word() string { return words[g.rng.IntN(len(words))] }

func (g *generator) sentence() string {
	out := g.word()
	for range g.rng.IntN(12) {
		out += " " + g.word()
	}
	return out + "."
}
