package safekeeping

import (
	"cmp"
	"maps"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"
	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/journal"
	"twinloaf/journal/carry"
	"twinloaf/journal/measure"
)

const (
	// mostOpened is up to how many records that differ both versions are shown at once.
	mostOpened = 12
	// mostLetters is how much of a text is shown.
	mostLetters = 2000
)

// bothVersions shows what differs of a record, the baker's version beside the archive's.
// Among many it is shown when it is asked for.
func (p *arrivalPage) bothVersions(it *carry.Item, open bool) fyne.CanvasObject {
	if asked, ok := p.opened[it.Ref]; ok {
		open = asked
	}
	toggle := func(open bool) func() {
		return func() {
			if p.opened == nil {
				p.opened = map[journal.Ref]bool{}
			}
			p.opened[it.Ref] = open
			p.show()
		}
	}
	if !open {
		return kit.Row(0, kit.NewLink(lang.L("Show both versions"), toggle(true)))
	}
	weights := []float32{0.5, 1, 1}
	rows := kit.Stack(2, kit.WeightedColumns(look.Space(20), weights, kit.Small(""), kit.Small(lang.L("Yours")), kit.Small(lang.L("Theirs"))))
	for _, pair := range it.Pairs() {
		word := cmp.Or(memberWord(pair.Member), lang.L("other details"))
		rows.Add(kit.WeightedColumns(look.Space(20), weights, kit.Faint(word),
			kit.Body(p.valueText(pair.Member, pair.Mine)), kit.Body(p.valueText(pair.Member, pair.Theirs))))
	}
	return kit.Stack(2, rows, kit.Row(0, kit.NewLink(lang.L("Hide both versions"), toggle(false))))
}

// valueText writes a value of a record for the baker's eye.
func (p *arrivalPage) valueText(member string, v jsontext.Value) string {
	var value any
	if v == nil || json.Unmarshal(v, &value) != nil {
		return "–"
	}
	text := strings.TrimSpace(p.write(member, value))
	if text == "" {
		return "–"
	}
	if letters := []rune(text); len(letters) > mostLetters {
		text = string(letters[:mostLetters]) + " …"
	}
	return text
}

// write writes a value, a line for each thing of a list. What tells nothing to a reader,
// such as the name by which the program knows a line, is left out.
func (p *arrivalPage) write(member string, value any) string {
	u := p.env.Units()
	switch v := value.(type) {
	case bool:
		if v {
			return lang.L("yes")
		}
		return lang.L("no")
	case float64:
		return p.measure(member).Write(v)
	case string:
		if at, err := time.Parse(time.RFC3339, v); err == nil {
			now := p.env.Now()
			return u.When(at.In(now.Location()), now)
		}
		if id := journal.ID(v); id.Valid() {
			return p.nameOf(id)
		}
		return v
	case []any:
		var lines []string
		for _, one := range v {
			if line := strings.TrimSpace(p.write(member, one)); line != "" {
				lines = append(lines, line)
			}
		}
		return strings.Join(lines, "\n")
	case map[string]any:
		names := slices.Sorted(maps.Keys(v))
		slices.SortStableFunc(names, func(a, b string) int { return rank(a) - rank(b) })
		var words []string
		for _, name := range names {
			if name == "id" {
				continue
			}
			if word := strings.TrimSpace(p.write(name, v[name])); word != "" {
				words = append(words, word)
			}
		}
		return strings.Join(words, ", ")
	}
	return ""
}

// rank puts what a thing is called before what else is said of it.
func rank(member string) int {
	if member == "name" || member == "kind" {
		return 0
	}
	return 1
}

// measure is how a number of a member is written: its name ends in the unit.
func (p *arrivalPage) measure(member string) measure.Measure {
	u := p.env.Units()
	switch {
	case member == "c" || strings.HasSuffix(member, "C"):
		return u.Temperature()
	case member == "g" || member == "grams" || strings.HasSuffix(member, "G"):
		return u.Weight()
	case member == "mm" || strings.HasSuffix(member, "MM"):
		return u.Length()
	}
	return u.Number("", 2)
}

// nameOf gives the name of a record that one of the versions points to.
func (p *arrivalPage) nameOf(id journal.ID) string {
	if name := p.arrival.NameOf(id); name != "" {
		return name
	}
	if c, err := journal.Get[journal.Culture](p.env.Journal, id); err == nil {
		return c.Name
	}
	if f, err := journal.Get[journal.Formula](p.env.Journal, id); err == nil {
		return f.Name
	}
	if b, err := journal.Get[journal.Bake](p.env.Journal, id); err == nil {
		return b.Name
	}
	return ""
}
