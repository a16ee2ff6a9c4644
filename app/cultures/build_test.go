package cultures

import (
	"slices"
	"testing"
	"time"

	"twinloaf/app/kit"
	"twinloaf/app/pages/pagestest"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/formula"
)

// planned opens the dialog of a build for a culture that is well known.
func planned(t *testing.T, b *pagestest.Bench) *buildDialog {
	t.Helper()
	c := putCulture(b, &journal.Culture{Name: "Gorse", Born: b.Clock.AddDate(0, 0, -30), Usual: new(formula.Celsius(24))})
	for day := range 6 {
		putDay(b, c.ID, b.Clock.AddDate(0, 0, day-6), 2.2, nil)
	}
	s := planBuild(b.Env, lifeOf(t, b, c.ID))
	b.Wait()
	return s
}

// Where the hours at which the baker can feed come too late, a later hour is offered at which the
// build can be ripe.
func TestALaterHourIsOfferedForTheHoursThatAreLeft(t *testing.T) {
	b := pagestest.New(t)
	s := planned(t, b)
	s.hours, s.ask.Sleep = []time.Duration{20 * time.Hour}, nil
	s.ask.RipeAt = time.Date(b.Clock.Year(), b.Clock.Month(), b.Clock.Day(), 19, 0, 0, 0, b.Clock.Location())
	s.work()
	b.Wait()
	if s.plan != nil {
		t.Fatalf("fed at %v, it is ripe at seven", s.plan.Steps[0].At)
	}
	if links := pagestest.All[*kit.Link](s.answer); len(links) == 0 {
		t.Fatal("nothing is offered instead")
	}
	pagestest.All[*kit.Link](s.answer)[0].OnTapped()
	b.Wait()
	if s.plan == nil || !slices.ContainsFunc(s.plan.Steps, func(f ferment.BuildStep) bool { return f.At.Hour() == 20 }) {
		t.Errorf("what was offered is %+v", s.plan)
	}
}

// While another plan is worked out, that of before is no longer saved.
func TestAPlanThatIsNoLongerAskedForIsNotSaved(t *testing.T) {
	b := pagestest.New(t)
	s := planned(t, b)
	saved := 0
	b.Env.AskWhere = func(kit.SaveOptions) { saved++ }
	s.export()
	if saved != 1 {
		t.Fatalf("the plan was saved %d times", saved)
	}
	s.ask.Amount = 400
	s.work()
	s.export()
	if saved != 1 {
		t.Error("the plan for another amount was saved")
	}
	b.Wait()
	s.export()
	if saved != 2 {
		t.Error("the new plan is not saved")
	}
}
