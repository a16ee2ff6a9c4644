package photos

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/pages"
	"twinloaf/app/past"
	"twinloaf/journal"
	"twinloaf/journal/measure"
)

// siblings gives the photos of the record that a photo belongs to, in the order in
// which they were taken, and the photo's place among them.
func siblings(j *journal.Journal, p *journal.Photo) ([]*journal.Photo, int, error) {
	all, err := journal.Photos(j, p.Owner.ID)
	if err != nil {
		return nil, 0, err
	}
	return all, slices.IndexFunc(all, func(s *journal.Photo) bool { return s.ID == p.ID }), nil
}

// ownerOf names the record that a photo belongs to, and its page.
func ownerOf(j *journal.Journal, ref journal.Ref) (string, pages.Route, error) {
	switch ref.Kind {
	case journal.KindBake:
		b, err := journal.Get[journal.Bake](j, ref.ID)
		if err != nil {
			return "", pages.Route{}, err
		}
		return past.Name(b.Name), pages.At(pages.Bake, b.ID), nil
	case journal.KindCulture:
		c, err := journal.Get[journal.Culture](j, ref.ID)
		if err != nil {
			return "", pages.Route{}, err
		}
		return c.Name, pages.At(pages.Culture, c.ID), nil
	case journal.KindReading:
		r, err := journal.Get[journal.Reading](j, ref.ID)
		if err != nil {
			return "", pages.Route{}, err
		}
		return ownerOf(j, journal.Ref{Kind: journal.KindCulture, ID: r.Culture})
	case journal.KindFeeding:
		f, err := journal.Get[journal.Feeding](j, ref.ID)
		if err != nil {
			return "", pages.Route{}, err
		}
		return ownerOf(j, journal.Ref{Kind: journal.KindCulture, ID: f.Culture})
	}
	return "", pages.Route{}, journal.ErrNotFound
}

// about says what is known of the file.
func about(p *journal.Photo, u measure.Units) string {
	words := []string{p.Name, lang.L("{{.W}} × {{.H}} pixels", map[string]any{"W": p.Width, "H": p.Height}),
		strings.ToUpper(p.Format), lang.L("{{.MB}} MB", map[string]any{"MB": u.FormatNumber(float64(p.Bytes)/1e6, 1)})}
	return strings.Join(slices.DeleteFunc(words, func(s string) bool { return s == "" }), " · ")
}

// caption is what is written below a photo where there is little room.
func caption(p *journal.Photo, owner string, u measure.Units, now time.Time) string {
	words := []string{owner, u.Moment(p.When(), now)}
	if p.Role != journal.RoleOther {
		words = append(words, pages.PhotoRoleWord(p.Role))
	}
	if p.Caption != "" {
		words = append(words, p.Caption)
	}
	return strings.Join(words, " · ")
}

// candidate is a photo that can be seen beside another.
type candidate struct {
	id   journal.ID
	item kit.PhotoItem
}

// candidates gives the other photos of the same record, and then the pictures that
// stand for other bakes, newest first.
func candidates(j *journal.Journal, p *journal.Photo, u measure.Units, now time.Time) ([]candidate, error) {
	own, _, err := siblings(j, p)
	if err != nil {
		return nil, err
	}
	var out []candidate
	for _, s := range own {
		if s.ID != p.ID {
			title := cmp.Or(s.Caption, pages.PhotoRoleWord(s.Role))
			out = append(out, candidate{s.ID, kit.PhotoItem{Key: s.Hash, Title: title, Sub: u.Moment(s.When(), now)}})
		}
	}
	summaries, err := j.BakeSummaries()
	if err != nil {
		return nil, err
	}
	for _, c := range summaries {
		if c.CoverPhoto == "" || c.Binned || c.ID == p.Owner.ID {
			continue
		}
		out = append(out, candidate{c.CoverPhoto, kit.PhotoItem{Key: c.Cover, Title: past.Name(c.Name), Sub: u.Day(c.At, now)}})
	}
	return out, nil
}
