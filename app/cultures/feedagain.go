package cultures

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
	"twinloaf/journal/histories"
)

// Feed opens the dialog of a feeding over whatever page is shown.
func Feed(env *pages.Env, id journal.ID) {
	if l := feedable(env, id); l != nil {
		feed(env, l)
	}
}

// FeedAgain feeds a culture as the last time, at once; one that was never fed it asks how.
func FeedAgain(env *pages.Env, id journal.ID) {
	if l := feedable(env, id); l != nil {
		feedAgain(env, l)
	}
}

// feedable is a culture that may be fed; nil, and said why, for one that may not.
func feedable(env *pages.Env, id journal.ID) *histories.CultureHistory {
	l, err := histories.Of(env.Journal, id)
	if env.Failed(err) {
		return nil
	}
	if refused(env, l) {
		return nil
	}
	return l
}

// refused says that a culture with mould or a tint, or one that has ended, is not fed on.
func refused(env *pages.Env, l *histories.CultureHistory) bool {
	if !l.Culture.Ended.IsZero() {
		env.Say(lang.L("{{.Name}} is retired; its record stays.", map[string]any{"Name": nameOf(l.Culture)}), false)
		return true
	}
	if _, condemned := l.Condemned(env.Now()); !condemned {
		return false
	}
	kit.Message(env.Window, lang.L("Throw it away"), env.Units().Say(ferment.ThrowAway()))
	return true
}

// binFeeding throws a feeding away, to be brought back from the bin.
func binFeeding(env *pages.Env, id journal.ID) {
	if env.Do(lang.L("deleting a feeding"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Feeding](tx, id) }) {
		env.Say(lang.L("The feeding was deleted."), true)
	}
}

// feedAgain feeds as the last time, at once.
func feedAgain(env *pages.Env, l *histories.CultureHistory) {
	f := likeLast(l, env.Now())
	if f.total() <= 0 {
		feed(env, l)
		return
	}
	label := lang.L("feeding {{.Name}}", map[string]any{"Name": nameOf(l.Culture)})
	ok := env.Do(label, func(tx *journal.Tx) error {
		rec := &journal.Feeding{Culture: l.Culture.ID}
		f.write(rec)
		return journal.Put(tx, rec)
	})
	if ok {
		env.Say(lang.L("Fed {{.Name}}: {{.Amounts}}.", map[string]any{"Name": nameOf(l.Culture), "Amounts": f.amountsWords(env.Units())}), true)
	}
}
