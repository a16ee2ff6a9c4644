package tastings

import (
	"io"
	"slices"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/pages"
	"twinloaf/journal/blind"
	"twinloaf/journal/paper"
)

// scoreSheets are the papers of a tasting, one for each taster: blank before it is
// tasted, and filled in once every score is in, then with both fingerprints.
type scoreSheets struct {
	setting blind.Setting
	// progress is what was handed in; zero on blank sheets.
	progress blind.Progress
	// answered is the fingerprint of the answers; empty on blank sheets.
	answered string
	// rounds are what was which, once that may be told.
	rounds []blind.Round
	// allergens and unknown are those of both loaves together.
	allergens, unknown []string
}

// write prints the sheets. As long as there are no rounds nothing on them tells
// what a code is.
func (s scoreSheets) write(w io.Writer, style paper.Style) error {
	d := paper.New(lang.L("Score sheets"), style)
	for taster := range s.setting.Plan.Tasters {
		d.NewPage()
		d.Title(s.name(taster))
		d.Words(pages.Asked(s.setting.Plan))
		d.Gap(2)
		if len(s.allergens) > 0 {
			d.Strong(lang.L("Both loaves together contain {{.What}}.", map[string]any{"What": listed(allergenWords(s.allergens))}))
		}
		if len(s.unknown) > 0 {
			d.Strong(lang.L("Nothing certain can be said of {{.What}}: read the label before you taste.", map[string]any{"What": listed(s.unknown)}))
		}
		if !s.filled() {
			d.Small(lang.L("Read from the ingredients that were written down; no guarantee. Rinse with water or a plain cracker for a minute before each sample. Do not go back to a round that is done."))
		}
		for round := range s.setting.Plan.Rounds {
			if serving, ok := s.setting.Serving(taster, round); ok {
				s.round(d, serving)
			}
		}
		d.Gap(2)
		d.Small(lang.L("Fingerprint of the sealing: {{.Seal}}", map[string]any{"Seal": inFours(s.setting.Commitment)}))
		if s.answered != "" {
			d.Small(lang.L("Fingerprint of the answers: {{.Seal}}", map[string]any{"Seal": inFours(s.answered)}))
		} else if !s.filled() {
			d.Blank(lang.L("Fingerprint of the answers, first digits, when the last is in"))
		}
	}
	return d.Write(w)
}

// filled reports whether the sheets hold what was handed in.
func (s scoreSheets) filled() bool { return len(s.progress.Sheets) > 0 }

// name is whose sheet it is, with those who took the place over.
func (s scoreSheets) name(taster int) string {
	names := []string{s.setting.Plan.Tasters[taster]}
	if s.filled() {
		for _, seat := range s.progress.Sheets[taster].Seats {
			names = append(names, seat.Name)
		}
	}
	return strings.Join(names, ", ")
}

// answer is what was handed in for a round; false where nothing was.
func (s scoreSheets) answer(serving blind.Serving) (blind.Answer, bool) {
	if !s.filled() || serving.Round >= len(s.progress.Sheets[serving.Taster].Answers) {
		return blind.Answer{}, false
	}
	return s.progress.Sheets[serving.Taster].Answers[serving.Round], true
}

// round writes one round to answer, or as it was answered.
func (s scoreSheets) round(d *paper.Document, serving blind.Serving) {
	plan := s.setting.Plan
	var labels []string
	for _, l := range s.setting.Tasted(serving) {
		labels = append(labels, label(l))
	}
	if len(plan.Attributes) > 0 {
		d.Need(80) // the heading stands with the first answers
	}
	d.Section(lang.L("Round {{.N}}", map[string]any{"N": serving.Round + 1}))
	if s.filled() {
		d.Words(lang.L("Tasted in this order: {{.Order}}.", map[string]any{"Order": strings.Join(labels, ", ")}))
	} else {
		d.Words(lang.L("Taste in this order: {{.Order}}.", map[string]any{"Order": strings.Join(labels, ", ")}))
	}
	d.Gap(1)
	answer, in := s.answer(serving)
	if len(plan.Attributes) > 0 {
		writeScales(d, plan, serving, answer)
	} else {
		var marked []int
		choices := make([]string, len(serving.Samples))
		for i, l := range serving.Samples {
			choices[i] = label(l)
			if slices.Contains(answer.Picks, l) {
				marked = append(marked, i)
			}
		}
		if plan.AllowsTie() {
			if answer.Tie {
				marked = []int{len(choices)}
			}
			choices = append(choices, lang.L("neither"))
		}
		d.Strong(choosing(plan))
		d.Circles("", choices, "", "", marked...)
	}
	switch {
	case !s.filled():
		d.Blank(lang.L("In your own words"))
	case !in:
		d.Words(lang.L("Not tasted."))
	case answer.Missing != "":
		d.Words(lang.L("No answer: {{.Why}}", map[string]any{"Why": answer.Missing}))
	case answer.Remark != "":
		d.Words(answer.Remark)
	}
	s.which(d, serving)
}

