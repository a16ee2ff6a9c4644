package app

import (
	"bytes"
	"cmp"
	"encoding/json"
	"fmt"
	"html"
	"image/png"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"syscall"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
	"twinloaf/app/outline"
	"twinloaf/app/pages"
	"twinloaf/assets/licences"
	"twinloaf/assets/words"
	"twinloaf/assets/words/gather"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/crumb/phantom"
	"twinloaf/journal/jar/jartest"
	"twinloaf/journal/journaltest/race"
)

// strange writes English letters with others of the same shape, so that what the
// catalogue says is told from what it does not.
var strange = strings.NewReplacer(
	"a", "å", "b", "ƀ", "c", "ç", "d", "đ", "e", "é", "f", "ƒ", "g", "ğ", "h", "ĥ", "i", "ï", "j", "ĵ", "k", "ķ", "l", "ł", "m", "ɱ",
	"n", "ñ", "o", "ö", "p", "þ", "q", "ɋ", "r", "ř", "s", "š", "t", "ť", "u", "ü", "v", "ʋ", "w", "ŵ", "x", "χ", "y", "ý", "z", "ž",
	"A", "Å", "B", "Ƀ", "C", "Ç", "D", "Đ", "E", "É", "F", "Ƒ", "G", "Ğ", "H", "Ĥ", "I", "Ï", "J", "Ĵ", "K", "Ķ", "L", "Ł", "M", "Ɱ",
	"N", "Ñ", "O", "Ö", "P", "Þ", "Q", "Ɋ", "R", "Ř", "S", "Š", "T", "Ť", "U", "Ü", "V", "Ʋ", "W", "Ŵ", "X", "Χ", "Y", "Ý", "Z", "Ž")

// aStrangeLanguage has the catalogue say everything in strange letters.
func aStrangeLanguage(t *testing.T) {
	t.Helper()
	said, err := gather.From("..")
	if err != nil {
		t.Fatal(err)
	}
	names := regexp.MustCompile(`\{\{[^}]*\}\}`)
	write := func(s string) string {
		var b strings.Builder
		at := 0
		for _, m := range names.FindAllStringIndex(s, -1) {
			b.WriteString(strange.Replace(s[at:m[0]]) + s[m[0]:m[1]])
			at = m[1]
		}
		return b.String() + strange.Replace(s[at:])
	}
	told := func(write func(string) string) []byte {
		entries := []map[string]string{}
		for english, forms := range said {
			e := map[string]string{"id": english, "other": write(english)}
			if forms.Plural {
				e["one"] = write(cmp.Or(forms.One, english))
			}
			entries = append(entries, e)
		}
		out, err := json.Marshal(entries)
		if err != nil {
			t.Fatal(err)
		}
		return out
	}
	c, err := words.Read("en", told(write))
	if err != nil {
		t.Fatal(err)
	}
	c.Use()
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
}

// symbols are written alike in every language, or name something by its own name.
var symbols = strings.Fields(`
	g kg mg ml l mm cm m °C °F C F min h s x d p n SE pH MB px PxPerMM
	Twinloaf ISO SHA JPEG PNG WebP HEIC CSV PDF SVG EXIF DIN FDA CDC USDA
	Ctrl Alt Shift Esc Enter Tab Page Up Down Home End F11`)

func TestEveryWordComesFromTheCatalogue(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a, j := maintest.App(t), demoJournal(t)
	aStrangeLanguage(t)
	w, _ := windowOn(t, a, j)
	places, written := everyPlace(t, j)
	places = append(append(places, crumbPlaces(t, j)...), seriesPlace(t, j))
	check := func(where string, said ...string) { t.Helper(); checkSaid(t, written, where, said...) }
	for _, f := range w.everything() {
		check("find", f.words)
	}
	w.listKeys()
	check("the list of keys", inSight(w)...)
	w.win.Canvas().Overlays().Top().(*kit.Dialog).Close()
	for _, p := range places {
		w.Go(p)
		w.env.Wait()
		check(p.Name, w.win.Title())
		for _, k := range w.Page().Keys() {
			check(p.Name, k.Doc)
		}
		check(p.Name, inSight(w)...)
		check(p.Name+"'s charts", onCharts(t, w)...)
	}
	sheets(t, w, func(name string) {
		for _, s := range inSight(w) {
			check(name, strings.NewReplacer(j.Dir(), "", os.TempDir()+"/text", "").Replace(s))
		}
	})
}

