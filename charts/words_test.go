package charts_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"reflect"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"
	"unicode"

	"twinloaf/charts"
	"twinloaf/journal/say"
)

// moved gives a text whose Latin letters come from another alphabet; names in a
// template stay.
func moved(text string, alphabet rune) string {
	var b strings.Builder
	for rest := text; rest != ""; {
		plain, after, found := strings.Cut(rest, "{{.")
		b.WriteString(strings.Map(func(r rune) rune {
			switch {
			case r > unicode.MaxLatin1 || !unicode.IsLetter(r):
				return r
			default:
				return alphabet + r%24
			}
		}, plain))
		if !found {
			break
		}
		name, tail, _ := strings.Cut(after, "}}")
		b.WriteString("{{." + name + "}}")
		rest = tail
	}
	return b.String()
}

// The letters of what a figure gives, and of what is said through Words.
const given, said = 'а', 'α'

// foreigner is a copy of a figure whose every text is in the given letters and
// without a point, and whose numbers the chart writes itself.
func foreigner(v reflect.Value) reflect.Value {
	out := reflect.New(v.Type()).Elem()
	switch v.Kind() {
	case reflect.String:
		out.SetString(strings.ReplaceAll(moved(v.String(), given), ".", "·"))
	case reflect.Struct:
		for i := range v.NumField() {
			out.Field(i).Set(foreigner(v.Field(i)))
		}
	case reflect.Slice:
		for i := range v.Len() {
			out = reflect.Append(out, foreigner(v.Index(i)))
		}
	case reflect.Array:
		for i := range v.Len() {
			out.Index(i).Set(foreigner(v.Index(i)))
		}
	case reflect.Interface:
		out.Set(foreigner(v.Elem()))
	case reflect.Func: // left nil
	default:
		out.Set(v)
	}
	return out
}

func strange(text, one string, n int) string {
	if one != "" && n == 1 {
		text = one
	}
	return moved(text, said)
}

// texts are all that a drawn chart says.
func texts(t *testing.T, f charts.Spec, s charts.Style, w, h int) []string {
	t.Helper()
	chart, err := charts.New(f, s)
	if err != nil {
		t.Fatal(err)
	}
	pic, err := chart.Image(w, h, 1)
	if err != nil {
		t.Fatal(err)
	}
	out := []string{chart.Summary()}
	for _, m := range pic.Marks {
		out = append(out, m.Text)
	}
	var svg bytes.Buffer
	if err := chart.SVG(&svg, w, h); err != nil {
		t.Fatal(err)
	}
	in := ""
	for d := xml.NewDecoder(&svg); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return out
		}
		if err != nil {
			t.Fatal(err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			in = token.Name.Local
		case xml.EndElement:
			in = ""
		case xml.CharData:
			if in == "text" || in == "desc" {
				out = append(out, string(token))
			}
		}
	}
}

// Whatever a chart says is the figure's own or went through Words: no letter of
// English is left, and no decimal point.
func TestEveryWordGoesThroughWords(t *testing.T) {
	s := style(t, charts.LightPalette())
	s.Words = charts.Words{Locale: say.Locale{Find: strange, Comma: true}}
	english := regexp.MustCompile(`[A-Za-z]|\d\.\d`)
	through := regexp.MustCompile(`[α-ϰ]`)
	heard := false
	figures := gallery(t)
	figures = append(figures,
		exhibit{"nameless", nameless(), 520, 360},
		exhibit{"lanes without words", charts.Lanes{Lanes: []charts.Lane{{Blocks: []charts.Block{{To: 2, Planned: true}}, Ticks: []charts.Tick{{At: 1}}}}}, 520, 200},
		exhibit{"pairs without words", charts.Pairs{Rows: []charts.Pair{{A: 2.5, B: missing}}}, 520, 160},
		exhibit{"slopes without words", charts.Slopes{Pairs: [][2]float64{{1, 2}, {1, 2}, {3, 3}}}, 300, 300},
		exhibit{"groups without values", charts.Groups{Groups: []charts.Group{{Values: []float64{1.5}}, {}}}, 400, 300})
	for _, f := range []charts.Spec{charts.Plot{Panels: []charts.Panel{{}}}, charts.Bars{}, charts.Spark{}, charts.Groups{}, charts.Pairs{}, charts.Slopes{}, charts.Lanes{}, charts.Calendar{Year: 2026}} {
		figures = append(figures, exhibit{reflect.TypeOf(f).Name() + " of nothing", f, 400, 200})
	}
	for _, e := range figures {
		f := foreigner(reflect.ValueOf(e.figure)).Interface().(charts.Spec)
		for _, size := range [][2]int{{e.width, e.height}, {260, 26}} {
			all := texts(t, f, s, size[0], size[1])
			for _, words := range all {
				if english.MatchString(words) {
					t.Errorf("%s at %v says %q by itself", e.name, size, words)
				}
			}
			heard = heard || slices.ContainsFunc(all, through.MatchString)
		}
	}
	if !heard {
		t.Error("nothing at all is said through Words")
	}
}

