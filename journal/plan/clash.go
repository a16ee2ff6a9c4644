package plan

import (
	"maps"
	"slices"
	"time"

	"twinloaf/journal/say"
)

// Want is what two plans cannot have at one time in a kitchen with one of it.
type Want string

// The wants. A refrigerator has room for several doughs: it is wanted, and is no cause of a
// clash.
const (
	Oven   Want = "oven"
	Baker  Want = "hands"
	Fridge Want = "refrigerator"
)

// Clash is a time at which a plan and another want the same.
type Clash struct {
	Want        Want
	With        int    // index of the other plan
	Mine, Other Moment // the steps that want it
	From, To    time.Time
}

// A Use is a stretch of time in which a plan wants something of the kitchen.
type Use struct {
	Want     Want
	Step     Moment // the first of the steps that want it
	From, To time.Time
}

// Kitchen lists what plans want of one kitchen: the oven while bread is in it, the
// refrigerator while dough is, and the baker's hands in steps that need them throughout.
// Steps that follow one another are one.
func Kitchen(now time.Time, plans ...Plan) []Use {
	var out []Use
	for _, p := range plans {
		out = append(out, p.uses(now)...)
	}
	return out
}

func (p Plan) uses(now time.Time) []Use {
	throughout := map[string]bool{}
	for _, s := range p.Steps {
		throughout[s.ID] = s.Hands == HandsThroughout
	}
	var out []Use
	last := map[Want]int{} // the last use of each
	for _, m := range p.Timeline(now) {
		if m.Turn > 0 || m.Ref == Ready || m.State == Skipped {
			continue
		}
		want := Want("")
		switch {
		case m.Kind == BakeCovered || m.Kind == BakeUncovered:
			want = Oven
		case m.Kind == ColdRest:
			want = Fridge
		case throughout[m.Step]:
			want = Baker
		}
		from, to := m.when(now), m.End
		if want == "" || !to.After(from) {
			continue
		}
		if n, ok := last[want]; ok && !from.After(out[n].To) {
			out[n].To = to
			continue
		}
		last[want] = len(out)
		out = append(out, Use{Want: want, Step: m, From: from, To: to})
	}
	return out
}

