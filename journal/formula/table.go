package formula

// Row is one line of a table: a weight and its baker's percentage.
type Row struct {
	Name    string
	Grams   Grams
	Percent Percent
	Levain  bool // the row is a whole ripe levain
}

// Table is a part of a formula as a baker reads it at the bench.
type Table struct {
	Name  string
	Rows  []Row
	Total Row
}

func (t *Table) add(r Row) {
	t.Rows = append(t.Rows, r)
	t.Total.Grams += r.Grams
}

func (t *Table) settle(flour Grams) {
	for i := range t.Rows {
		t.Rows[i].Percent = t.Rows[i].Grams.PercentOf(flour)
	}
	t.Total.Percent = t.Total.Grams.PercentOf(flour)
}

// BuildTable is how the levain is made; percentages are of its own flour.
func (l Levain) BuildTable(b Basis) Table {
	t := Table{Name: l.Name}
	for _, in := range l.Lines {
		t.add(Row{Name: in.Name, Grams: in.Grams})
	}
	t.settle(flourOf(l.Lines, b))
	return t
}

// FinalDough is what goes into the mixing bowl, each levain as one row;
// percentages are of all the flour in the dough.
func (f Formula) FinalDough(b Basis) Table {
	var t Table
	for _, in := range f.Lines {
		t.add(Row{Name: in.Name, Grams: in.Grams})
	}
	for _, l := range f.Levains {
		t.add(Row{Name: l.Name, Grams: l.Used(), Levain: true})
	}
	t.settle(f.flourIn(b))
	return t
}

func flourOf(lines []Ingredient, b Basis) Grams {
	var sum Grams
	for _, in := range lines {
		sum += in.flourIn(b)
	}
	return sum
}