// nameless is a plot of every layer without names, over a time axis.
func nameless() charts.Plot {
	day := charts.Seconds(time.Date(2026, time.May, 3, 0, 0, 0, 0, time.UTC))
	x := []float64{day, day + 3600, day + 7200}
	y := []float64{1.25, 2.5, missing}
	return charts.Plot{X: charts.Axis{Zone: time.UTC}, Panels: []charts.Panel{{Layers: []charts.Layer{
		charts.Series{X: x, Y: y, LeftOut: []bool{false, true, false}},
		charts.Series{X: x[:1], Y: y[:1], Draw: charts.Points, Piled: true},
		charts.Series{X: []float64{day, day}, Y: []float64{2, 2}, Draw: charts.Points, Piled: true},
		charts.Series{Name: "none", X: x[:1], Y: y[2:], Draw: charts.Points},
		charts.Ribbon{X: x, Low: y, High: y},
		charts.Bins{Edges: x, Counts: y[:2]},
		charts.Band{From: day, To: day + 60, Label: "band"},
		charts.Level{At: 1.5, Label: "level"},
		charts.Events{Name: "events", X: x, Labels: []string{"", "first", ""}},
	}}}}
}

// spans are plots of time over stretches that have ticks of every kind.
func spans(zone *time.Location, length time.Duration) charts.Plot {
	from := time.Date(2026, time.May, 3, 10, 0, 0, 0, zone)
	return charts.Plot{X: charts.Axis{Zone: zone}, Panels: []charts.Panel{{Layers: []charts.Layer{
		charts.Series{Name: "readings", X: []float64{charts.Seconds(from), charts.Seconds(from.Add(length))}, Y: []float64{1.5, 2}},
	}}}}
}

func TestTicksOfTimeAreSaidInWords(t *testing.T) {
	const hour = time.Hour
	plain := charts.Words{}
	american := charts.Words{Locale: say.Locale{TwelveHour: true, MonthFirst: true}}
	other := charts.Words{Locale: say.Locale{Find: func(text, _ string, _ int) string {
		switch text {
		case "Sun", "Mon":
			return strings.ToLower(text) + "tag"
		case "May":
			return "Mai"
		case "{{.Weekday}} {{.Date}}":
			return "{{.Weekday}}, {{.Date}}"
		case "{{.Day}}\u00a0{{.Month}}":
			return "{{.Day}}.\u00a0{{.Month}}"
		case "{{.Month}} {{.Year}}":
			return "{{.Year}}, {{.Month}}"
		}
		return text
	}}}
	for _, c := range []struct {
		words  charts.Words
		length time.Duration
		want   []string
	}{
		{plain, hour, []string{"10:20", "Sun 3\u00a0May"}},
		{american, hour, []string{"10:20\u00a0am", "Sun May\u00a03"}},
		{other, hour, []string{"10:20", "suntag, 3.\u00a0Mai"}},
		{plain, 14 * hour, []string{"14", "22", "Sun 3\u00a0May"}},
		{american, 14 * hour, []string{"2\u00a0pm", "10\u00a0pm", "12\u00a0am", "Mon May\u00a04"}},
		{plain, 70 * hour, []string{"00", "12", "Mon 4\u00a0May"}},
		{plain, 6 * 24 * hour, []string{"Mon 4", "May 2026"}},
		{other, 6 * 24 * hour, []string{"montag 4", "2026, Mai"}},
		{plain, 200 * 24 * hour, []string{"Jun", "2026"}},
		{plain, 3000 * 24 * hour, []string{"2027"}},
	} {
		s := style(t, charts.LightPalette())
		s.Words = c.words
		all := texts(t, spans(time.UTC, c.length), s, 640, 240)
		for _, want := range c.want {
			if !holds([][]string{all}, want) {
				t.Errorf("over %v: no %q in %q", c.length, want, all)
			}
		}
	}
}

func TestWordsChooseOrderAndPlural(t *testing.T) {
	s := style(t, charts.LightPalette())
	s.Words = charts.Words{Locale: say.Locale{Comma: true, Find: func(text, one string, n int) string {
		switch {
		case strings.HasPrefix(text, "{{.N}} bars"):
			return "{{.Name}} / {{.Value}} / {{.N}} / " + one
		case text == "{{.Name}}, {{.Said}}":
			return "{{.Said}} <{{.Name}}> {{.Gone}}{{.open"
		}
		return text
	}}}
	all := texts(t, charts.Bars{Bars: []charts.Bar{{Name: "{{.Value}}", Value: 1.5}}}, s, 300, 200)
	for i, want := range []string{
		"{{.Value}} / 1,5 / 1 / 1 bar, the greatest {{.Value}} with 1,5.",
		"1,5 <{{.Value}}> {{.open",
	} {
		if all[i] != want {
			t.Errorf("got %q, want %q", all[i], want)
		}
	}
}

// Words of the figure's table are for other programs, and stay.
func TestTablesKnowNoWords(t *testing.T) {
	plain, other := style(t, charts.LightPalette()), style(t, charts.LightPalette())
	other.Words = charts.Words{Locale: say.Locale{Find: strange, Comma: true, TwelveHour: true, MonthFirst: true}}
	for _, e := range gallery(t) {
		var tables [2]bytes.Buffer
		for i, s := range []charts.Style{plain, other} {
			chart, err := charts.New(e.figure, s)
			if err != nil {
				t.Fatal(err)
			}
			if err := chart.CSV(&tables[i]); err != nil {
				t.Fatal(err)
			}
		}
		if tables[0].String() != tables[1].String() {
			t.Errorf("%s: the table follows the words", e.name)
		}
	}
}

func TestNumbersWithAComma(t *testing.T) {
	w := charts.Words{Locale: say.Locale{Comma: true}}
	for want, got := range map[string]string{
		"12,5": w.Plain(12.5), "−0,0041": w.Plain(-0.0041), "1240": w.Plain(1240), "–": w.Plain(missing),
		"1,50×": w.Times(1.5), "2,00×": w.Times(2), "12,5\u00a0%": w.Percent(0.125),
	} {
		if got != want {
			t.Errorf("got %q, want %q", got, want)
		}
	}
}
