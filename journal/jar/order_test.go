package jar

import (
	"reflect"
	"testing"
	"time"
)

func TestOrdered(t *testing.T) {
	at := func(minutes int) time.Time { return time.Date(2026, 3, 4, 9, minutes, 0, 0, time.UTC) }
	for _, tt := range []struct {
		name  string
		shots []Shot
		want  Order
	}{
		{"none", nil, Order{}},
		{"one", []Shot{{Name: "a", Taken: at(3)}}, Order{Which: []int{0}, At: []time.Time{at(3)}}},
		{
			"out of order",
			[]Shot{{Name: "b", Taken: at(12)}, {Name: "a", Taken: at(7)}, {Name: "c", Taken: at(17)}},
			Order{Which: []int{1, 0, 2}, At: []time.Time{at(7), at(12), at(17)}, Every: 5 * time.Minute},
		},
		{
			"a double, a gap, and a time that is only the file's",
			[]Shot{{Name: "a", Taken: at(0)}, {Name: "b", Taken: at(5)}, {Name: "b copy", Taken: at(5)}, {Name: "c", Filed: at(10)}, {Name: "d", Taken: at(40)}, {Name: "e", Taken: at(45)}},
			Order{Which: []int{0, 1, 3, 4, 5}, At: []time.Time{at(0), at(5), at(10), at(40), at(45)}, ByFile: []int{2}, Doubles: []int{2}, Gaps: []int{3}, Every: 5 * time.Minute},
		},
	} {
		if got := Ordered(tt.shots); !reflect.DeepEqual(got, tt.want) {
			t.Errorf("%s: %+v", tt.name, got)
		}
	}
}
