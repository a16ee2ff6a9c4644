package blind

import (
	"cmp"
	"slices"
	"strings"

	"twinloaf/journal/say"
)

// Loaf is one of the two breads of a tasting.
type Loaf struct {
	// ID is the bake's own identity in the journal.
	ID string `json:"id"`
	// Name is what the baker calls it.
	Name string `json:"name"`
	// Allergens are named to every taster before the first bite and after it.
	// A blind tasting hides loaves, never allergens.
	Allergens []string `json:"allergens,omitempty"`
}

// Mode is who plates.
type Mode string

const (
	// WithHelper: somebody who does not taste plates by a card.
	WithHelper Mode = "with a helper"
	// Alone: the taster plates, and shuffles by hand; see Guide.
	Alone Mode = "alone"
)

// Attribute is one line of a scaling sheet.
type Attribute struct {
	Name string `json:"name"`
	// Low and High name the ends of the scale, 1 and 9.
	Low  string `json:"low,omitempty"`
	High string `json:"high,omitempty"`
	// Hedonic marks the line that asks for liking rather than for how much.
	Hedonic bool `json:"hedonic,omitempty"`
}

// The ends of the nine-point scale.
const (
	LowestScore  = 1
	HighestScore = 9
)

// Liking is the nine-point hedonic scale, "dislike extremely" to "like
// extremely" (Peryam & Pilgrim 1957).
func Liking() Attribute {
	return Attribute{Name: "liking", Low: "dislike extremely", High: "like extremely", Hedonic: true}
}

// Plan is what is decided before anything is drawn.
type Plan struct {
	Method Method `json:"method"`
	Mode   Mode   `json:"mode"`
	// Loaves are the two breads; their order here says nothing to anybody.
	Loaves [2]Loaf `json:"loaves"`
	// Tasters are their names. Alone there is one.
	Tasters []string `json:"tasters"`
	// Rounds is how many rounds each taster tastes.
	Rounds int `json:"rounds"`
	// Attribute is what a paired comparison or a 3-AFC asks for, as in "sour";
	// in a paired comparison, empty asks which is liked better.
	Attribute string `json:"attribute,omitempty"`
	// Expected is the loaf (1 or 2) that is expected beforehand to have more of
	// Attribute: this makes the test one-sided (ISO 5495). 0 expects neither; a
	// 3-AFC needs one.
	Expected int `json:"expected,omitempty"`
	// Attributes are the lines of a scaling sheet.
	Attributes []Attribute `json:"attributes,omitempty"`
	// KeyOnPaper keeps what opens the sealed assignment on the helper's card
	// alone: without its code nobody can unseal the tasting, not even with the
	// journal's own files.
	KeyOnPaper bool `json:"key_on_paper,omitempty"`
	// Alpha is the risk of finding a difference where there is none, taken
	// beforehand. 0 means 0.05.
	Alpha float64 `json:"alpha,omitempty"`
}

// Limits of a plan that a kitchen can still serve.
const (
	mostTasters = 40
	mostRounds  = 40
)

// ErrPlan is wrapped by every reason why a plan cannot be served.
var ErrPlan = say.NewError("this tasting cannot be served")

// Risk is Alpha, or 0.05 where none was set.
func (p Plan) Risk() float64 {
	return cmp.Or(p.Alpha, 0.05)
}

// OneSided reports whether only one direction counts: always where answers are
// right or wrong, and in a paired comparison with an expectation.
func (p Plan) OneSided() bool {
	return p.Method.Discriminates() || p.Method == Paired && p.Expected != 0
}

// AllowsTie reports whether "no preference" is an answer.
func (p Plan) AllowsTie() bool { return p.AsksLiking() }

// AsksLiking reports whether the question is which loaf is liked better.
func (p Plan) AsksLiking() bool { return p.Method == Paired && p.Attribute == "" }

// Answers is the number of answers the plan asks for.
func (p Plan) Answers() int { return len(p.Tasters) * p.Rounds }

