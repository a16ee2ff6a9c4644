package cultures

import (
	"context"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/journal"
	"twinloaf/journal/ferment"
)

// changed brings what follows from the form up to it.
func (s *readDialog) changed() {
	if s.sheet == nil {
		return
	}
	u := s.env.Units()
	s.meaning.Say(s.form.riseWords(u))
	s.acidity.Say(s.form.acidityWords(u))
	for i, smell := range ferment.Smells() {
		n := s.form.rec.Smells[string(smell)]
		s.smells[i].SetWords(smellPill(smell, smellKeys[i], n))
		s.smells[i].SetChosen(n > 0)
	}
	s.signs[ferment.SignMould].SetChosen(s.form.rec.Mould)
	s.signs[ferment.SignPinkOrange].SetChosen(s.form.rec.Tint)
	s.signs[ferment.SignGreyLiquid].SetChosen(s.form.rec.Liquid)
	for t, pill := range s.trends {
		pill.SetChosen(s.form.rec.Trend == string(t))
	}
	s.cautions.Say(strings.Join(s.form.cautions(u), " "))
	switch {
	case s.form.picture != nil:
		s.photo.SetText(s.form.picture.Name)
	case s.form.rec.Lines != nil:
		s.photo.SetText(lang.L("measured on its photo"))
	default:
		s.photo.SetText("")
	}
	s.sheet.Refresh()
}

// keep writes the reading down, and the photo with it.
func (s *readDialog) keep() {
	if s.sheet == nil || !s.sheet.Ready() {
		return
	}
	if s.form.empty() {
		s.meaning.Say(lang.L("Nothing has been noted yet."))
		s.sheet.Refresh()
		return
	}
	if !s.env.Do(lang.L("a reading of {{.Name}}", map[string]any{"Name": nameOf(s.life.Culture)}), s.form.write) {
		return
	}
	s.sheet.Close()
	if s.form.picture != nil {
		s.addPicture()
	}
	if s.form.danger() {
		kit.Message(s.env.Window, lang.L("Throw it away"), s.env.Units().Say(ferment.ThrowAway()))
		return
	}
	s.env.Say(lang.L("The reading is kept."), true)
}

// addPicture stores the photo with the reading that was just kept.
func (s *readDialog) addPicture() {
	picture, rec := *s.form.picture, s.form.rec
	pages.Fetch(s.env, func(ctx context.Context) ([]error, error) {
		label := lang.L("a photo of {{.Name}}", map[string]any{"Name": nameOf(s.life.Culture)})
		added, refused, err := s.env.Journal.AddPictures(ctx, label, journal.RefOf(&rec), journal.RoleJar, []journal.Picture{picture}, nil)
		if err != nil || len(added) == 0 || rec.Lines == nil {
			return refused, err
		}
		return refused, s.env.Journal.Do(label, func(tx *journal.Tx) error {
			return journal.Change(tx, rec.ID, func(r *journal.Reading) {
				if r.Lines != nil {
					r.Lines.Photo = added[0]
				}
			})
		})
	}, func(refused []error, err error) {
		for _, r := range refused {
			err = r
		}
		s.env.Fail(err)
	})
}

func (s *readDialog) bin() {
	s.sheet.Close()
	binReading(s.env, s.form.rec.ID)
}

// binReading throws a reading away, to be brought back from the bin.
func binReading(env *pages.Env, id journal.ID) {
	if env.Do(lang.L("deleting a reading"), func(tx *journal.Tx) error { return journal.MoveToBin[journal.Reading](tx, id) }) {
		env.Say(lang.L("The reading was deleted."), true)
	}
}
