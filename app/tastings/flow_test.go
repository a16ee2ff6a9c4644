package tastings

import (
	"slices"
	"strings"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/canvas"
	"fyne.io/fyne/v2/theme"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/app/pages/pagestest"
	"twinloaf/assets/words"
	"twinloaf/journal"
	"twinloaf/journal/blind"
	"twinloaf/journal/formula"
)

// bench is a bench on which this room's pages follow one another as they do in the
// window.
type bench struct {
	*pagestest.Bench
	t     *testing.T
	place pages.Route
}

func newBench(t *testing.T) *bench {
	t.Helper()
	b := &bench{Bench: pagestest.New(t), t: t}
	b.Env.Go = b.goTo
	return b
}

func (b *bench) goTo(p pages.Route) {
	b.t.Helper()
	open, ok := Routes()[p.Name]
	if !ok {
		b.place = p // another room's page
		return
	}
	b.place = p
	b.Show(open, p)
	b.settle()
}

// settle waits for what is worked out elsewhere.
func (b *bench) settle() {
	b.Wait()
	b.Window.Resize(fyne.NewSize(1280, 801))
	b.Window.Resize(fyne.NewSize(1280, 800))
}

func (b *bench) mustSay(words string) {
	b.t.Helper()
	if !strings.Contains(b.Texts(), words) {
		b.t.Fatalf("%q is not on the page:\n%s", words, b.Texts())
	}
}

// press presses the button that begins with label, on the sheet on top if there
// is one.
func (b *bench) press(label string) {
	b.t.Helper()
	root := b.Window.Content()
	if top := b.Window.Canvas().Overlays().Top(); top != nil {
		root = top
	}
	var found fyne.Tappable
	pagestest.Each(root, func(o fyne.CanvasObject) {
		switch o := o.(type) {
		case *kit.Button:
			if strings.HasPrefix(o.Label(), label) && !o.Disabled() {
				found = o
			}
		case *kit.Pill:
			if o.Words() == label {
				found = o
			}
		case *choicePlate:
			if o.label == label && found == nil {
				found = o
			}
		}
	})
	if found == nil {
		b.t.Fatalf("there is no %q to press:\n%s\n%v", label, b.Texts(), b.Failed)
	}
	found.Tapped(&fyne.PointEvent{})
	b.mustSettle()
}

// key presses a key of the page, or Ctrl+Enter in the dialog on top: what a button is
// called in whatever language, its key is the same.
func (b *bench) key(name string) {
	b.t.Helper()
	b.Press(name)
	b.mustSettle()
}

func (b *bench) mustSettle() {
	b.t.Helper()
	b.settle()
	if len(b.Failed) > 0 {
		b.t.Fatal(b.Failed)
	}
}

// trial puts a formula, two cultures and a trial of two bakes in the journal.
func (b *bench) trial() *journal.Trial {
	b.t.Helper()
	var trial *journal.Trial
	err := b.Env.Journal.Do("trial", func(tx *journal.Tx) error {
		var cultures []journal.ID
		for _, name := range []string{"Harbour", "Gorse"} {
			c := &journal.Culture{Name: name, Flours: []journal.FlourShare{{Name: "Rye flour", Grain: "rye", Share: 100}}}
			if err := journal.Put(tx, c); err != nil {
				return err
			}
			cultures = append(cultures, c.ID)
		}
		f := &journal.Formula{Name: "Ferry loaf", Loaves: 1, Ingredients: []journal.Ingredient{
			{ID: "1", Name: "Wheat flour", Role: formula.Flour, Grams: 450}, {ID: "2", Name: "Water", Role: formula.Water, Grams: 340},
			{ID: "3", Name: "Culture", Role: formula.Culture, Grams: 90}, {ID: "4", Name: "Sesame seeds", Role: formula.Seeds, Grams: 30},
		}, Steps: []journal.Step{{ID: "a", Kind: "mix", Planned: 15 * time.Minute}}}
		if err := journal.NewFormula(tx, f); err != nil {
			return err
		}
		var err error
		trial, err = journal.NewTrial(tx, journal.TrialPlan{From: journal.RefOf(f), Varied: journal.VaryCulture,
			Values: []string{"Harbour", "Gorse"}, Cultures: cultures, Marks: pages.BowlMarks(), At: b.Clock})
		return err
	})
	if err != nil {
		b.t.Fatal(err)
	}
	return trial
}

// tasting is the one tasting of the journal.
func (b *bench) tasting() *journal.Tasting {
	b.t.Helper()
	all, err := journal.All[journal.Tasting](b.Env.Journal)
	if err != nil || len(all) != 1 {
		b.t.Fatal(len(all), err)
	}
	return all[0]
}

func (b *bench) setPlan(change func(*blind.Plan)) {
	b.t.Helper()
	if err := b.Env.Journal.PlanTasting(b.tasting().ID, "plan", change); err != nil {
		b.t.Fatal(err)
	}
	b.settle()
}

