package race

import (
	"slices"
	"testing"
)

// Without the detector every case is taken; with it as many as are asked for, the first
// among them, and all where there are no more.
func TestFewUnderTheDetectorAlone(t *testing.T) {
	all := []int{0, 1, 2, 3, 4, 5, 6, 7, 8, 9}
	for few, want := range map[int][]int{2: {0, 5}, 3: {0, 3, 6}, 10: all, 12: all} {
		if !Enabled {
			want = all
		}
		if got := Few(all, few); !slices.Equal(got, want) {
			t.Errorf("of %d there are %v, want %v", few, got, want)
		}
	}
	if got := Cases(9, 2); got != 9 && !Enabled || got != 2 && Enabled {
		t.Errorf("%d cases", got)
	}
}
