package plan

import (
	"time"

	"twinloaf/journal/say"
)

// Line is what a step of the kind is called. A kind that is none of [Kinds] is
// the baker's own word.
func (k Kind) Line() say.Line {
	if line, ok := kindLines[k]; ok {
		return line
	}
	return named(string(k))
}

var kindLines = map[Kind]say.Line{
	Levain:        say.Of("Build the levain"),
	Mix:           say.Of("Mix"),
	Rest:          say.Of("Rest"),
	Turns:         say.Of("Folds"),
	Bulk:          say.Of("Bulk"),
	PreShape:      say.Of("Pre-shape"),
	BenchRest:     say.Of("Bench rest"),
	Divide:        say.Of("Divide and shape"),
	Proof:         say.Of("Proof"),
	ColdRest:      say.Of("Cold proof"),
	Heat:          say.Of("Heat the oven"),
	BakeCovered:   say.Of("Bake, lid on"),
	BakeUncovered: say.Of("Bake, lid off"),
	Cool:          say.Of("Cool"),
	Other:         say.Of("Next step"),
	"":            say.Of("Next step"),
}

// Line is the step's name, or what its kind is called when it has none.
func (s Step) Line() say.Line {
	if s.Name != "" {
		return named(s.Name)
	}
	return s.Kind.Line()
}

// Title is [Step.Line] in English.
func (s Step) Title() string { return s.Line().String() }

// named says what the baker wrote, as it is.
func named(s string) say.Line { return say.Of("{{.Name}}", say.With{"Name": s}) }

func turnTitle(n, of int) say.Line {
	return say.Of("Fold {{.N}} of {{.Of}}", say.With{"N": n, "Of": of})
}

// Advice is what a step of the kind asks to beware of or to look for; most ask
// for nothing.
func (k Kind) Advice() say.Line {
	switch k {
	case Heat:
		return say.Of("With the pot in it. Hot iron: gloves for both hands.")
	case BakeCovered:
		return say.Of("Steam comes out when the lid is lifted.")
	case BakeUncovered:
		return say.Of("Golden rather than dark.")
	}
	return say.Line{}
}

// Line gives the length as "2 h 30 min".
func (m Minutes) Line() say.Line {
	h, rest := int(m/60), int(m%60)
	with := say.With{"H": h, "M": rest}
	switch {
	case m < 0:
		return say.Of("−{{.Length}}", say.With{"Length": (-m).Line()})
	case h == 0:
		return say.Of("{{.M}} min", with)
	case rest == 0:
		return say.Of("{{.H}} h", with)
	}
	return say.Of("{{.H}} h {{.M}} min", with)
}

// String is [Minutes.Line] in English.
func (m Minutes) String() string { return m.Line().String() }

// moment is the time of day as it stands in a line.
func (c ClockTime) moment() say.Moment {
	return say.Moment{At: time.Date(2000, time.January, 1, int(c)/60, int(c)%60, 0, 0, time.UTC)}
}

// Words says in plain sentences what had to give, what cannot be met, and which
// plan comes nearest. It says nothing when the plan is as it was asked for.
func (s Schedule) Words() []say.Line {
	var out []say.Line
	for _, c := range s.Changes {
		with := say.With{"Step": c.Step.Line(), "From": c.From.Line(), "To": c.To.Line()}
		if c.To < c.From {
			out = append(out, say.Of("{{.Step}} is shortened from {{.From}} to {{.To}}.", with))
		} else {
			out = append(out, say.Of("{{.Step}} is lengthened from {{.From}} to {{.To}}.", with))
		}
	}
	switch {
	case s.TooSoon && s.through.ID != "":
		out = append(out, say.Of("{{.Step}} cannot begin at {{.When}}: even at its shortest what comes before would have to begin at {{.Start}}.",
			say.With{"Step": s.through.Line(), "When": weekday(s.at), "Start": weekday(s.Plan.Start)}))
	case s.TooSoon:
		out = append(out, say.Of("It cannot be ready at {{.Ready}}: even at its shortest the day takes {{.Length}}, and would have to begin at {{.Start}}.",
			say.With{"Ready": weekday(s.Plan.ReadyAt()), "Length": s.Plan.Length().Line(), "Start": weekday(s.Plan.Start)}))
	}
	if len(s.Broken) > 0 {
		out = append(out, s.broken())
	}
	switch {
	case s.Nearest == nil && s.OK():
	case s.Nearest == nil:
		out = append(out, say.Of("No plan of these steps that can be kept was found within two days."))
	default:
		out = append(out, s.nearest())
	}
	return out
}

