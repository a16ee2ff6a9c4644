package blind

// side is one of the two loaves before it is drawn which of them it is.
type side uint8

// order is one way to serve a round: the sides in serving order, a duo-trio's
// reference first.
type order []side

// servingOrders lists the orders of a method. Over the whole list each loaf
// stands equally often at each place, and next to the other equally often on
// either side; in a 3-AFC, where one loaf stands alone, that loaf at each place.
func servingOrders(m Method) []order {
	const a, b side = 0, 1
	switch m {
	case Triangle: // ISO 4120: the six possible sequences
		return []order{{a, b, b}, {b, a, b}, {b, b, a}, {b, a, a}, {a, b, a}, {a, a, b}}
	case ThreeAFC: // the loaf with more of it, once at each place
		return []order{{b, a, a}, {a, b, a}, {a, a, b}}
	case TwoOutOfFive:
		return twoOfFive()
	case DuoTrio: // ISO 10399, balanced reference
		return []order{{a, a, b}, {a, b, a}, {b, a, b}, {b, b, a}}
	case Tetrad:
		return []order{{a, a, b, b}, {a, b, a, b}, {a, b, b, a}, {b, b, a, a}, {b, a, b, a}, {b, a, a, b}}
	}
	var orders []order
	for _, row := range Williams(2) {
		orders = append(orders, order{side(row[0]), side(row[1])})
	}
	return orders
}

// twoOfFive are the twenty orders of two samples of one loaf and three of the
// other (ISO 6658 names the test; the orders are counted out).
func twoOfFive() []order {
	var orders []order
	for first := range 5 {
		for second := first + 1; second < 5; second++ {
			for _, pair := range []side{0, 1} {
				o := make(order, 5)
				for place := range o {
					o[place] = 1 - pair
				}
				o[first], o[second] = pair, pair
				orders = append(orders, o)
			}
		}
	}
	return orders
}

// Williams gives the orders of a Williams design for n things: each thing
// stands equally often at each place and follows each other thing equally
// often. An even n needs n orders, an odd one 2n (Williams 1949, Aust J Sci
// Res A 2:149). It is nil for n below 2.
func Williams(n int) [][]int {
	if n < 2 {
		return nil
	}
	first := make([]int, n)
	for place, low, high := 1, 1, n-1; place < n; place++ {
		if place%2 == 1 {
			first[place] = low
			low++
		} else {
			first[place] = high
			high--
		}
	}
	rows := make([][]int, 0, 2*n)
	for step := range n {
		row := make([]int, n)
		for place, thing := range first {
			row[place] = (thing + step) % n
		}
		rows = append(rows, row)
	}
	if n%2 == 0 {
		return rows
	}
	for _, row := range rows[:n:n] {
		mirrored := make([]int, n)
		for place, thing := range row {
			mirrored[n-1-place] = thing
		}
		rows = append(rows, mirrored)
	}
	return rows
}
