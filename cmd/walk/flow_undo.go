package main

import (
	"fmt"
	"strings"

	"twinloaf/app/outline"
)

// undoEverything presses undo until there is nothing to undo, and redo until there is
// nothing to redo. Each press says what it did or what it stepped past, and neither is
// stuck.
func (p *program) undoEverything() error {
	passed := false
	for _, way := range []struct{ key, end string }{{"ctrl+z", "There is nothing to undo"}, {"ctrl+y", "Nothing to redo"}} {
		for press := 1; ; press++ {
			if err := p.key(way.key); err != nil {
				return err
			}
			things, err := p.things()
			if err != nil {
				return err
			}
			said := strings.Join(outline.Texts(things), "")
			if strings.Contains(said, way.end) {
				break
			}
			past := strings.Contains(said, "can no longer be undone")
			if passed = passed || past; !past && !strings.Contains(said, "Undone: ") && !strings.Contains(said, "Redone: ") {
				return fmt.Errorf("press %d of %s says nothing; shown: %q", press, way.key, outline.Texts(things))
			}
			if press > 200 {
				return fmt.Errorf("%s comes to no end", way.key)
			}
		}
		if _, err := p.shot("after " + way.key); err != nil {
			return err
		}
	}
	if !passed {
		return fmt.Errorf("nothing was stepped past")
	}
	return nil
}
