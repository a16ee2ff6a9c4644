package formula

// Row is one line of a table: a weight and its baker's percentage.
type Row struct {
	Name    string
	Role    Role // empty for a levain that goes in as a whole
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
		t.add(Row{Name: in.Name, Role: in.Role, Grams: in.Grams})
	}
	t.settle(flourOf(l.Lines, b))
	return t
}

// FinalDough is what goes into the mixing bowl, each levain as one row;
// percentages are of all the flour in the dough.
func (f Formula) FinalDough(b Basis) Table {
	var t Table
	for _, in := range f.Lines {
		t.add(Row{Name: in.Name, Role: in.Role, Grams: in.Grams})
	}
	for _, l := range f.Levains {
		t.add(Row{Name: l.Name, Grams: l.Used(), Levain: true})
	}
	t.settle(f.FlourIn(b))
	return t
}

// Overall is the formula with its levains taken apart: lines of the same name
// and role are one row, in the order of first appearance, the final dough's
// first. Percentages are of all the flour in the dough. Its total is that of
// [Formula.FinalDough].
func (f Formula) Overall(b Basis) Table {
	type key struct {
		name string
		role Role
	}
	var t Table
	at := make(map[key]int, len(f.Lines))
	put := func(in Ingredient, g Grams) {
		k := key{in.Name, in.Role}
		i, ok := at[k]
		if !ok {
			at[k] = len(t.Rows)
			t.add(Row{Name: in.Name, Role: in.Role, Grams: g})
			return
		}
		t.Rows[i].Grams += g
		t.Total.Grams += g
	}
	for _, in := range f.Lines {
		put(in, in.Grams)
	}
	for _, l := range f.Levains {
		share := l.usedShare()
		for _, in := range l.Lines {
			put(in, in.Grams*share)
		}
	}
	t.settle(f.FlourIn(b))
	return t
}

func flourOf(lines []Ingredient, b Basis) Grams {
	var sum Grams
	for _, in := range lines {
		sum += in.FlourIn(b)
	}
	return sum
}
