//go:build unix

package journal

import (
	"fmt"
	"os"
	"path/filepath"
	"testing"

	"twinloaf/journal/faultdisk"
)

// Every page of the records that a change of any kind may read fails to be read in turn.
// See [TestEveryFailureOfTheDiskIsSurvived].
func TestEveryPageThatCannotBeReadIsSurvived(t *testing.T) {
	begun := t.TempDir()
	l := aLittleJournal(t, begun)
	info, err := os.Stat(filepath.Join(begun, FileName))
	if err != nil {
		t.Fatal(err)
	}
	tried, failed := 0, map[string]int{}
	for _, c := range everyChange {
		for page := range int(info.Size()) / os.Getpagesize() {
			var d faultdisk.Disk
			try := newTry(t, fmt.Sprintf("%s, page %d cannot be read", c.name, page), begun, l, c, &d)
			heal := faultdisk.Unreadable(try.j.store.Bolt(), page)
			tried++
			failed[c.name] += try.run(t, func(err error) int {
				heal()
				if err != nil {
					return 1
				}
				return 0
			})
		}
		if failed[c.name] == 0 {
			t.Errorf("%s: no page that cannot be read kept it from being made", c.name)
		}
	}
	t.Logf("%d pages of %d kinds of change, with these failures: %v", tried, len(everyChange), failed)
}