// writeScales writes the lines of a scaling sheet.
func writeScales(d *paper.Document, plan blind.Plan, serving blind.Serving, answer blind.Answer) {
	var nine []string
	for n := blind.LowestScore; n <= blind.HighestScore; n++ {
		nine = append(nine, strconv.Itoa(n))
	}
	for _, l := range serving.Samples {
		d.Need(40) // a code stands with its first answers
		d.Strong(label(l))
		for _, a := range plan.Attributes {
			var marked []int
			if score := answer.Scores[l][a.Name]; score != 0 {
				marked = []int{score - blind.LowestScore}
			}
			d.Circles(a.Name, nine, a.Low, a.High, marked...)
		}
	}
}

// which says what was which in a round, once it may be told.
func (s scoreSheets) which(d *paper.Document, serving blind.Serving) {
	i := slices.IndexFunc(s.rounds, func(r blind.Round) bool { return r.Taster == serving.Taster && r.Round == serving.Round })
	if i < 0 {
		return
	}
	var words []string
	for _, p := range s.rounds[i].Plates {
		if p.Loaf == 0 {
			continue // its slip was not entered
		}
		words = append(words, lang.L("{{.Code}} was {{.Loaf}}", map[string]any{"Code": label(p.Label), "Loaf": s.setting.Plan.Loaves[p.Loaf-1].Name}))
	}
	if len(words) > 0 {
		d.Words(strings.Join(words, ", ") + ".")
	}
}

// writeCard prints the plating card.
func writeCard(w io.Writer, plan blind.Plan, lines []blind.CardLine, code string, style paper.Style) error {
	d := paper.New(lang.L("Plating card"), style)
	d.Title(lang.L("Plating card: not for tasters"))
	if code == "" {
		d.Words(lang.L("Keep it folded in an envelope until the tasting is unsealed, or throw it away."))
	} else {
		d.Words(lang.L("Keep it folded in an envelope until the tasting is unsealed."))
	}
	if code != "" {
		d.Strong(lang.L("To unseal: {{.Code}}", map[string]any{"Code": code}))
		d.Small(lang.L("Without this code the tasting cannot be unsealed. Keep this paper until then."))
	}
	for _, loaf := range plan.Loaves {
		if len(loaf.Allergens) > 0 {
			d.Strong(lang.L("{{.Loaf}} contains {{.What}}.", map[string]any{"Loaf": loaf.Name, "What": listed(allergenWords(loaf.Allergens))}))
		}
	}
	var rows [][]string
	flush := func(name string) {
		if len(rows) > 0 {
			d.Section(name)
			weights := []float64{0.7}
			for range rows[0][1:] {
				weights = append(weights, 1.4)
			}
			d.Table(weights, nil, rows)
			rows = nil
		}
	}
	for i, l := range lines {
		row := []string{lang.L("Round {{.N}}", map[string]any{"N": l.Round + 1})}
		for _, p := range l.Plates {
			row = append(row, label(p.Label)+"  "+p.LoafName)
		}
		rows = append(rows, row)
		if i == len(lines)-1 || lines[i+1].Taster != l.Taster {
			flush(l.TasterName)
		}
	}
	return d.Write(w)
}

// inFours writes the digits of a fingerprint in groups, to be compared by eye.
func inFours(digits string) string {
	var b strings.Builder
	for i, d := range digits {
		if i > 0 && i%4 == 0 {
			b.WriteByte(' ')
		}
		b.WriteRune(d)
	}
	return b.String()
}
