package help

import (
	"regexp"
	"runtime"
	"runtime/debug"
	"strings"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/lang"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/pages"
	"twinloaf/assets/licences"
)

// release is the version that a package was built with, by the linker's -X.
var release string

// version tells what is known of the version: that of the package, and of which state of the
// source it was built. With neither it is empty.
func version(release string, info *debug.BuildInfo) string {
	var known []string
	if release != "" {
		known = append(known, release)
	}
	if info == nil {
		return strings.Join(known, " · ")
	}
	set := map[string]string{}
	for _, s := range info.Settings {
		set[s.Key] = s.Value
	}
	if rev := set["vcs.revision"]; rev != "" {
		built := lang.L("source {{.Revision}}", map[string]any{"Revision": rev[:min(len(rev), 12)]})
		if set["vcs.modified"] == "true" {
			built = lang.L("source {{.Revision}}, changed since", map[string]any{"Revision": rev[:min(len(rev), 12)]})
		}
		known = append(known, built)
	}
	return strings.Join(known, " · ")
}

// about is the page of the program itself.
type about struct {
	pages.Base
	env *pages.Env
}

func newAbout(env *pages.Env) (pages.Page, error) {
	list, err := licences.Read()
	if err != nil {
		return nil, err
	}
	p := &about{env: env}
	info, _ := debug.ReadBuildInfo()
	built := lang.L("Version not known: it was built from a copy of the source without its history")
	if v := version(release, info); v != "" {
		built = lang.L("Version: {{.Version}}", map[string]any{"Version": v})
	}
	p.Base = pages.Base{Name: lang.L("About"), Body: kit.NewPage(kit.PageOptions{Eyebrow: lang.L("About"), Heading: "Twinloaf", Body: kit.Stack(6,
		kit.Columns(columnLeast, kit.Stack(1,
			kit.Body(built),
			kit.Body(lang.L("Built with {{.Go}} for {{.System}}", map[string]any{"Go": runtime.Version(), "System": runtime.GOOS + "/" + runtime.GOARCH})),
		), kit.Stack(1,
			kit.Body(lang.L("Twinloaf itself has been given no licence. The parts below are made by others, each under its own; choose one to read it.")),
			kit.Body(lang.L("The HEIC decoders libheif and libde265 are under the LGPL: the module that carries them, github.com/gen2brain/heic, can be replaced, and Twinloaf built anew.")))),
		p.parts(list))})}
	return p, nil
}

// parts lists what others made, each with its licence to read.
func (p *about) parts(list licences.List) fyne.CanvasObject {
	column := kit.Tiles(look.Space(120), 4)
	for _, part := range list.Parts {
		name := strings.TrimSpace(part.Name + " " + shortVersion(part.Version))
		column.Add(kit.WeightedColumns(look.Space(20), []float32{1.7, 1},
			kit.NewLink(name, func() { p.read(part, list.Of(part)) }), kit.Faint(part.Licence)))
	}
	return column
}

// shortVersion leaves out of a version without a number the hour and the state of the source.
func shortVersion(v string) string {
	if strings.HasPrefix(v, "v0.0.0-") {
		return v[len("v0.0.0-"):][:min(8, len(v)-len("v0.0.0-"))]
	}
	return v
}

// read shows the text of a licence, as it was written.
func (p *about) read(part licences.Part, text string) {
	kit.ShowDialog(p.env.Window, kit.DialogOptions{Title: part.Name, Content: kit.Small(unwrapped(text)), Scroll: true, Width: 640, Height: 560})
}

// unwrapped joins the lines of each paragraph that were broken for want of room. The break
// after a short line was meant, as were one before a point of a list and one after whose
// copyright it is.
func unwrapped(text string) string {
	paragraphs := strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n\n")
	for i, paragraph := range paragraphs {
		lines := strings.Split(strings.Trim(paragraph, "\n"), "\n")
		room := 72
		for _, line := range lines {
			room = max(room, len(line))
		}
		var out strings.Builder
		for n, line := range lines {
			first, _, _ := strings.Cut(strings.TrimSpace(line), " ")
			switch {
			case n == 0:
			case len(lines[n-1]) < room*3/4, listMark.MatchString(first), strings.HasPrefix(lines[n-1], "Copyright"):
				out.WriteString("\n")
			default:
				out.WriteString(" ")
			}
			out.WriteString(strings.Join(strings.Fields(line), " "))
		}
		paragraphs[i] = out.String()
	}
	return strings.Join(paragraphs, "\n\n")
}

// listMark begins a point of a list.
var listMark = regexp.MustCompile(`^([*-]|\(?([0-9]+|[a-z])[.)])$`)
