package tastings

import (
	"io"
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
