package main

import (
	"flag"
	"os"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// -h prints every flag that the man page and the README name, and the man page says of each the
// same; neither names one that there is not.
func TestHelpPrintsWhatTheManPagePromises(t *testing.T) {
	f := flag.NewFlagSet("twinloaf", flag.ContinueOnError)
	var printed strings.Builder
	f.SetOutput(&printed)
	new(options).flags(f)
	if err := f.Parse([]string{"-h"}); err != flag.ErrHelp {
		t.Fatal(err)
	}
	read := func(name string) string {
		text, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	man := read("../../assets/package/twinloaf.1")
	_, listed, _ := strings.Cut(man, ".SH OPTIONS")
	named := map[string][]string{}
	for where, find := range map[string]struct{ text, flag string }{
		"synopsis": {man, `\[\\fB\\-(\w+)\\fR`},
		"options":  {listed, `\.TP\n\\fB\\-(\w+)\\fR`},
		"README":   {read("../../README.md"), "`-(\\w+)[ A-Z]*` "},
	} {
		for _, m := range regexp.MustCompile(find.flag).FindAllStringSubmatch(find.text, -1) {
			named[where] = append(named[where], m[1])
			if f.Lookup(m[1]) == nil {
				t.Errorf("the %s names -%s, which there is not", where, m[1])
			}
		}
	}
	plain := strings.Join(strings.Fields(listed), " ")
	f.VisitAll(func(x *flag.Flag) {
		if !strings.Contains(printed.String(), "  -"+x.Name) {
			t.Errorf("-h does not print -%s:\n%s", x.Name, printed.String())
		}
		for _, where := range []string{"synopsis", "options"} {
			if !slices.Contains(named[where], x.Name) {
				t.Errorf("the %s names %q, not -%s", where, named[where], x.Name)
			}
		}
		_, usage := flag.UnquoteUsage(x)
		first, _, _ := strings.Cut(usage, " (") // what goes on the man page says in sentences
		if first = strings.ToUpper(first[:1]) + first[1:]; !strings.Contains(plain, first) {
			t.Errorf("the man page does not say of -%s: %s", x.Name, first)
		}
	})
	for _, name := range []string{"demo", "journal", "check"} {
		if !slices.Contains(named["README"], name) {
			t.Errorf("the README names %q, not -%s", named["README"], name)
		}
	}
}