// sheets shows those dialogs of the window that no page opens by itself: what goes into an
// archive, what cannot be saved when the window is to close, and that the journal's file
// has lost its place.
func sheets(t *testing.T, w *window, look func(name string)) {
	t.Helper()
	top := func() *kit.Dialog { return w.win.Canvas().Overlays().Top().(*kit.Dialog) }
	summaries, err := w.env.Journal.BakeSummaries()
	if err != nil || len(summaries) == 0 {
		t.Fatal(summaries, err)
	}
	w.env.TakeAway(summaries[0].Name, journal.Ref{Kind: journal.KindBake, ID: summaries[0].ID})
	w.env.Wait()
	look("taking a bake away")
	top().Close()
	w.env.TakeAway("")
	w.env.Wait()
	look("taking the journal away")
	top().Close()
	w.lostPlace(journal.ErrGone)
	look("the journal gone")
	top().Close()
	w.lostPlace(journal.ErrReplaced)
	look("the journal replaced")
	top().Close()
	c := &closing{w: w, stop: func() {}} // it does not look again by itself
	w.closing = c
	c.ask(&os.PathError{Op: "write", Path: os.TempDir(), Err: syscall.ENOSPC}, "")
	look("closing")
	c.ask(&os.PathError{Op: "write", Path: os.TempDir(), Err: syscall.ENOSPC}, filepath.Join(os.TempDir(), "text"))
	look("closing, the text saved elsewhere")
	top().Close()
}

// A tasting has pages that the demonstration does not stand at.
func TestEveryWordOfATastingComesFromTheCatalogue(t *testing.T) {
	t.Setenv("LANG", "en_GB.UTF-8")
	a := maintest.App(t)
	aStrangeLanguage(t)
	for _, method := range methods() {
		for _, mode := range []blind.Mode{blind.WithHelper, blind.Alone} {
			if mode == blind.Alone && method != blind.DuoTrio {
				continue // the ways of plating differ, the methods within one hardly
			}
			t.Run(string(method)+" "+string(mode), func(t *testing.T) {
				lw := newLeakWorld(t, filepath.Join(t.TempDir(), "journal"), planOf(method, mode), false)
				lw.show(a)
				defer lw.w.Close()
				_, written := everyPlace(t, lw.j)
				written += plain("Ines Jory sour liking not at all extremely dislike extremely like extremely After supper")
				look := func(p pages.Route) {
					t.Helper()
					lw.w.Go(p)
					lw.settle()
					checkSaid(t, written, p.Name+" "+p.More, append(inSight(lw.w), onCharts(t, lw.w)...)...)
				}
				for _, p := range lw.everyPlace() {
					if p.Name == pages.Tasting {
						look(p)
					}
				}
				score := pages.Route{Name: pages.Tasting, ID: lw.tasting, More: "score"}
				for look(score); lw.step(); look(score) {
					lw.w.keys.Press("Enter") // past whose turn it is
					lw.settle()
					checkSaid(t, written, "scoring", inSight(lw.w)...)
				}
				if mode == blind.Alone {
					return // the slips are on the table
				}
				if err := lw.j.Unseal(lw.tasting, ""); err != nil {
					t.Fatal(err)
				}
				look(pages.At(pages.Tasting, lw.tasting))
			})
		}
	}
}

// checkSaid wants every word of what is said to come from the catalogue, or to be
// one that the baker wrote.
func checkSaid(t *testing.T, written, where string, said ...string) {
	t.Helper()
	for _, s := range said {
		if raw := unsaid(s, written); raw != "" {
			t.Errorf("%s: %q stands in no catalogue: %q", where, raw, s)
		}
	}
}

// onCharts gives every text of the charts that the window shows, as they would be
// saved, with their descriptions and what pointing at them tells.
func onCharts(t *testing.T, w *window) []string {
	t.Helper()
	var said []string
	everyObject(w.win.Canvas(), func(o fyne.CanvasObject) {
		f, ok := o.(*kit.ChartFrame)
		if !ok {
			return
		}
		f.Resize(fyne.NewSize(720, 420))
		everyUnder(f, func(o fyne.CanvasObject) {
			if r, ok := o.(*canvas.Raster); ok {
				r.Generator(720, 420) // asks for the drawing
			}
		})
		f.Wait()
		w.env.Wait()
		save := f.OnSave
		defer func() { f.OnSave = save }()
		f.OnSave = func(name string, write func(io.Writer) error) {
			var b bytes.Buffer
			if err := write(&b); err != nil || !strings.HasSuffix(name, ".svg") {
				return
			}
			for _, m := range svgText.FindAllStringSubmatch(b.String(), -1) {
				said = append(said, html.UnescapeString(m[1]))
			}
		}
		for _, item := range f.Menu() {
			item.Action()
		}
	})
	return said
}