// broken says what falls into the night and stays there.
func (s Schedule) broken() say.Line {
	var all []say.Line
	for _, m := range s.Broken {
		all = append(all, say.Of("{{.What}} at {{.When}}", say.With{"What": m.Title, "When": weekday(m.Due)}))
	}
	return say.N("{{.What}} falls at {{.When}}, within the sleep hours from {{.From}} to {{.To}}, and no step that may change can move it out.",
		"{{.All}} fall within the sleep hours from {{.From}} to {{.To}}, and no step that may change can move them out.", len(all), say.With{
			"All": say.And(all...), "What": s.Broken[0].Title, "When": weekday(s.Broken[0].Due),
			"From": s.Night.From.moment(), "To": s.Night.To.moment(),
		})
}

// atNight says what falls into the night, without whether it can be helped.
func (s Schedule) atNight() say.Line {
	if len(s.Broken) == 0 {
		return say.Line{}
	}
	return say.N("{{.What}} falls at {{.When}}, within your sleep.", "{{.What}} falls at {{.When}}, within your sleep, and {{.N}} moments in all.", len(s.Broken),
		say.With{"What": s.Broken[0].Title, "When": weekday(s.Broken[0].Due)})
}

// Line says the change.
func (m Move) Line() say.Line {
	with := say.With{"Step": m.Giving.Line(), "By": max(m.By, -m.By).Line(), "What": m.Moved.Title, "When": weekday(m.Moved.Due)}
	switch {
	case m.Giving.ID == "":
		return say.Of("Begin later: {{.What}} at {{.When}}", with)
	case m.By < 0:
		return say.Of("Shorten {{.Step}} by {{.By}}: {{.What}} at {{.When}}", with)
	}
	return say.Of("Lengthen {{.Step}} by {{.By}}: {{.What}} at {{.When}}", with)
}

// weekday is a time of a plan: its days are told apart by their names.
func weekday(t time.Time) say.Moment { return say.Moment{At: t, As: say.WeekdayClock} }

func (s Schedule) nearest() say.Line {
	with := say.With{"Away": max(s.Away, -s.Away).Line(), "Start": weekday(s.Nearest.Start), "Ready": weekday(s.Nearest.ReadyAt())}
	with["Step"], with["When"] = s.through.Line(), weekday(s.at.Add(s.Away.Duration()))
	switch {
	case s.through.ID != "" && s.Away < 0:
		return say.Of("The nearest plan that can be kept has {{.Step}} {{.Away}} earlier, at {{.When}}; it begins at {{.Start}} and is ready at {{.Ready}}.", with)
	case s.through.ID != "":
		return say.Of("The nearest plan that can be kept has {{.Step}} {{.Away}} later, at {{.When}}; it begins at {{.Start}} and is ready at {{.Ready}}.", with)
	case s.backward && s.Away < 0:
		return say.Of("The nearest plan that can be kept is ready {{.Away}} earlier, at {{.Ready}}, and begins at {{.Start}}.", with)
	case s.backward:
		return say.Of("The nearest plan that can be kept is ready {{.Away}} later, at {{.Ready}}, and begins at {{.Start}}.", with)
	case s.Away < 0:
		return say.Of("The nearest plan that can be kept begins {{.Away}} earlier, at {{.Start}}, and is ready at {{.Ready}}.", with)
	}
	return say.Of("The nearest plan that can be kept begins {{.Away}} later, at {{.Start}}, and is ready at {{.Ready}}.", with)
}
