package app

import (
	"bufio"
	"cmp"
	"fmt"
	"io"
	"slices"
	"strings"

	"fyne.io/fyne/v2/lang"

	"twinloaf/journal"
	"twinloaf/journal/measure"
	"twinloaf/journal/say"
)

// WriteUnsaved writes what was typed and is not on the disk as a text that anyone can
// read: each record by its name and day, and below it what was changed of it.
func WriteUnsaved(out io.Writer, unsaved []journal.Unsaved) error {
	b := bufio.NewWriter(out)
	fmt.Fprintln(b, lang.L("Typed into Twinloaf and not saved in the journal"))
	for _, u := range unsaved {
		fmt.Fprintf(b, "\n%s (%s)\n", unsavedName(u), strings.Join(u.Labels, ", "))
		for _, v := range u.Values {
			fmt.Fprintf(b, "\n%s:\n%s\n", v.Member, v.Text)
		}
	}
	return b.Flush()
}

// unsavedName names a record by its name and day.
func unsavedName(u journal.Unsaved) string {
	name := cmp.Or(u.Name, lang.L("without a name"))
	if u.At.IsZero() {
		return name
	}
	return name + ", " + measure.Units{}.Say(say.Of("{{.Day}}", say.With{"Day": say.Moment{At: u.At, As: say.Date}}))
}

// unsavedNames names the first few records, and says how many more there are.
func unsavedNames(unsaved []journal.Unsaved) string {
	const few = 3
	var names []say.Line
	for _, u := range unsaved[:min(few, len(unsaved))] {
		names = append(names, say.Of("{{.Name}}", say.With{"Name": unsavedName(u)}))
	}
	if more := len(unsaved) - few; more > 0 {
		names = append(names, say.N("one more", "{{.N}} more", more))
	}
	return measure.Units{}.Say(say.And(slices.Clone(names)...))
}