// tasteRound tastes one round on screen, to the answer.
func (b *bench) tasteRound() {
	b.t.Helper()
	for range 12 {
		switch said := b.Texts(); {
		case strings.Contains(said, "Now taste"):
			b.key("Enter")
		case strings.Contains(said, "Skip the pause"):
			b.Clock = b.Clock.Add(2 * time.Minute)
			b.key("Enter") // its words follow within a second
		default:
			return
		}
	}
}

func TestATriangleWithAHelperFromTrialToVerdict(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.mustSay("Drawn by lot")
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines"}, 2 })
	b.mustSay("cannot show anything")
	b.mustSay("sesame")
	b.key("P")
	b.mustSay("Tasters, look away")
	if strings.Contains(b.Texts(), "Ferry loaf, Gorse") {
		t.Error("a loaf is named before the helper said so")
	}
	b.key("G")
	if f := b.Window.Canvas().Focused(); f != nil {
		t.Errorf("%T still has the keys: Enter draws other codes", f)
	}
	b.mustSay("Ferry loaf, Gorse")
	b.key("G")
	b.key("Ctrl+Enter") // the question whether to
	id := b.tasting().ID
	if b.tasting().Sealed.IsZero() {
		t.Fatal("it is not sealed")
	}
	if strings.Contains(b.Texts(), "Ferry loaf") {
		t.Error("the card is still there")
	}
	b.key("G")
	b.mustSay("Before the first bite")
	b.mustSay("sesame")
	b.key("Enter")
	b.mustSay("Now taste")
	b.mustSay("sesame")
	b.key("Enter") // the first sample; then the program dies
	b.Reopen()
	b.goTo(pages.At(pages.Tasting, id))
	b.mustSay("0 of 2 rounds are in")
	b.key("T")
	b.mustSay("Rinse") // before the second sample, where it was
	b.tasteRound()
	b.mustSay("Which one differs?")
	setting, err := b.tasting().Setting()
	if err != nil {
		t.Fatal(err)
	}
	b.press(setting.Servings[0].Samples[0])
	b.key("Enter")
	b.tasteRound()
	b.press(setting.Servings[1].Samples[2])
	b.key("Enter")
	b.mustSay("Every score is in")
	b.key("Enter")
	one := &journal.Photo{Owner: journal.Ref{Kind: journal.KindBake, ID: journal.ID(setting.Plan.Loaves[0].ID)}, Hash: strings.Repeat("0", 64), Added: b.Clock}
	b.Put(func(tx *journal.Tx) error { return journal.Put(tx, one) })
	b.key("U")
	b.key("Ctrl+Enter")
	if !b.tasting().IsOpen() {
		t.Fatal("it is not unsealed")
	}
	b.mustSay("Was it a fair pair?")
	if n := len(pagestest.All[*kit.PhotoTile](b.Window.Content())); n != 2 {
		t.Errorf("beside a loaf with a picture stand %d", n-1)
	}
	b.mustSay("The figures")
	b.mustSay("Ferry loaf, Gorse")
	b.key("S")
	b.mustSay("Plan, loaves and answers fit the fingerprints that this journal keeps")
	b.mustSay("sha256sum")
	b.Window.Canvas().Overlays().Top().(*kit.Dialog).Close()
	b.goTo(pages.Route{Name: pages.Tastings})
	b.mustSay("Right answers of each taster")
	b.mustSay("Ines")
}

func TestTwoBakesOfATrialAreTastedAsAPartOfIt(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	loose := &journal.Bake{Name: "Other loaf", At: b.Clock}
	if err := b.Env.Journal.Do("another bake", func(tx *journal.Tx) error { return journal.Put(tx, loose) }); err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		bakes [2]journal.ID
		trial journal.ID
	}{
		{[2]journal.ID{trial.Arms[0].Bake, trial.Arms[1].Bake}, trial.ID},
		{[2]journal.ID{trial.Arms[0].Bake, loose.ID}, ""},
	} {
		planTasting(b.Env, time.Time{}, "", c.bakes, blind.Plan{}, "")
		got, err := journal.Get[journal.Tasting](b.Env.Journal, b.place.ID)
		if err != nil {
			t.Fatal(err, b.Failed)
		}
		if got.Trial != c.trial {
			t.Errorf("a tasting of %v belongs to the trial %q, not %q", c.bakes, got.Trial, c.trial)
		}
	}
}

// The key on the button that goes on is named as on the keyboards of the window's language.
func TestScoringNamesEnterInTheWindowsLanguage(t *testing.T) {
	if err := words.Speak("de"); err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := words.Speak("en"); err != nil {
			t.Error(err)
		}
	})
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Mode, p.Tasters, p.Rounds = blind.Alone, []string{"Ines"}, 1 })
	b.key("P")
	b.key("G")
	b.key("G")
	b.key("Ctrl+Enter")
	b.key("G")
	b.key("Enter")
	act := b.Page().(*scorePage).act
	var said []string
	for _, x := range pagestest.All[*kit.Text](act) {
		said = append(said, x.String())
	}
	if !slices.Contains(said, "Eingabe") {
		t.Errorf("the button says %q", said)
	}
}

