package pages

import (
	"context"
	"errors"
	"fmt"
	"io"
	"path/filepath"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/carry"
	"twinloaf/journal/measure"
)

// ArchiveEnding is how the name of an archive ends.
const ArchiveEnding = ".zip"

// TakeAway shows what goes when the records chosen are taken away, or with none of
// them the whole journal, asks where to, and writes the archive there. name is how the
// baker calls what goes, and suggests the file's name.
func (e *Env) TakeAway(name string, chosen ...journal.Ref) {
	var p *carry.Packing
	var err error
	e.Run(func(ctx context.Context) { p, err = carry.Pack(ctx, e.Journal, chosen...) }, func() {
		if e.Failed(err) {
			return
		}
		e.showPacking(name, p)
	})
}

func (e *Env) showPacking(name string, p *carry.Packing) {
	u := e.Units()
	column := kit.Stack(3, kit.Body(packedWords(p, u)))
	title := lang.L("Take “{{.Name}}” away", map[string]any{"Name": name})
	if p.Scope == archive.Whole {
		title = lang.L("Take the journal away")
		column.Add(kit.Small(lang.L("Everything goes as it is: photos keep the place and the camera that are written in them. Give it only to people who may know that.")))
	} else {
		column.Add(kit.Small(lang.L("The place, the camera and its owner are taken out of the photos that go. Your own stay as they are.")))
	}
	for i, l := range p.LeftOut {
		if i == 8 {
			more := len(p.LeftOut) - i
			column.Add(kit.Small(lang.N("{{.N}} others stay behind as well.", more, map[string]any{"N": more})))
			break
		}
		column.Add(kit.Small(LeftOutWords(l)))
	}
	var s *kit.Dialog
	next := func() {
		s.Close()
		e.chooseArchive(name, p)
	}
	s = kit.ShowDialog(e.Window, kit.DialogOptions{
		Title: title, Content: column, OnEnter: next,
		Buttons: []fyne.CanvasObject{
			kit.NewButton(lang.L("Cancel"), func() { s.Close() }).WithKey(lang.L("Esc")),
			kit.PrimaryButton(lang.L("Choose where…"), next).WithKey(lang.L("Enter")),
		},
	})
}

func (e *Env) chooseArchive(name string, p *carry.Packing) {
	prefs := e.App.Preferences()
	o := kit.SaveOptions{
		Title: lang.L("Where to?"), Name: archiveName(name, e.Now().Format("2006-01-02")), Start: prefs.String(saveFolder),
		OnChosen: func(path string) { e.writeArchive(path, p) },
		OnLeft:   func(dir string) { prefs.SetString(saveFolder, dir) },
	}
	if e.AskWhere != nil {
		e.AskWhere(o)
		return
	}
	kit.SaveAs(e.Main, e.Window, o)
}

// archiveName suggests a file's name, without what no disk takes.
func archiveName(name, day string) string {
	clean := strings.Map(func(r rune) rune {
		if r < ' ' || strings.ContainsRune(`/\:*?"<>|`, r) {
			return '-'
		}
		return r
	}, strings.TrimSpace(name))
	return strings.TrimLeft(clean, ".") + " " + day + ".twinloaf" + ArchiveEnding // as the MIME type of the package has it
}

func (e *Env) writeArchive(path string, p *carry.Packing) {
	file := filepath.Base(path)
	FetchOver(e, lang.L("Writing {{.File}}", map[string]any{"File": file}), func(ctx context.Context, bar *kit.Progress) (m *archive.Manifest, err error) {
		told := e.Paced(func(n int64) { bar.Set(Megabytes(n), Megabytes(p.Bytes), lang.L("MB")) })
		told(0)
		err = writeWhole(ctx, path, func(w io.Writer) (err error) {
			m, err = p.Write(ctx, w, told)
			return err
		})
		return m, err
	}, func(m *archive.Manifest, err error) {
		switch {
		case errors.Is(err, context.Canceled):
			e.Say(lang.L("Stopped. No archive was written."), false)
		case err != nil:
			e.Fail(fmt.Errorf("writing %s: %w", file, err))
		default:
			said := lang.L("Saved as {{.Path}}.", map[string]any{"Path": path})
			if more := len(m.LeftOut) - len(p.LeftOut); more > 0 {
				said += " " + lang.N("{{.N}} photos were left out: their files are missing or damaged, or place and camera could not be taken out.", more, map[string]any{"N": more})
			}
			e.Say(said, false)
		}
	})
}

// packedWords tell what goes.
func packedWords(p *carry.Packing, u measure.Units) string {
	var words []string
	for _, kind := range journal.Kinds() {
		if n := p.Records[kind]; n > 0 && kind != journal.KindPhoto {
			words = append(words, Counted(kind, n))
		}
	}
	if n := p.Records[journal.KindPhoto]; n > 0 {
		words = append(words, lang.L("{{.Photos}} ({{.Size}})", map[string]any{"Photos": Counted(journal.KindPhoto, n), "Size": SizeWords(p.Bytes, u)}))
	}
	if len(words) == 0 {
		return lang.L("There is nothing to take away yet.")
	}
	for i, w := range words { // a count stays with what it counts
		words[i] = strings.ReplaceAll(w, " ", "\u00a0")
	}
	return strings.Join(words, " · ")
}
