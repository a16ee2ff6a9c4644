package safekeeping

import (
	"context"
	"path/filepath"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/backup"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// rows lists the backups, the latest first.
func (b *backups) rows() fyne.CanvasObject {
	column := kit.Stack(2.5)
	if len(b.list) > 0 {
		column.Add(kit.Section(lang.L("What you can go back to")))
	}
	// What the last try failed of is told above, once.
	if b.listed != nil {
		u, told := b.env.Units(), b.status.Problem
		if why := u.ErrorText(b.listed); told == nil || why != u.ErrorText(told) {
			column.Add(kit.NewText(kit.Span{Text: why, Color: look.ColorEmber}))
		}
	}
	for _, one := range b.list {
		column.Add(b.row(one))
	}
	return column
}

// row is one backup with what can be done with it.
func (b *backups) row(one backup.Backup) fyne.CanvasObject {
	u := b.env.Units()
	when := kit.Body(u.Moment(one.Made, b.env.Now()))
	if one.Damage != nil {
		return kit.WeightedColumns(look.Space(20), []float32{1.2, 2.4, 0.9}, when,
			kit.NewText(kit.Span{Text: u.ErrorText(one.Damage), Color: look.ColorEmber}),
			kit.NewLink(lang.L("Delete"), func() { b.remove(one) }))
	}
	// The figures stand in one column, what became of them in the next.
	return kit.WeightedColumns(look.Space(20), []float32{1.2, 1.2, 1.2, 0.9}, when,
		kit.Body(content(u, one)),
		kit.Faint(b.state(one)),
		kit.Row(4, kit.NewLink(lang.L("Restore"), func() { b.restore(one) }), kit.NewLink(lang.L("Delete"), func() { b.remove(one) })))
}

// state says of a backup whether it was checked, and why it was made.
func (b *backups) state(one backup.Backup) string {
	words := lang.L("checked")
	switch {
	case one.Reason == backup.Aside:
		return lang.L("set aside before going back")
	case one.Checked.IsZero():
		words = lang.L("not checked")
	case one.Missing > 0:
		words = lang.N("{{.N}} pictures missing", one.Missing, map[string]any{"N": one.Missing})
	}
	why := ""
	switch {
	case !b.env.Journal.Backups().Mine(one):
		why = lang.L("of another journal")
	case one.Reason == backup.Migration:
		why = lang.L("before an update")
	case one.Reason == backup.Arrival:
		why = lang.L("before an archive was brought in")
	}
	if why == "" {
		return words
	}
	return lang.L("{{.Why}}, {{.State}}", map[string]any{"Why": why, "State": words})
}

// Describe says of a backup when it was made and how much is in it.
func Describe(u measure.Units, b backup.Backup, now time.Time) string {
	return lang.L("{{.When}} · {{.What}}", map[string]any{"When": u.Moment(b.Made, now), "What": content(u, b)})
}

// content says how much is in a backup.
func content(u measure.Units, b backup.Backup) string {
	if b.Unlisted && b.Bakes == 0 { // nobody could read it
		return size(u, b.Bytes)
	}
	return lang.L("{{.Bakes}} · {{.Size}}", map[string]any{"Bakes": bakes(b.Bakes), "Size": size(u, b.Bytes)})
}

// bakes counts bakes.
func bakes(n int) string { return lang.N("{{.N}} bakes", n, map[string]any{"N": n}) }

// size writes a length in bytes; one below a tenth of a megabyte is not told as none.
func size(u measure.Units, bytes int64) string {
	if bytes > 0 && bytes < 1e5 {
		return lang.L("{{.N}} kB", map[string]any{"N": u.FormatNumber(float64(bytes)/1e3, 0)})
	}
	return lang.L("{{.N}} MB", map[string]any{"N": u.FormatNumber(float64(bytes)/1e6, 1)})
}

// restore asks, and then goes back to a backup.
func (b *backups) restore(one backup.Backup) {
	if b.env.Journal.Throwaway() {
		b.env.Say(lang.L("The demo cannot go back to a backup."), false)
		return
	}
	when := b.env.Units().Moment(one.Made, b.env.Now())
	kit.Confirm(b.env.Window, lang.L("Go back to {{.When}}?", map[string]any{"When": when}),
		lang.L("The journal will be as it was then. As it is now, it is first set aside as a backup of its own in this list; nothing is lost."),
		lang.L("Restore"), func() {
			b.begin(lang.L("Checking the backup …"), func(ctx context.Context) error { _, err := b.env.Journal.PrepareRestore(ctx, one); return err },
				func() { b.goBack(when) })
		})
}

// goBack puts the backup back that was prepared.
func (b *backups) goBack(when string) {
	old := b.env.Journal
	var aside backup.Backup
	b.env.Reopen(func(ctx context.Context) (err error) {
		aside, err = old.Restore(ctx)
		return err
	}, func(env *pages.Env, err error) {
		env.Go(pages.Route{Name: pages.Safekeeping})
		if env.Failed(err) {
			return
		}
		tellRestored(env, when, aside)
	})
}

// tellRestored says where the journal as it was before is now, and names what could not
// be brought back.
func tellRestored(env *pages.Env, when string, aside backup.Backup) {
	pages.Fetch(env, env.Journal.MissingPhotos, func(missing []*journal.Photo, _ error) {
		lines := kit.Stack(2,
			kit.Body(lang.L("The journal is as it was on {{.When}}.", map[string]any{"When": when})),
			kit.Body(lang.L("As it was before, it is set aside in {{.Folder}}.", map[string]any{"Folder": filepath.Dir(aside.File())})))
		if len(missing) > 0 {
			lines.Add(kit.Strong(lang.N("{{.N}} pictures could not be restored:", len(missing), map[string]any{"N": len(missing)})))
		}
		for _, p := range missing {
			lines.Add(kit.Body(photoName(env, p)))
		}
		var sheet *kit.Dialog
		ok := kit.PrimaryButton(lang.L("OK"), func() { sheet.Close() }).WithKey(lang.L("Enter"))
		sheet = kit.ShowDialog(env.Window, kit.DialogOptions{
			Title: lang.L("Restored"), Content: lines, Scroll: len(missing) > 5, Width: 600,
			Buttons: []fyne.CanvasObject{ok}, OnEnter: func() { sheet.Close() },
		})
	})
}

// photoName names a photo by its file, its day and the bake that it is of.
func photoName(env *pages.Env, p *journal.Photo) string {
	day := env.Units().Say(say.Of("{{.Date}}", say.With{"Date": say.Moment{At: p.When(), As: say.Date}}))
	if p.Owner.Kind == journal.KindBake {
		if bake, err := journal.Get[journal.Bake](env.Journal, p.Owner.ID); err == nil && bake.Name != "" {
			return lang.L("{{.File}}, {{.Day}}, {{.Bake}}", map[string]any{"File": p.Name, "Day": day, "Bake": bake.Name})
		}
	}
	return lang.L("{{.File}}, {{.Day}}", map[string]any{"File": p.Name, "Day": day})
}

// remove asks, and then deletes a backup.
func (b *backups) remove(one backup.Backup) {
	kit.ConfirmLoss(b.env.Window, lang.L("Delete this backup?"),
		lang.L("The backup of {{.When}} is deleted for good. The journal itself stays as it is.",
			map[string]any{"When": b.env.Units().Moment(one.Made, b.env.Now())}),
		lang.L("Delete"), func() {
			b.begin(lang.L("Deleting the backup …"), func(ctx context.Context) error { return b.env.Journal.Backups().Delete(ctx, one) }, func() {})
		})
}

// sweeping offers to delete the originals that nothing needs. That is left to the
// baker: a picture that nothing shows may still be the only one there is of a loaf.
func (b *backups) sweeping() fyne.CanvasObject {
	n, u := b.spare.Pictures, b.env.Units()
	return kit.Stack(1, kit.Section(lang.L("Pictures that nothing shows")),
		kit.Body(lang.N("{{.N}} original pictures ({{.Size}}) belong to no record, no step that can be undone and no backup.", n,
			map[string]any{"N": n, "Size": size(u, b.spare.Bytes)})),
		kit.Row(2, kit.NewButton(lang.L("Delete them"), func() {
			kit.ConfirmLoss(b.env.Window, lang.L("Delete these pictures?"),
				lang.L("Nothing in the journal or its backups shows them. They are deleted for good."), lang.L("Delete"), b.sweep)
		})))
}

func (b *backups) sweep() {
	var gone journal.Unneeded
	b.begin(lang.L("Deleting pictures …"), func(ctx context.Context) (err error) { gone, err = b.env.Journal.SweepOriginals(ctx); return err }, func() {
		b.env.Say(lang.N("{{.N}} pictures deleted, {{.Size}} freed.", gone.Pictures,
			map[string]any{"N": gone.Pictures, "Size": size(b.env.Units(), gone.Bytes)}), false)
	})
}
