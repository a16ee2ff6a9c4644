package maintest

import (
	"testing"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/look"
)

// App gives a test an app without a screen, in our theme as the program's own is: the
// toolkit's theme for tests has none of our colours. One as fresh stands in its place when
// the test has ended.
func App(t testing.TB) fyne.App {
	t.Helper()
	t.Cleanup(func() { fresh() })
	return fresh()
}

func fresh() fyne.App {
	a := test.NewApp()
	a.Settings().SetTheme(look.New(look.FollowSystem))
	return a
}
