package pages

// TextSizes are the steps of the size of everything, in percent of the usual.
func TextSizes() []int { return []int{80, 90, 100, 110, 125, 150, 175, 200} }
