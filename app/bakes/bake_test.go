package bakes

import (
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/formula"
	"twinloaf/journal/plan"
)

func key(name fyne.KeyName) *fyne.KeyEvent { return &fyne.KeyEvent{Name: name} }

// open shows the page of a bake; without an ID that of a new one.
func open(b *pagestest.Bench, id journal.ID) *bakePage {
	return b.Show(Routes()[pages.Bake], pages.Route{Name: pages.Bake, ID: id}).(*bakePage)
}

// write types where the cursor is.
func write(b *pagestest.Bench, text string) {
	test.Type(b.Window.Canvas().Focused(), text)
}

// press sends keys to what has the cursor, as a keyboard would.
func press(b *pagestest.Bench, keys ...fyne.KeyName) {
	for _, k := range keys {
		if k == fyne.KeyTab {
			b.Window.Canvas().(interface{ FocusNext() }).FocusNext()
			continue
		}
		b.Window.Canvas().Focused().TypedKey(key(k))
	}
}

func TestWriteDownABake(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	if b.Window.Canvas().Focused() != p.head.name.Entry() {
		t.Fatal("the page of a new bake does not begin in its name")
	}
	if summaries, _ := b.Journal.BakeSummaries(); len(summaries) != 0 {
		t.Fatal("a new bake is in the journal before anything is written")
	}
	if words := b.Texts(); strings.Contains(words, "Compare with others") || strings.Contains(words, "Bake it again") || strings.Contains(words, "Print or save") {
		t.Error("a bake in which nothing is written offers what can be done with one that is")
	}
	write(b, "Deck rye")
	if words := b.Texts(); !strings.Contains(words, "Compare with others") || !strings.Contains(words, "Bake it again") {
		t.Error("a bake in which something is written does not offer what can be done with it")
	}
	b.Press("I")
	for _, line := range []struct{ name, grams string }{
		{"Strong white flour", "450"}, {"Wholemeal rye", "50"}, {"Water", "350"}, {"Salt", "10"}, {"rye starter", "100"},
	} {
		write(b, line.name)
		press(b, fyne.KeyTab)
		write(b, line.grams)
		press(b, fyne.KeyReturn) // on to the next line
	}
	if b.Window.Canvas().Focused() != p.dough.Final().Next().Entry() {
		t.Error("Enter in the last weight does not lead to the next line")
	}
	got := pagestest.Stored[journal.Bake](b, p.rec.id)
	if got.Name != "Deck rye" || !got.At.Equal(b.Clock) || len(got.Ingredients) != 5 {
		t.Fatalf("it is written down as %+v", got)
	}
	for i, want := range []struct {
		role  formula.Role
		grams formula.Grams
		whole formula.Percent
	}{{formula.Flour, 450, 0}, {formula.Flour, 50, 100}, {formula.Water, 350, 0}, {formula.Salt, 10, 0}, {formula.Culture, 100, 0}} {
		in := got.Ingredients[i]
		whole := formula.Percent(0)
		if in.Flour != nil {
			whole = in.Flour.Wholegrain
		}
		if in.Role != want.role || in.Grams != want.grams || whole != want.whole {
			t.Errorf("line %d is %s, %g g, wholegrain %g; want %+v", i+1, in.Role, in.Grams, whole, want)
		}
	}
	// 350 and 50 of water to 500 and 50 of flour, or, the culture left aside, 350 to 500.
	for f, want := range map[formula.Metric]string{
		formula.FigureHydration: "72.7", formula.FigureWeighed: "70.0", formula.FigureSalt: "1.8",
		formula.FigurePrefermented: "9", formula.FigureWholegrain: "9", formula.FigureDough: "960",
	} {
		if got := p.figures.readouts[f].String(); !strings.HasPrefix(got, want+"\u00a0") {
			t.Errorf("%s shows %q, want %s", f, got, want)
		}
	}
	if words := b.Texts(); !strings.Contains(words, "81.8") || !strings.Contains(words, "wheat, rye") {
		t.Errorf("the percentage of the white flour or the allergens are missing in\n%s", words)
	}
	if len(b.Failed) > 0 {
		t.Errorf("it failed: %v", b.Failed)
	}
}