func TestATastingAloneIsTurnedOverAtTheEnd(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Mode, p.Tasters, p.Rounds = blind.Alone, []string{"Ines"}, 1 })
	b.key("P")
	b.key("G")
	b.mustSay("Write the slips")
	b.key("G")
	b.key("Ctrl+Enter")
	b.key("G")
	b.key("Enter")
	for range roundGuide(b.tastingPlan()) {
		b.mustSay("Step")
		b.key("Enter")
	}
	b.mustSay("Now taste")
	b.mustSay("left")
	b.tasteRound()
	b.press("left")
	b.key("Enter")
	b.mustSay("Turn over the slips of round 1")
	setting, err := b.tasting().Setting()
	if err != nil {
		t.Fatal(err)
	}
	slips := slices.Clone(setting.Servings[0].Slips)
	slices.Sort(slips)
	var rows [][]*choicePlate
	pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
		if c, ok := o.(*choicePlate); ok {
			if c.label == slips[0] {
				rows = append(rows, nil)
			}
			rows[len(rows)-1] = append(rows[len(rows)-1], c)
		}
	})
	if len(rows) != 3 {
		t.Fatalf("%d places are asked for", len(rows))
	}
	for i, row := range rows {
		row[i].Tapped(nil)
	}
	b.key("Enter")
	b.key("Enter")
	b.key("U")
	b.key("Ctrl+Enter")
	b.mustSay("The figures")
}

func (b *bench) tastingPlan() blind.Plan {
	b.t.Helper()
	s, err := b.tasting().Setting()
	if err != nil {
		b.t.Fatal(err)
	}
	return s.Plan
}

func TestScalingIsScoredByKeysAndKeptAtOnce(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.press("How does each score?")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines", "Jory"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	b.goTo(to(b.tasting().ID, scoring))
	b.mustSay("Now Ines")
	b.key("Enter") // it is Ines
	b.key("Enter")
	c := b.Window.Canvas()
	for range usualAttributes() {
		row, ok := c.Focused().(*kit.ScoreRow)
		if !ok {
			t.Fatalf("the cursor is at %T", c.Focused())
		}
		row.TypedRune('7')
		c.FocusNext()
	}
	session, err := b.Env.Journal.Session(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	step, _ := session.At(0)
	if n := len(step.Current.Scores[step.Label]); n != len(usualAttributes()) {
		t.Fatalf("%d scores are kept", n)
	}
	b.key("Enter")
	if c.Focused() != nil {
		t.Errorf("in the pause %T still has the keys", c.Focused())
	}
	b.key("Enter")
	session, _ = b.Env.Journal.Session(b.tasting().ID)
	if step, _ = session.At(0); step.Current.SkippedRinses != 1 || step.Sample != 1 {
		t.Errorf("the skipped pause was not noted: %+v", step)
	}
}

func TestASealedPageKeepsToInkAndNamesNoLoaf(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.setPlan(func(p *blind.Plan) { p.Tasters, p.Rounds = []string{"Ines"}, 1 })
	plating, err := b.Env.Journal.Plate(b.tasting().ID)
	if err != nil {
		t.Fatal(err)
	}
	if err := plating.Seal(); err != nil {
		t.Fatal(err)
	}
	for _, more := range []string{"", scoring, "plate"} {
		b.goTo(to(b.tasting().ID, more))
		for _, loaf := range b.tastingPlan().Loaves {
			if strings.Contains(b.Texts(), loaf.Name) {
				t.Errorf("page %q names %q", more, loaf.Name)
			}
		}
		pagestest.Each(b.Window.Content(), func(o fyne.CanvasObject) {
			switch o := o.(type) {
			case *kit.PhotoTile, *kit.PhotoCell, *kit.ChartFrame:
				t.Errorf("page %q shows a %T", more, o)
			case *canvas.Text:
				if o.Color == theme.Color(look.ColorCrust) {
					t.Errorf("page %q says %q in a colour", more, o.Text)
				}
			}
		})
	}
}

// The card of six tasters is seen whole, in the window that the program opens with and in a
// large one: a helper who has to scroll misses a plate. In a large one it stays together.
func TestTheCardIsSeenWhole(t *testing.T) {
	b := newBench(t)
	trial := b.trial()
	b.goTo(pages.At(pages.Trial, trial.ID))
	b.key("T")
	b.press("Which is liked better?")
	b.setPlan(func(p *blind.Plan) {
		p.Tasters, p.Rounds = []string{"Ailsa", "Bram", "Catrin", "Davit", "Ewan", "Freya"}, 2
	})
	b.goTo(to(b.tasting().ID, plating))
	b.key("G")
	b.mustSay("Freya")
	p := b.Page().(*platePage)
	for _, size := range []fyne.Size{fyne.NewSize(1280, 800), fyne.NewSize(1920, 1200)} {
		b.Window.Resize(size)
		if has, wants := p.frame.scroll.Size().Height, p.frame.scroll.Content.Size().Height; wants > has {
			t.Errorf("at %v the card is %v high, of which %v are seen", size, wants, has)
		}
		if from, to := p.frame.hint.Position().X, p.frame.act.Position().X+p.frame.act.Size().Width; to-from > bareSize.Width+1 {
			t.Errorf("at %v what is pressed lies %v apart", size, to-from)
		}
	}
}
