package bakes

import (
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
)

// figurePanel shows what the dough comes to, beside its lines.
type figurePanel struct {
	page                                     *bakePage
	box                                      *fyne.Container
	hydration, weighed, salt, pre, who, mass *kit.Readout
	saltNote, loaf                           *kit.Text
	holds, unknown                           *kit.Text
	rest                                     *fyne.Container
}

func newFigurePanel(p *bakePage) *figurePanel {
	f := &figurePanel{page: p,
		hydration: kit.NewReadout(lang.L("Hydration, the culture counted in"), true),
		weighed:   kit.NewReadout(lang.L("Hydration without the culture"), false),
		salt:      kit.NewReadout(lang.L("Salt"), false),
		pre:       kit.NewReadout(lang.L("Prefermented flour"), false),
		who:       kit.NewReadout(lang.L("Wholegrain"), false),
		mass:      kit.NewReadout(lang.L("Dough"), false),
		saltNote:  kit.NewText(kit.Span{Size: look.TextSmall, Color: look.ColorEmber}),
		loaf:      kit.Small(""), holds: kit.Body(""), unknown: kit.Small(""),
	}
	f.rest = kit.Stack(3, f.hydration, f.weighed, kit.Columns(look.Space(25), f.salt, f.pre), f.saltNote, kit.Columns(look.Space(25), f.who, f.mass), f.loaf, kit.Rule(),
		kit.Section(lang.L("Allergens")), f.holds, f.unknown,
		kit.Small(lang.L("As far as the names tell. The three dots beside a line correct it; local food law comes first.")))
	f.box = kit.Stack(3, kit.Section(lang.L("What it comes to")), f.rest)
	return f
}

// sync works the figures out anew.
func (f *figurePanel) sync(b *journal.Bake) {
	v := viewFigures(b, f.page.units)
	for _, d := range []struct {
		r *kit.Readout
		f figure
	}{{f.hydration, v.hydration}, {f.weighed, v.weighed}, {f.salt, v.salt}, {f.pre, v.pre}, {f.who, v.whole}} {
		if !v.known {
			d.f.value, d.f.unit, d.f.derived = "–", "", lang.L("There is no flour yet.")
		}
		d.r.Set(d.f.value, d.f.unit, "", d.f.derived)
	}
	f.mass.Set(v.dough.value, v.dough.unit, "", v.dough.derived)
	f.saltNote.SetText(v.saltNote)
	setVisible(f.saltNote, v.saltNote != "")
	f.loaf.SetText(v.loaf)
	setVisible(f.loaf, v.loaf != "")
	holds, unknown := allergenWords(b)
	f.holds.SetText(holds)
	f.unknown.SetText(unknown)
	setVisible(f.unknown, unknown != "")
	f.rest.Refresh()
}

// allergenWords says what the dough holds and of what nothing certain is known.
func allergenWords(b *journal.Bake) (holds, unknown string) {
	report := b.Dough().Allergens()
	names := make([]string, len(report.Found))
	for i, s := range report.Found {
		names[i] = lang.L(string(s.Allergen))
	}
	switch {
	case len(names) > 0:
		holds = strings.Join(names, ", ")
	case len(b.Dough().Lines) == 0 && len(b.Levains) == 0:
		holds = lang.L("Nothing is in it yet.")
	case len(report.Unknown) > 0:
		holds = lang.L("None that the names tell of.")
	default:
		holds = lang.L("None on the lists.")
	}
	var odd []string
	for _, name := range report.Unknown {
		if name != "" {
			odd = append(odd, name)
		}
	}
	if len(odd) > 0 {
		unknown = lang.L("Not known: {{.Names}}.", map[string]any{"Names": strings.Join(odd, ", ")})
	}
	return holds, unknown
}