func TestUndoOfTyping(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	write(b, "Deck")
	b.Window.Canvas().Unfocus()
	undo := func(want, left string) {
		t.Helper()
		label, err := b.Journal.Undo()
		if err != nil || label != want || p.head.name.Text() != left {
			t.Fatalf("undo of %q (%v) leaves %q; want %q and %q", label, err, p.head.name.Text(), want, left)
		}
	}
	undo("name of the bake", "")
	undo("new bake", "")
	if summaries, _ := b.Journal.BakeSummaries(); len(summaries) != 0 {
		t.Fatal("the bake is still there")
	}
	for range 2 {
		if _, err := b.Journal.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	if p.head.name.Text() != "Deck" {
		t.Errorf("done again the name is %q", p.head.name.Text())
	}
	b.Press("I")
	write(b, "Rye")
	press(b, fyne.KeyTab)
	write(b, "500")
	b.Window.Canvas().Unfocus()
	for _, want := range []struct {
		lines int
		grams formula.Grams
	}{{1, 0}, {0, 0}} {
		if _, err := b.Journal.Undo(); err != nil {
			t.Fatal(err)
		}
		got := pagestest.Stored[journal.Bake](b, p.rec.id)
		if len(got.Ingredients) != want.lines || want.lines > 0 && got.Ingredients[0].Grams != want.grams {
			t.Errorf("undo leaves %+v, want %d lines", got.Ingredients, want.lines)
		}
	}
	if strings.Contains(b.Texts(), "Rye") {
		t.Error("the page still shows the line that was undone")
	}
}

func TestLinesAreNotDoubled(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	for range 3 {
		b.Press("I")
		write(b, "Rye")
	}
	if got := pagestest.Stored[journal.Bake](b, p.rec.id); len(got.Ingredients) != 3 {
		t.Fatalf("three lines became %d", len(got.Ingredients))
	}
	b.Press("Ctrl+D")
	got := pagestest.Stored[journal.Bake](b, p.rec.id)
	if len(got.Ingredients) != 2 {
		t.Fatalf("taking one out leaves %d", len(got.Ingredients))
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if got = pagestest.Stored[journal.Bake](b, p.rec.id); len(got.Ingredients) != 3 {
		t.Errorf("undo brings back %d", len(got.Ingredients))
	}
	ids := map[journal.ID]bool{}
	for _, in := range got.Ingredients {
		ids[in.ID] = true
	}
	if len(ids) != 3 {
		t.Errorf("the lines have %d IDs among them", len(ids))
	}
}

func TestKeptThroughACrash(t *testing.T) {
	b := bench(t)
	p := open(b, "")
	write(b, "Deck rye")
	id := p.rec.id
	b.Reopen() // closes as a program does, in the middle of typing
	if got := pagestest.Stored[journal.Bake](b, id); got.Name != "Deck rye" {
		t.Errorf("after opening again it is called %q", got.Name)
	}
}

func TestEmptyBakeLeavesNothing(t *testing.T) {
	history := func(b *pagestest.Bench) string {
		undo, redo := b.Journal.Steps()
		return undo + "|" + redo
	}
	b := bench(t)
	was := history(b)
	p := open(b, "")
	p.Left()
	if summaries, _ := b.Journal.BakeSummaries(); len(summaries) != 0 || history(b) != was {
		t.Errorf("a page opened and left leaves %d bakes and the history %s", len(summaries), history(b))
	}

	p = open(b, "")
	write(b, "x")
	if _, err := b.Journal.Undo(); err != nil { // takes back the name: an empty bake is left
		t.Fatal(err)
	}
	p.Left()
	if summaries, _ := b.Journal.BakeSummaries(); len(summaries) != 0 {
		t.Error("the bake whose name was undone is still there")
	}
	for range 2 { // what was undone can still be done again
		if _, err := b.Journal.Redo(); err != nil {
			t.Fatal(err)
		}
	}
	if got := pagestest.Stored[journal.Bake](b, p.rec.id); got.Name != "x" {
		t.Errorf("done again it is called %q", got.Name)
	}

	p = open(b, "")
	write(b, "y")
	press(b, fyne.KeyBackspace)
	pagestest.Stored[journal.Bake](b, p.rec.id)
	p.Left()
	if _, err := journal.Get[journal.Bake](b.Journal, p.rec.id); err == nil {
		t.Error("a bake that was emptied by hand is still there")
	}

	p = open(b, "")
	write(b, "kept")
	p.Left()
	pagestest.Stored[journal.Bake](b, p.rec.id)
}

func TestStepsAndOutcome(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock.Add(-20 * time.Hour)}
	put(b, bake)
	p := open(b, bake.ID)
	b.Press("S")
	write(b, "bulk")
	press(b, fyne.KeyTab)
	write(b, "8:00")
	press(b, fyne.KeyTab)
	write(b, "8:45")
	press(b, fyne.KeyTab)
	write(b, "25.5")
	press(b, fyne.KeyTab, fyne.KeyTab)
	write(b, "1.6")
	b.Window.Canvas().Unfocus()
	got := pagestest.Stored[journal.Bake](b, bake.ID)
	if len(got.Steps) != 1 {
		t.Fatalf("steps: %+v", got.Steps)
	}
	s := got.Steps[0]
	if s.Kind != journal.StepBulk || s.Name != "" || s.Length() != 45*time.Minute || s.Dough == nil || *s.Dough != 25.5 || s.Rise == nil || *s.Rise != 1.6 {
		t.Errorf("the step is %+v", s)
	}
	b.Press("O")
	write(b, "950")
	press(b, fyne.KeyTab)
	write(b, "820")
	b.Window.Canvas().Unfocus()
	if got := p.outcome.loss.String(); !strings.HasPrefix(got, "13.7\u00a0%") {
		t.Errorf("bake loss shows %q, want 13.7 %%: (950 − 820) ÷ 950", got)
	}
	b.Window.Canvas().Focus(p.outcome.lines[0].row)
	write(b, "7")
	got = pagestest.Stored[journal.Bake](b, bake.ID)
	if len(got.Outcome.Scores) != 1 || got.Outcome.Scores[0].Attribute != journal.Overall || got.Outcome.Scores[0].Score != 7 {
		t.Errorf("scores: %+v", got.Outcome.Scores)
	}
	if words := b.Texts(); !strings.Contains(words, "7 out of 9, bake loss 13.7 %") {
		t.Errorf("the heading is not among\n%s", words)
	}
	p.outcome.addAttribute("Crackle")
	if n := len(p.outcome.lines); n != len(usualAttributes())+1 || p.outcome.lines[n-1].key != "crackle" {
		t.Error("a word of one's own is not asked about")
	}
}

func TestBinAndBack(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock}
	put(b, bake)
	open(b, bake.ID)
	b.Press("B")
	if b.Backs != 1 || len(b.Said) != 1 || !pagestest.Stored[journal.Bake](b, bake.ID).InBin() {
		t.Fatalf("went back %d times, said %q", b.Backs, b.Said)
	}
	p := b.Show(Routes()[pages.Bin], pages.Route{Name: pages.Bin}).(*binPage)
	if words := b.Texts(); !strings.Contains(words, "One thing waits in the bin") {
		t.Fatalf("the bin shows\n%s", words)
	}
	p.list.TypedKey(key(fyne.KeyReturn))
	if pagestest.Stored[journal.Bake](b, bake.ID).InBin() || len(p.all) != 0 {
		t.Error("Enter did not bring it back")
	}
}

