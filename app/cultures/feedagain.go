package cultures

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/lives"
	"twinloaf/app/room"
	"twinloaf/journal"
)

// binFeeding throws a feeding away, to be brought back from the bin.
func binFeeding(env *room.Env, id journal.ID) {
	if env.Do(lang.L("deleting a feeding"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Feeding](tx, id) }) {
		env.Say(lang.L("The feeding was deleted."), true)
	}
}

// feedAgain feeds as the last time, at once.
func feedAgain(env *room.Env, l *lives.Life) {
	f := likeLast(l, env.Now())
	if f.total() <= 0 {
		feed(env, l)
		return
	}
	s := &feedSheet{env: env, life: l, form: f}
	s.before, s.known = l.Jar(env.Now())
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