// svgText finds what a drawing says.
var svgText = regexp.MustCompile(`(?:<text[^>]*>|<desc>|<title>)([^<]*)<`)

// inSight gives every text that the window shows, and would show on pointing at
// something.
func inSight(w *window) []string {
	var said []string
	for _, thing := range outline.Of(w.win) {
		if _, path := strings.CutPrefix(thing.Text, os.TempDir()); !path {
			said = append(said, thing.Text, thing.Tip)
		}
	}
	return said
}

// apart are the runs of English letters in a text, with the spaces and hyphens
// between them.
var apart = regexp.MustCompile(`[A-Za-z]+(?:[ '’-][A-Za-z]+)*`)

// plain writes a text with one space for whatever is not a letter.
var notLetters = regexp.MustCompile(`[^A-Za-z]+`)

func plain(s string) string {
	return " " + strings.TrimSpace(strings.ToLower(notLetters.ReplaceAllString(s, " "))) + " "
}

// unsaid gives the first run of words that is neither a symbol nor stands in what
// the baker wrote: the catalogue did not say it.
func unsaid(s string, written string) string {
	for _, run := range apart.FindAllString(s, -1) {
		run = strings.TrimPrefix(run, "g ") // of a weight before the baker's own word
		want := plain(run)
		if strings.Contains(s, run+"…") { // a line that is cut may end within a word
			want = strings.TrimSuffix(want, " ")
		}
		if len(run) > 1 && !strings.Contains(written, want) {
			return run
		}
	}
	return ""
}

// everyPlace lists the places of the window for a journal, and gives what the
// baker wrote in it.
func everyPlace(t *testing.T, j *journal.Journal) (places []pages.Route, written string) {
	t.Helper()
	for _, name := range []string{pages.Today, pages.Cultures, pages.Bakes, pages.Formulas, pages.Tastings, pages.Shelf, pages.Findings, pages.Bin, pages.Settings, pages.Safekeeping, pages.Help, pages.About} {
		places = append(places, pages.Route{Name: name})
	}
	var b strings.Builder
	for _, s := range symbols {
		b.WriteString(plain(s))
	}
	for _, l := range words.Languages() {
		b.WriteString(plain(l.Name)) // as its speakers call it
	}
	for _, s := range []string{runtime.Version(), runtime.GOOS, runtime.GOARCH} {
		b.WriteString(plain(s))
	}
	parts, err := licences.Read()
	if err != nil {
		t.Fatal(err)
	}
	for _, p := range parts.Parts { // their names are those that others gave
		b.WriteString(plain(p.Name + " " + p.Version + " " + p.Licence))
	}
	places = append(places, each[journal.Culture](t, j, &b, 9, pages.Culture, pages.History)...)
	places = append(places, each[journal.Feeding](t, j, &b, 3, pages.Feeding)...)
	places = append(places, each[journal.Reading](t, j, &b, 0)...)
	places = append(places, each[journal.Formula](t, j, &b, 3, pages.Formula)...)
	places = append(places, each[journal.Bake](t, j, &b, 5, pages.Bake, pages.BakeDay)...)
	places = append(places, each[journal.Trial](t, j, &b, 2, pages.Trial)...)
	places = append(places, each[journal.Tasting](t, j, &b, 5, pages.Tasting)...)
	places = append(places, each[journal.Flour](t, j, &b, 2, pages.Flour)...)
	return fewer(places), b.String()
}

// fewer is all places, or those of few pages under the race detector: each page is gone to
// there by the walk that looks whether anything tells while sealed.
func fewer(places []pages.Route) []pages.Route {
	if !race.Enabled {
		return places
	}
	seen := map[string]bool{}
	return race.Few(slices.DeleteFunc(places, func(p pages.Route) bool {
		was := seen[p.Name]
		seen[p.Name] = true
		return was
	}), 6)
}

