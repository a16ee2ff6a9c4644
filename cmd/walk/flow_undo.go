package main

import (
	"fmt"
	"strings"
)

// undoEverything presses undo until there is nothing to undo, and redo until there is
// nothing to redo. Each press says what it did or what it stepped past, and neither is
// stuck.
func (p *program) undoEverything() {
	passed := false
	for _, way := range []struct{ key, end string }{{"ctrl+z", "There is nothing to undo"}, {"ctrl+y", "Nothing to redo"}} {
		for press := 1; ; press++ {
			p.key(way.key)
			texts := p.texts()
			said := strings.Join(texts, "")
			if strings.Contains(said, way.end) {
				break
			}
			past := strings.Contains(said, "can no longer be undone")
			if passed = passed || past; !past && !strings.Contains(said, "Undone: ") && !strings.Contains(said, "Redone: ") {
				panic(fmt.Errorf("press %d of %s says nothing; shown: %q", press, way.key, texts))
			}
			failIf(press > 200, "%s comes to no end", way.key)
		}
		p.shot("after " + way.key)
	}
	failIf(!passed, "nothing was stepped past")
}