// Clashes lists when a plan wants, from now on, what another of the same kitchen wants then
// and there is but one of.
func (p Plan) Clashes(now time.Time, others ...Plan) []Clash {
	mine := p.uses(now)
	var out []Clash
	for i, o := range others {
		for _, b := range o.uses(now) {
			for _, a := range mine {
				from, to := later(later(a.From, b.From), now), earlier(a.To, b.To)
				if a.Want == b.Want && a.Want != Fridge && from.Before(to) {
					out = append(out, Clash{Want: a.Want, With: i, Mine: a.Step, Other: b.Step, From: from, To: to})
				}
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Clash) int { return a.From.Compare(b.From) })
	return out
}

// A Meeting is a clash of two of several plans.
type Meeting struct {
	Plan int // whose clash it is; With is the index of the other among them all
	Clash
}

// Meetings lists when any two of several plans want the same from now on, the soonest first.
func Meetings(now time.Time, plans ...Plan) []Meeting {
	var out []Meeting
	for i, p := range plans {
		for _, c := range p.Clashes(now, plans[i+1:]...) {
			c.With += i + 1
			out = append(out, Meeting{Plan: i, Clash: c})
		}
	}
	slices.SortStableFunc(out, func(a, b Meeting) int { return a.From.Compare(b.From) })
	return out
}

func later(a, b time.Time) time.Time {
	if b.After(a) {
		return b
	}
	return a
}

func earlier(a, b time.Time) time.Time {
	if b.Before(a) {
		return b
	}
	return a
}

// Line says the clash; name is what the other dough is called.
func (c Clash) Line(name string) say.Line {
	with := say.With{"Mine": c.Mine.Title, "Other": name, "Step": c.Other.Title, "From": weekday(c.From), "To": say.Moment{At: c.To}}
	if c.Want == Oven {
		return say.Of("From {{.From}} to {{.To}} this dough and {{.Other}} both need the oven.", with)
	}
	return say.Of("From {{.From}} to {{.To}} you are needed in two places: {{.Mine}} here, {{.Step}} for {{.Other}}.", with)
}

// Line says the meeting; names are what the doughs are called.
func (m Meeting) Line(names []string) say.Line {
	with := say.With{"One": names[m.Plan], "Other": names[m.With], "Mine": m.Mine.Title, "Step": m.Clash.Other.Title,
		"From": weekday(m.From), "To": say.Moment{At: m.To}}
	if m.Want == Oven {
		return say.Of("From {{.From}} to {{.To}} {{.One}} and {{.Other}} both need the oven.", with)
	}
	return say.Of("From {{.From}} to {{.To}} you are needed in two places: {{.Mine}} for {{.One}}, {{.Step}} for {{.Other}}.", with)
}

// MeetingLines say meetings in their order; those of more than two plans at one time are said
// in one sentence.
func MeetingLines(all []Meeting, names []string) []say.Line {
	type when struct {
		want     Want
		from, to int64
	}
	at := func(m Meeting) when { return when{m.Want, m.From.Unix(), m.To.Unix()} }
	together := map[when][]Meeting{}
	for _, m := range all {
		together[at(m)] = append(together[at(m)], m)
	}
	var out []say.Line
	for _, m := range all {
		group := together[at(m)]
		delete(together, at(m))
		switch {
		case len(group) == 1:
			out = append(out, m.Line(names))
		case len(group) > 1:
			out = append(out, gathered(group, names))
		}
	}
	return out
}

// gathered says the meetings of one time.
func gathered(group []Meeting, names []string) say.Line {
	steps := map[int]Moment{}
	for _, m := range group {
		steps[m.Plan], steps[m.With] = m.Mine, m.Clash.Other
	}
	var doughs, does []say.Line
	for _, i := range slices.Sorted(maps.Keys(steps)) {
		doughs = append(doughs, say.Of("{{.Only}}", say.With{"Only": names[i]}))
		does = append(does, say.Of("{{.Step}} for {{.Dough}}", say.With{"Step": steps[i].Title, "Dough": names[i]}))
	}
	with := say.With{"From": weekday(group[0].From), "To": say.Moment{At: group[0].To}, "Doughs": say.And(doughs...), "Steps": say.And(does...)}
	if group[0].Want == Oven {
		return say.Of("From {{.From}} to {{.To}} {{.Doughs}} all want the oven.", with)
	}
	return say.Of("From {{.From}} to {{.To}} you are needed in several places: {{.Steps}}.", with)
}

// An Anchor is what a plan is made from: a time, and what is to be then.
type Anchor int

// The anchors.
const (
	Beginning Anchor = iota // the first step
	Readiness               // the end of it all
	Around                  // the beginning of one of the steps
)

// Ask is a plan that is asked for.
type Ask struct {
	Steps     []Step
	Of        Anchor
	Step      string // for [Around]
	At        time.Time
	NotBefore time.Time
	Night     Night
}

// schedule plans what is asked for: see [Forward], [Backward] and [Through].
func (a Ask) schedule() (Schedule, error) {
	switch a.Of {
	case Readiness:
		return Backward(a.Steps, a.At, a.NotBefore, a.Night)
	case Around:
		return Through(a.Steps, a.Step, a.At, a.NotBefore, a.Night)
	}
	return Forward(a.Steps, a.At, a.Night)
}

// exactly is [Ask.schedule] without looking for what is nearest.
func (a Ask) exactly() (Schedule, error) {
	switch i := slices.IndexFunc(a.Steps, func(s Step) bool { return s.ID == a.Step }); {
	case a.Of == Readiness:
		return exactly(search{steps: a.Steps, anchor: a.At, night: a.Night, backward: true, notBefore: a.NotBefore})
	case a.Of == Around && i > 0:
		return through(a.Steps, i, a.At, a.NotBefore, a.Night)
	}
	return exactly(search{steps: a.Steps, anchor: a.At, night: a.Night})
}

// Beside plans what is asked for beside other plans of the kitchen, and says where it
// clashes with them. Then the nearest plan is the nearest that clashes with none: looked
// for a quarter of an hour at a time, two days either way.
func (a Ask) Beside(others ...Plan) (Schedule, []Clash, error) {
	s, err := a.schedule()
	if err != nil {
		return s, nil, err
	}
	clashes := s.Plan.Clashes(a.NotBefore, others...)
	if len(clashes) == 0 {
		return s, nil, nil
	}
	s.Nearest = nil
	for away := quarter; away <= twoDays; away += quarter {
		for _, by := range []Minutes{away, -away} {
			near := a
			near.At = a.At.Add(by.Duration())
			found, err := near.exactly()
			if err != nil {
				return s, clashes, err
			}
			if found.OK() && !found.Plan.Start.Before(a.NotBefore) && len(found.Plan.Clashes(a.NotBefore, others...)) == 0 {
				s.Nearest, s.Away = &found.Plan, by
				return s, clashes, nil
			}
		}
	}
	return s, clashes, nil
}

// An Easing is a change to a day under way with which it can be kept again: one step after
// another, in the order of the day, is moved with all that follows.
type Easing struct {
	Plan  Plan
	Moves []Move
}

// A Move moves one step of an [Easing].
type Move struct {
	Ref    Ref
	By     Minutes // negative for earlier
	Giving Step    // the step before it, which grows or shrinks; none before the first of all
	Moved  Moment  // the step as it is then
}

// Ease finds a small change of a day under way with which nothing that needs hands falls
// into the night and no other plan wants oven or hands at the same time. Steps that are not
// over yet give, within their bounds; the first of all may begin later. One step alone gives
// where that is enough, and then it is the smallest change there is. Else what is wrong
// is put right in the order of the clock, each time by the smallest change. A clash in which
// the plan's own step has begun is left out of account: nothing in the plan can help it. It
// says false when there is nothing to ease, or this finds no way.
func (p Plan) Ease(now time.Time, night Night, others ...Plan) (Easing, bool) {
	wrong := func(p Plan) time.Time {
		var first time.Time
		for _, m := range p.AtNight(night, now) {
			if first.IsZero() || m.Due.Before(first) {
				first = m.Due
			}
		}
		for _, c := range p.Clashes(now, others...) {
			if c.Mine.State == Pending && (first.IsZero() || c.From.Before(first)) {
				first = c.From
			}
		}
		return first
	}
	at := wrong(p)
	if at.IsZero() {
		return Easing{}, false
	}
	eased, ok := p.give(now, func(p Plan) bool { return wrong(p).IsZero() })
	for step := 0; !ok; step++ {
		if step == 0 {
			eased = p
		}
		if eased, ok = eased.give(now, func(p Plan) bool {
			next := wrong(p)
			return next.IsZero() || next.After(at)
		}); !ok || step == len(p.Steps) {
			return Easing{}, false
		}
		at = wrong(eased)
		ok = at.IsZero()
	}
	return Easing{Plan: eased, Moves: p.moves(eased, now)}, true
}

// moves lists by how much the steps of a plan were moved to make another.
func (p Plan) moves(to Plan, now time.Time) []Move {
	var out []Move
	for _, m := range to.Timeline(now) {
		if by := to.shift(m.Ref) - p.shift(m.Ref); m.Turn == 0 && by != 0 {
			move := Move{Ref: m.Ref, By: by, Moved: m}
			if i := slices.IndexFunc(p.Steps, func(s Step) bool { return s.ID == m.Step }); i > 0 {
				move.Giving = p.Steps[i-1]
			}
			out = append(out, move)
		}
	}
	return out
}

// give finds the smallest move of one step with which a plan is good.
func (p Plan) give(now time.Time, good func(Plan) bool) (Plan, bool) {
	begins := map[string]Moment{}
	for _, m := range p.Timeline(now) {
		if m.Turn == 0 {
			begins[m.Step] = m
		}
	}
	for by := ease; by <= twoDays; by += ease {
		for i := len(p.Steps) - 1; i >= 0; i-- {
			moved := begins[p.Steps[i].ID]
			if moved.State != Pending || i > 0 && begins[p.Steps[i-1].ID].State == Skipped {
				continue
			}
			for _, by := range []Minutes{by, -by} {
				if moved.Due.Add(by.Duration()).Before(now) || !p.gives(i, by) {
					continue
				}
				if eased, err := p.Shift(moved.Ref, by); err == nil && good(eased) {
					return eased, true
				}
			}
		}
	}
	return p, false
}

// gives says whether what goes before the i-th step can give that much: the step before it
// within its bounds; before the first there is time without end.
func (p Plan) gives(i int, by Minutes) bool {
	if i == 0 {
		return by > 0
	}
	least, most := p.Steps[i-1].Bounds()
	length := p.Steps[i-1].Length + p.shift(Ref{Step: p.Steps[i].ID}) + by
	return length >= least && length <= most
}

// ease is the step in which a day is eased.
const ease Minutes = 5

// NightLine says what falls into the night; it is empty when nothing does.
func NightLine(moments []Moment) say.Line { return Schedule{Broken: moments}.atNight() }

// Upcoming is a pending moment of one of several plans.
type Upcoming struct {
	Moment
	Plan int // index of the plan among those handed in
}

// Merge lists what is pending at now in several plans, the soonest first. What
// is due at the same time keeps the order of the plans.
func Merge(now time.Time, plans ...Plan) []Upcoming {
	var out []Upcoming
	for i, p := range plans {
		for _, m := range p.Timeline(now) {
			if m.State == Pending {
				out = append(out, Upcoming{Moment: m, Plan: i})
			}
		}
	}
	slices.SortStableFunc(out, func(a, b Upcoming) int { return a.Due.Compare(b.Due) })
	return out
}