// seriesPlace gives the first feeding a row of pictures, and the place that shows it.
func seriesPlace(t *testing.T, j *journal.Journal) pages.Route {
	t.Helper()
	fed, err := journal.All[journal.Feeding](j)
	if err != nil {
		t.Fatal(err)
	}
	scene := (&jartest.Scene{Seed: 5, Frames: 8, Every: 20 * time.Minute, Start: fed[0].At, Peak: 2, ToPeak: time.Hour, Noise: 1, Hand: true}).Begin()
	paths, err := jartest.Folder{Dir: filepath.Join(t.TempDir(), "Harbour")}.Write(scene)
	if err != nil {
		t.Fatal(err)
	}
	var files []journal.Picture
	for _, path := range paths {
		files = append(files, journal.Picture{Name: filepath.Base(path), Path: path})
	}
	plan, err := j.PlanSeries(t.Context(), files)
	if err != nil {
		t.Fatal(err)
	}
	one := journal.SeriesJar{Culture: fed[0].Culture, Feeding: fed[0].ID}
	one.SetMarks(scene.Marks())
	id, err := j.BeginSeries(plan, false, one)
	if err != nil {
		t.Fatal(err)
	}
	return pages.At(pages.Series, id)
}

// crumbPlaces gives a bake two photos of its crumb, one of them blurred, and lists
// the places that show them.
func crumbPlaces(t *testing.T, j *journal.Journal) []pages.Route {
	t.Helper()
	bakes, err := journal.All[journal.Bake](j)
	if err != nil {
		t.Fatal(err)
	}
	var pictures []journal.Picture
	for i, blur := range []float64{0, 4} {
		drawn, err := phantom.Draw(t.Context(), phantom.Slice{Seed: uint64(i), Width: 640, Height: 480, Light: phantom.Light{Blur: blur}})
		if err != nil {
			t.Fatal(err)
		}
		var b bytes.Buffer
		if err := png.Encode(&b, drawn.Photo); err != nil {
			t.Fatal(err)
		}
		pictures = append(pictures, journal.Picture{Name: fmt.Sprintf("%d.png", i), Open: func() (io.ReadCloser, error) {
			return io.NopCloser(bytes.NewReader(b.Bytes())), nil
		}})
	}
	added, refused, err := j.AddPictures(t.Context(), "photos", journal.RefOf(bakes[0]), journal.RoleCrumb, pictures, nil)
	if err != nil || len(refused) > 0 {
		t.Fatal(refused, err)
	}
	places := []pages.Route{{Name: pages.Crumb}, {Name: pages.Crumb, ID: added[0], More: string(added[1])},
		{Name: pages.Photo, ID: added[0], More: string(added[1])},
		{Name: pages.Compare, More: string(bakes[0].ID)},
		{Name: pages.Compare, More: string(bakes[0].ID) + " " + string(bakes[len(bakes)-1].ID)}}
	for _, id := range added {
		places = append(places, pages.At(pages.Photo, id), pages.At(pages.Crumb, id))
	}
	return places
}

// each gives places for the last few records of a kind, and adds what was written
// in all of them.
func each[T any, P journal.Record[T]](t *testing.T, j *journal.Journal, written *strings.Builder, most int, names ...string) []pages.Route {
	t.Helper()
	all, err := journal.All[T, P](j)
	if err != nil {
		t.Fatal(err)
	}
	var places []pages.Route
	for i, r := range all {
		b, err := json.Marshal(r)
		if err != nil {
			t.Fatal(err)
		}
		var fields map[string]any
		if err := json.Unmarshal(b, &fields); err != nil {
			t.Fatal(err)
		}
		addWritten(written, fields)
		if i >= len(all)-most {
			id, _ := fields["id"].(string)
			for _, name := range names {
				places = append(places, pages.At(name, journal.ID(id)))
			}
		}
	}
	return places
}

// addWritten adds what the baker wrote: names and notes, and no kinds or roles.
func addWritten(written *strings.Builder, v any) {
	switch v := v.(type) {
	case map[string]any:
		for key, value := range v {
			s, ok := value.(string)
			if !ok {
				addWritten(written, value)
				continue
			}
			switch strings.ToLower(key) {
			case "name", "notes", "note", "text", "caption", "title", "varied", "value", "reason", "remark", "change", "displacedby":
				written.WriteString(plain(s))
			}
		}
	case []any:
		for _, item := range v {
			if s, ok := item.(string); ok {
				written.WriteString(plain(s))
				continue
			}
			addWritten(written, item)
		}
	}
}