func TestEmptyTheBin(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock}
	put(b, bake)
	photo := &journal.Photo{Owner: journal.RefOf(bake), Hash: strings.Repeat("0", 64), Added: b.Clock}
	lone := &journal.Culture{Name: "Harbour"}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, photo); err != nil {
			return err
		}
		if err := journal.Put(tx, lone); err != nil {
			return err
		}
		if err := journal.MoveToBin[journal.Culture](tx, lone.ID); err != nil {
			return err
		}
		return journal.MoveToBin[journal.Bake](tx, bake.ID)
	})
	p := b.Show(Routes()[pages.Bin], pages.Route{Name: pages.Bin}).(*binPage)
	if len(p.all) != 2 {
		t.Fatalf("the bin holds %d things", len(p.all))
	}
	b.Press("X")
	if b.Window.Canvas().Overlays().Top() == nil {
		t.Fatal("it does not ask first")
	}
	if err := b.Journal.Do("emptying the bin", func(tx *journal.Tx) error { return emptyBin(tx, p.all) }); err != nil {
		t.Fatal(err)
	}
	if _, err := journal.Get[journal.Photo](b.Journal, photo.ID); err == nil {
		t.Error("the photo of the bake is still there")
	}
	if _, err := b.Journal.Undo(); err != nil {
		t.Fatal(err)
	}
	if !pagestest.Stored[journal.Bake](b, bake.ID).InBin() {
		t.Error("undo does not bring the bake back into the bin")
	}
	if photos, err := journal.Photos(b.Journal, bake.ID); err != nil || len(photos) != 1 {
		t.Errorf("undo brings back %d photos, %v", len(photos), err)
	}
}

