package kit_test

import (
	"testing"

	"fyne.io/fyne/v2"

	"twinloaf/app/kit"
	"twinloaf/app/maintest"
)

// Where the room runs out the last column that may go does so, together with its unit.
func TestTableLeavesOutWhatItCanSpare(t *testing.T) {
	maintest.App(t)
	table := kit.Table([]kit.TableColumn{{Head: "name"}, {Head: "score", Right: true}, {Head: "hydration", Right: true, Spare: true}, {Unit: true, Spare: true},
		{Head: "bake loss", Right: true, Spare: true}, {Unit: true, Spare: true}},
		[][]string{{"Ferry loaf", "6", "76.0", "%", "12.4", "%"}}, nil).(*fyne.Container)
	for _, c := range []struct {
		width float32
		want  string
	}{{600, "Ferry loaf 6 76.0 % 12.4 %"}, {370, "Ferry loaf 6 76.0 %"}, {240, "Ferry loaf 6"}} {
		table.Resize(fyne.NewSize(c.width, table.MinSize().Height))
		got := ""
		for _, o := range table.Objects[6:] {
			if s, ok := o.(interface{ String() string }); ok && o.Visible() {
				got += " " + s.String()
			}
		}
		if got != " "+c.want {
			t.Errorf("%v wide it says %q, want %q", c.width, got, " "+c.want)
		}
	}
	table.Resize(fyne.NewSize(1600, table.MinSize().Height)) // a name and its figures are read together
	if at := table.Objects[7].Position().X; at > 500 {
		t.Errorf("in 1600 the score stands at %v", at)
	}
	if least := table.MinSize().Width; least > 240 {
		t.Errorf("it asks for %v, though most of it may go", least)
	}
}
