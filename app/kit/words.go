package kit

import (
	"fyne.io/fyne/v2/lang"

	"twinloaf/assets/words"
)

// The toolkit's own functions that look words up are variables of its package, one for the
// whole program: ours stand in their place, so that its menus speak our catalogue, too.
func init() { lang.L, lang.N = words.L, words.N }
