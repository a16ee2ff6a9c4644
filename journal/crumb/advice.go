package crumb

import (
	"strings"

	"twinloaf/journal/say"
)

// A Fitness says how far a photo is fit for measuring.
type Fitness int

// The degrees of fitness, best first.
const (
	Fit       Fitness = iota // nothing is wrong with it
	FitInPart                // something is, and some figures say so
	Unfit                    // how open the crumb is cannot be told from it
)

// Advice is one thing that is wrong with a photo, and what to do about it.
type Advice struct{ Why, Do say.Line }

// Fitness rates a photo by what was measured of it, and says what would make the next
// one better, what weighs most in front.
func (s Summary) Fitness() (Fitness, []Advice) {
	fit := Fit
	var stop, doubt []Advice
	told := map[FlagKind]bool{}
	for _, f := range s.Flags {
		if told[f.Kind] {
			continue // a fault may touch some figures more than others
		}
		told[f.Kind] = true
		fit = max(fit, FitInPart)
		one := Advice{Why: f.Line(), Do: f.Do()}
		if f.Severity == Withheld {
			stop = append(stop, one)
		} else {
			doubt = append(doubt, one)
		}
	}
	if s.Measured(Porosity).Trust == Withheld {
		fit = Unfit
	}
	return fit, append(stop, doubt...)
}

// BeforeTaking is what to do before a photo is taken. All of it is common practice, no
// source, but for what the flags' own tests show.
func BeforeTaking() say.Line {
	return say.Of("For a good crumb photo: cut with a long serrated knife and brush off the crumbs. Lay one slice on a plain ground of another colour, by a window at one side, without flash. Hold the camera straight above and near, until the slice takes three quarters of the picture with the ground showing all round. A bank card beside it gives the scale.")
}

var lowLight = say.Of("Let the light come from one side and low, so that cells lie in their own shade.")

// doNext is what helps against a fault the next time.
var doNext = map[FlagKind]say.Line{
	Blurred:      say.Of("Rest the camera on something, let it focus on the slice, and give it more light."),
	TooDark:      say.Of("Lay the slice by a window."),
	BlownOut:     say.Of("Take it out of the sun, or turn the exposure down."),
	ShadowAcross: say.Of("Stand so that neither you nor the camera throws a shadow on the slice."),
	TooCoarse:    say.Of("Go nearer, until the slice takes three quarters of the picture."),
	AddIn:        say.Of("Photograph a slice without spread; take seeds and fruit out with D, so that they do not count as cells."),
	FaintCells:   lowLight,
	Grainy:       lowLight,
	PartSeen:     lowLight,
	SideLit:      say.Of("Let the light fall less low."),
	Ragged:       say.Of("More light and a steady camera show the cells."),
	FewCells:     say.Of("Show more of the slice, or a slice with more cells."),
	CutOff:       say.Of("Step back until the ground shows all round the slice."),
	UnsureEdge:   say.Of("Lay it on a plain ground of another colour; for this photo press N, or draw the outline with O."),
	CrustAlike:   say.Of("Drag a box within the crumb with B."),
	Flash:        say.Of("Switch the flash off and lay the slice by a window."),
	Slanted:      say.Of("Hold the camera straight above, or mark four corners with T."),
	Bare:         say.Of("Photograph a slice without spread, in light that is not too bright."),
}

// Do is what helps against a fault the next time; it is empty where nothing does.
func (f Flag) Do() say.Line {
	if f.Kind == NotFound {
		return doWhenLost(f.Why)
	}
	return doNext[f.Kind]
}

// doWhenLost is what helps where no slice was found, by the reason that was given.
func doWhenLost(why string) say.Line {
	switch {
	case strings.Contains(why, "two slices"):
		return say.Of("Drag a box round one of them with B.")
	case strings.Contains(why, "fill the picture"), strings.Contains(why, "fills the picture"), strings.Contains(why, "outside the picture"):
		return say.Of("Step back until the ground shows all round the slice, or drag a box within the crumb with B.")
	}
	return say.Of("Lay one slice on a plain ground of another colour; for this photo drag a box round it with B.")
}
