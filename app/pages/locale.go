package pages

import "fyne.io/fyne/v2/lang"

// locale is the one that the computer is set to.
func locale() string { return string(lang.SystemLocale()) }
