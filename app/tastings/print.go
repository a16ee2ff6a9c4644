package tastings

import (
	"io"
	"strconv"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal/blind"
	"twinloaf/journal/paper"
)

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

// writeScoreSheets prints a sheet for each taster, with the codes in serving
// order and nothing that tells what they are.
func writeScoreSheets(w io.Writer, s blind.Setting, allergens, unknown []string, style paper.Style) error {
	d := paper.New(lang.L("Score sheets"), style)
	for taster, name := range s.Plan.Tasters {
		d.NewPage()
		d.Title(name)
		d.Words(asked(s.Plan))
		d.Gap(2)
		if len(allergens) > 0 {
			d.Strong(lang.L("Both loaves together contain {{.What}}.", map[string]any{"What": listed(allergenWords(allergens))}))
		}
		if len(unknown) > 0 {
			d.Strong(lang.L("Nothing certain can be said of {{.What}}: read the label before you taste.", map[string]any{"What": listed(unknown)}))
		}
		d.Small(lang.L("Read from the ingredients that were written down; no guarantee. Rinse with water or a plain cracker for a minute before each sample. Do not go back to a round that is done."))
		for round := range s.Plan.Rounds {
			serving, ok := s.Serving(taster, round)
			if !ok {
				continue
			}
			writeSheetRound(d, s, serving)
		}
		d.Gap(2)
		d.Small(lang.L("Fingerprint of the sealing: {{.Seal}}", map[string]any{"Seal": inFours(s.Commitment)}))
		d.Blank(lang.L("Fingerprint of the answers, first digits, when the last is in"))
	}
	return d.Write(w)
}

func writeSheetRound(d *paper.Sheet, s blind.Setting, serving blind.Serving) {
	var labels []string
	for _, l := range s.Tasted(serving) {
		labels = append(labels, label(l))
	}
	d.Section(lang.L("Round {{.N}}", map[string]any{"N": serving.Round + 1}))
	d.Words(lang.L("Taste in this order: {{.Order}}.", map[string]any{"Order": listedInOrder(labels)}))
	d.Gap(1)
	if len(s.Plan.Attributes) > 0 {
		var nine []string
		for n := blind.LowestScore; n <= blind.HighestScore; n++ {
			nine = append(nine, strconv.Itoa(n))
		}
		for _, l := range serving.Samples {
			d.Need(40) // a code stands with its first answers
			d.Strong(label(l))
			for _, a := range s.Plan.Attributes {
				d.Circles(a.Name, nine, a.Low, a.High)
			}
		}
	} else {
		choices := make([]string, len(serving.Samples))
		for i, l := range serving.Samples {
			choices[i] = label(l)
		}
		if s.Plan.AllowsTie() {
			choices = append(choices, lang.L("neither"))
		}
		d.Strong(choosing(s.Plan))
		d.Circles("", choices, "", "")
	}
	d.Blank(lang.L("In your own words"))
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

func listedInOrder(words []string) string {
	out := ""
	for i, w := range words {
		if i > 0 {
			out += ", "
		}
		out += w
	}
	return out
}
