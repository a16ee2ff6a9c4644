package gather

import "time"

// addCalendar adds the names of months and weekdays, whole and cut short as the
// window writes them, and the halves of a day.
func (w Words) addCalendar() {
	for m := time.January; m <= time.December; m++ {
		w.addOne(m.String())
		w.addOne(m.String()[:3])
	}
	w.addOne("am")
	w.addOne("pm")
	for d := time.Sunday; d <= time.Saturday; d++ {
		w.addOne(d.String())
		w.addOne(d.String()[:3])
		w.addOne(d.String()[:2])
	}
}

func (w Words) addOne(text string) {
	if _, known := w[text]; !known {
		w[text] = Forms{}
	}
}
