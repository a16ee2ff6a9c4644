package carry_test

import (
	"reflect"
	"strings"
	"testing"

	"twinloaf/journal"
	"twinloaf/journal/archive"
	"twinloaf/journal/blind"
)

// TestTheDescriptionNamesEveryMember holds the description that travels in each
// archive against the records: each kind has its chapter, and each member that is
// written is named in it, or in the chapter of what it is made of.
func TestTheDescriptionNamesEveryMember(t *testing.T) {
	chapters := map[string]string{}
	for _, c := range strings.Split(archive.Format, "\n### ")[1:] {
		kind, text, _ := strings.Cut(c, "\n")
		chapters[kind] = text
	}
	head, _, _ := strings.Cut(archive.Format, "\n### ")
	for kind, of := range map[journal.Kind][]any{
		journal.KindCulture: {journal.Culture{}}, journal.KindFeeding: {journal.Feeding{}}, journal.KindReading: {journal.Reading{}},
		journal.KindMove: {journal.Move{}}, journal.KindTempLog: {journal.TempLog{}}, journal.KindFlour: {journal.Flour{}},
		journal.KindFormula: {journal.Formula{}}, journal.KindBake: {journal.Bake{}}, journal.KindTrial: {journal.Trial{}},
		journal.KindTasting: {journal.Tasting{}, blind.Setting{}, blind.Progress{}, blind.Opened{}},
		journal.KindSeries:  {journal.Series{}},
		journal.KindPhoto:   {journal.Photo{}}, journal.KindView: {journal.View{}}, journal.KindSettings: {journal.Settings{}},
	} {
		text, ok := chapters[string(kind)]
		if !ok {
			t.Errorf("there is no chapter on %s", kind)
		}
		// These are described once, with a bake and a culture.
		text += head + chapters["bake"] + chapters["culture"]
		if kind == journal.KindTasting {
			text += chapters["trial"] // "as in a trial"
		}
		for _, v := range of {
			members(reflect.TypeOf(v), map[reflect.Type]bool{}, func(name string, in reflect.Type) {
				if !strings.Contains(text, "`"+name+"`") {
					t.Errorf("the chapter on %s does not name %q of %v", kind, name, in)
				}
			})
		}
	}
	if len(chapters) != len(journal.Kinds()) {
		t.Errorf("%d chapters on %d kinds", len(chapters), len(journal.Kinds()))
	}
	members(reflect.TypeFor[archive.Manifest](), map[reflect.Type]bool{}, func(name string, in reflect.Type) {
		if !strings.Contains(head, "`"+name+"`") {
			t.Errorf("the chapter on the manifest does not name %q of %v", name, in)
		}
	})
}

// members calls fn with the name in JSON of every member of a type, at any depth.
func members(typ reflect.Type, seen map[reflect.Type]bool, fn func(name string, in reflect.Type)) {
	for typ.Kind() == reflect.Pointer || typ.Kind() == reflect.Slice || typ.Kind() == reflect.Array || typ.Kind() == reflect.Map {
		typ = typ.Elem()
	}
	if typ.Kind() != reflect.Struct || seen[typ] || typ.PkgPath() == "time" {
		return
	}
	seen[typ] = true
	for f := range typ.Fields() {
		name, _, _ := strings.Cut(f.Tag.Get("json"), ",")
		if name != "" {
			fn(name, typ)
		}
		members(f.Type, seen, fn)
	}
}