// With a culture go the photos of its readings: nothing would show them any more.
func TestEmptyTheBinOfACultureThatWasPhotographed(t *testing.T) {
	b := bench(t)
	c := &journal.Culture{Name: "Harbour"}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, c) })
	r := &journal.Reading{Culture: c.ID, At: b.Clock}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, r) })
	photo := &journal.Photo{Owner: journal.RefOf(r), Hash: strings.Repeat("0", 64), Added: b.Clock}
	b.Put(func(tx *journal.Tx) error {
		if err := journal.Put(tx, photo); err != nil {
			return err
		}
		return journal.MoveToBin[journal.Culture](tx, c.ID)
	})
	p := b.Show(Routes()[pages.Bin], pages.Route{Name: pages.Bin}).(*binPage)
	b.Put(func(tx *journal.Tx) error { return emptyBin(tx, p.all) })
	if _, err := journal.Get[journal.Photo](b.Journal, photo.ID); err == nil {
		t.Error("the photo of the reading is still there")
	}
}

// A row of pictures can be begun as soon as a bake that was read is written in.
func TestWritingInABakeOffersARowOfItsBulk(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock, State: journal.Finished, Outcome: journal.Outcome{Notes: "dense"},
		Steps: []journal.Step{{ID: "1", Kind: string(plan.Bulk), At: b.Clock, End: b.Clock.Add(4 * time.Hour)}}}
	put(b, bake)
	open(b, bake.ID)
	b.Wait()
	if strings.Contains(flowing(b), "Rise of the bulk") {
		t.Error("read, it offers a row of pictures")
	}
	b.Press("E")
	if !strings.Contains(flowing(b), "Rise of the bulk") {
		t.Error("written in, it offers none")
	}
	b.Press("E")
	if strings.Contains(flowing(b), "Rise of the bulk") {
		t.Error("read again, it offers one")
	}
}

func TestKeysOfTheBake(t *testing.T) {
	b := bench(t)
	bake := &journal.Bake{Name: "Deck rye", At: b.Clock}
	put(b, bake)
	open(b, bake.ID)
	for _, tt := range []struct {
		key  string
		want pages.Route
	}{
		{"D", pages.At(pages.BakeDay, bake.ID)},
		{"A", pages.Route{Name: pages.BakeDay, ID: bake.ID, More: "again"}},
		{"C", pages.Route{Name: pages.Compare, More: string(bake.ID)}},
	} {
		b.Press(tt.key)
		if got := b.Went[len(b.Went)-1]; got != tt.want {
			t.Errorf("%s goes to %+v, want %+v", tt.key, got, tt.want)
		}
	}
	n := len(b.Went)
	b.Press("M")
	if len(b.Went) != n || len(b.Said) != 1 {
		t.Error("without a photo of the crumb there is something to measure")
	}
	photo := &journal.Photo{Owner: journal.RefOf(bake), Hash: strings.Repeat("0", 64), Role: journal.RoleCrumb, Added: b.Clock}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, photo) })
	b.Press("M")
	if got := b.Went[len(b.Went)-1]; got != pages.At(pages.Crumb, photo.ID) {
		t.Errorf("M goes to %+v", got)
	}
	b.Press("E") // it has a photo now: it can be read
	if b.Window.Canvas().Focused() != nil {
		t.Error("the page that is read holds a field with the cursor")
	}
	b.Press("E")
	if b.Window.Canvas().Focused() == nil {
		t.Error("E does not put the cursor in the name")
	}
}

// A bake that was made for a row of pictures of its dough stays, though nothing else is written
// on it: the row is of that dough.
func TestANewBakeWithARowOfPicturesStays(t *testing.T) {
	b := pagestest.New(t)
	p := open(b, "")
	if !p.rec.put() {
		t.Fatal(b.Failed)
	}
	row := &journal.Series{Jars: []journal.SeriesJar{{Bake: p.rec.id}}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, row) })
	p.Left()
	if _, err := journal.Get[journal.Bake](b.Journal, p.rec.id); err != nil {
		t.Errorf("the dough of the row is gone: %v", err)
	}
}

// A word to be judged stays in its field until it is kept.
func TestAWordToJudgeThatCannotBeKeptStays(t *testing.T) {
	b := pagestest.New(t)
	bake := &journal.Bake{Name: "Ferry loaf", At: b.Clock, Outcome: journal.Outcome{Notes: "good"}}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, bake) })
	p := open(b, bake.ID)
	p.write()
	p.outcome.more.SetText("bitterness")
	b.Put(func(tx *journal.Tx) error { return tx.Remove(journal.RefOf(bake)) })
	p.outcome.addAttribute("bitterness")
	if p.outcome.more.Text() != "bitterness" {
		t.Errorf("%q is left of it, %v", p.outcome.more.Text(), b.Failed)
	}
}