// Check says why a plan cannot be served, wrapping ErrPlan, or nil.
func (p Plan) Check() error {
	for _, reason := range []say.Line{p.whyNotMethod(), p.whyNotTasters(), p.whyNotQuestion()} {
		if !reason.IsZero() {
			return refuse(ErrPlan, reason)
		}
	}
	return nil
}

func (p Plan) whyNotMethod() say.Line {
	switch {
	case !p.Method.Known():
		return say.Of("the method “{{.Method}}” is not known", say.With{"Method": p.Method})
	case p.Mode != WithHelper && p.Mode != Alone:
		return say.Of("the way of plating “{{.Mode}}” is not known", say.With{"Mode": p.Mode})
	case p.Loaves[0].ID == "" || p.Loaves[1].ID == "":
		return say.Of("two loaves are needed")
	case p.Loaves[0].ID == p.Loaves[1].ID:
		return say.Of("both loaves are the same bake")
	case p.KeyOnPaper && p.Mode == Alone:
		return say.Of("the key can lie on a helper's paper only where a helper plates")
	case p.Alpha < 0 || p.Alpha > 0.5:
		return say.Of("the risk of a false alarm must lie between 0 and 0.5")
	}
	return say.Line{}
}

func (p Plan) whyNotTasters() say.Line {
	switch {
	case len(p.Tasters) == 0:
		return say.Of("nobody tastes")
	case len(p.Tasters) > mostTasters:
		return say.Of("more than {{.Most}} tasters", say.With{"Most": mostTasters})
	case p.Mode == Alone && len(p.Tasters) > 1:
		return say.Of("alone means one taster; more need a helper who does not taste")
	case p.Rounds < 1 || p.Rounds > mostRounds:
		return say.Of("rounds must be 1 to {{.Most}}", say.With{"Most": mostRounds})
	}
	if codes := len(goodCodes); p.plates() > codes {
		return say.Of("{{.Samples}} samples are more than there are good three-digit codes ({{.Codes}})", say.With{"Samples": p.plates(), "Codes": codes})
	}
	for i, name := range p.Tasters {
		if strings.TrimSpace(name) == "" {
			return say.Of("taster {{.Which}} has no name", say.With{"Which": i + 1})
		}
		if slices.Contains(p.Tasters[:i], name) {
			return say.Of("two tasters are called “{{.Name}}”", say.With{"Name": name})
		}
	}
	return say.Line{}
}

func (p Plan) whyNotQuestion() say.Line {
	switch {
	case p.Expected < 0 || p.Expected > 2:
		return say.Of("the expected loaf must be 1 or 2, or 0 for neither")
	case p.Expected != 0 && (!p.Method.Directional() || p.Attribute == ""):
		return say.Of("an expectation belongs to a comparison of one attribute")
	case p.Attribute != "" && !p.Method.Directional():
		return say.Of("one attribute belongs to a paired comparison or a 3-AFC")
	case p.Method == ThreeAFC && p.Attribute == "":
		return say.Of("a 3-AFC asks for one attribute")
	case p.Method == ThreeAFC && p.Expected == 0:
		return say.Of("a 3-AFC has to know beforehand which loaf should have more of it")
	case len(p.Attributes) > 0 && p.Method != Scaling:
		return say.Of("attribute lines belong to scaling")
	case p.Method == Scaling && len(p.Attributes) == 0:
		return say.Of("scaling needs at least one attribute")
	}
	for i, a := range p.Attributes {
		if strings.TrimSpace(a.Name) == "" {
			return say.Of("attribute {{.Which}} has no name", say.With{"Which": i + 1})
		}
		if slices.ContainsFunc(p.Attributes[:i], func(b Attribute) bool { return a.Name == b.Name }) {
			return say.Of("the attribute “{{.Name}}” stands twice", say.With{"Name": a.Name})
		}
	}
	return say.Line{}
}

// plates is the number of codes the plan uses up.
func (p Plan) plates() int {
	if p.Mode == Alone {
		return p.Answers() * slipsPerRound(p.Method)
	}
	return p.Answers() * p.Method.Samples()
}
