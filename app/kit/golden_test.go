package kit_test

import (
	"image"
	"image/color"
	"testing"
	"time"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/container"
	"fyne.io/fyne/v2/test"

	"twinloaf/app/kit"
	"twinloaf/app/look"
	"twinloaf/app/maintest"
	"twinloaf/charts"
	"twinloaf/journal/measure"
)

// The few pictures kept are of what behaviour cannot show: weights, spaces, colours.
// Fyne compares them with a tolerance (four steps in a hundredth of the bytes) and
// writes what differs to testdata/failed.
func TestLooks(t *testing.T) {
	for name, panel := range map[string]struct {
		content func(t *testing.T) fyne.CanvasObject
		size    fyne.Size
	}{
		"page":     {headOfAPage, fyne.NewSize(560, 520)},
		"reading":  {whatIsRead, fyne.NewSize(620, 800)},
		"fields":   {whatIsEdited, fyne.NewSize(560, 760)},
		"pictures": {whatIsSeen, fyne.NewSize(620, 620)},
	} {
		for mode, in := range map[string]look.Mode{"light": look.AlwaysLight, "dark": look.AlwaysDark} {
			test.ApplyTheme(t, look.New(in))
			content := panel.content(t)
			framed := kit.NewFrame(maintest.New().Do, content)
			framed.Resize(panel.size)
			content.Refresh()
			test.AssertObjectRendersToImage(t, name+"-"+mode+".png", framed)
		}
	}
	test.ApplyTheme(t, look.New(look.AlwaysLight))
}

func headOfAPage(*testing.T) fyne.CanvasObject {
	score := kit.NewScoreRow("Crust crispness", "soft", "shattering", nil)
	score.SetScore(4)
	figure := kit.NewQuantityField(kit.QuantityOptions{Label: "Water", Measure: measure.Units{}.Weight(), Large: true, Origin: "72 %"})
	figure.SetValue(684)
	return kit.Stack(4,
		kit.Eyebrow("Wednesday 4 March, 08:54 · kitchen 21 °C"),
		kit.Heading("Turn the dough in 12 minutes"),
		kit.Rule(),
		kit.Row(4, kit.GreatFigure("11:48"), kit.Stack(0, kit.Body("to turn 4 of 6"), kit.Small("dough 24.6 °C at turn 3"))),
		kit.Row(2.5, kit.PrimaryButton("Done now", nil).WithKey("D"), kit.NewButton("Later", nil), kit.QuietButton("Skip", nil)),
		kit.Flow(2, kit.NewKeyHint("D", "done"), kit.NewKeyHint("L", "ten minutes later")),
		kit.Flow(2, kit.NewPill("spelt ≥ 15 %", func() {}), kit.NewLink("save this view", nil)),
		figure, score,
	)
}

// eve is when the panels are looked at.
var eve = time.Date(2026, 3, 4, 20, 12, 0, 0, time.UTC)

// whatIsRead is a schedule in each of its states, lanes, bars, a table, marks, what is
// overdue, and rows that open.
func whatIsRead(*testing.T) fyne.CanvasObject {
	schedule := kit.NewSchedule(0, kit.ScheduleHeads{Clock: "Time", Length: "Length", Planned: "Planned", By: "Off by"})
	schedule.SetRows([]kit.ScheduleRow{
		{Day: "Wed 4 March", Clock: "16:05", Title: "Mix", Planned: "16:00", By: "5 min", State: kit.StepDone},
		{Clock: "16:40", Title: "Turn 1", State: kit.StepSkipped},
		{Clock: "20:00", Title: "Shape", Length: "15 min", Planned: "20:00", Late: "overdue by 12 min", State: kit.StepLate},
		{Day: "Thu 5 March", Clock: "03:30", Title: "Out of the cold", Planned: "03:30", State: kit.StepNight},
		{Clock: "07:45", Title: "Bake", Length: "45 min", Planned: "07:45", Note: "steam for the first 20 minutes"},
	})
	first, second := styleOf(0), styleOf(1)
	at := func(hours float64) time.Time { return eve.Add(time.Duration(hours * float64(time.Hour))) }
	lanes := kit.NewDayLanes([]kit.Lane{
		{Name: "Ferry loaf", Mark: &first, Blocks: []kit.LaneBlock{
			{From: at(-4), To: at(-0.2), Color: look.ColorDough, Words: "bulk", Ticks: []time.Time{at(-3), at(-2)}},
			{From: at(-0.2), To: at(10), Color: look.ColorRest, Words: "cold"}, {From: at(10), To: at(11), Color: look.ColorCrust, Words: "bake"},
		}},
		{Name: "Deck rye", Mark: &second, Blocks: []kit.LaneBlock{{From: at(-2), To: at(2), Color: look.ColorDough, Words: "bulk"}}},
	}, measure.Units{}, eve)
	due := kit.NewDue(0)
	due.Set("Feed Harbour", at(-0.5), eve, measure.Units{})
	rows := kit.NewOpenRows()
	rows.Set(
		kit.NewOpenRow("a", nil, kit.Row(2, kit.NewMark(first, kit.MarkSide), kit.Strong("Harbour")), func() {}),
		kit.NewOpenRow("b", nil, kit.Row(2, kit.NewMark(second, kit.MarkSide), kit.Strong("Gorse")), func() {}),
	)
	return kit.Stack(4,
		schedule, lanes, due,
		kit.ScoreBar("crust", 7), kit.ScoreBar("aroma", 5),
		kit.ShareList([]kit.Share{{Name: "Strong white", Part: 0.72, Text: "72 %"}, {Name: "Whole wheat", Part: 0.18, Text: "18 %"}, {Name: "Dark rye", Part: 0.1, Text: "10 %"}}),
		kit.Table([]kit.TableColumn{{Head: "Size"}, {Head: "Cells", Right: true}, {Head: "Area", Right: true}, {Unit: true}},
			[][]string{{"1 to 2", "418", "7.20", "cm²"}, {"2 to 5", "96", "12.05", "cm²"}}, func(row int) bool { return row == 1 }),
		rows,
	)
}

// whatIsEdited is each sort of field, filled, empty and misunderstood, and a calendar.
func whatIsEdited(*testing.T) fyne.CanvasObject {
	name := kit.NewTextField("Name", "what you call it")
	name.SetText("Harbour")
	empty := kit.NewTextField("Kept in", "add where it stands")
	wrong := kit.NewTextField("Ratio", "1:4:4")
	wrong.SetText("1:x")
	wrong.SetProblem("This is not a ratio.")
	note := kit.NewNoteField("Notes", "add a note")
	note.SetText("Folded gently after the fourth turn.")
	flour := kit.NewChoiceField("Flour", "choose", []string{"Strong white", "Dark rye"}, nil)
	flour.SetChosen(1)
	when := kit.NewWhenField(kit.WhenOptions{Label: "Fed", Hint: "when", Now: func() time.Time { return eve }})
	when.SetTime(eve.Add(-40 * time.Minute))
	share := kit.NewReadout("Hydration", true)
	share.Set("76", "%", "water to flour", "")
	mark := kit.NewMarkField("Mark", []string{"blue", "orange", "green"}, nil)
	mark.Set([]charts.SeriesStyle{styleOf(0), styleOf(1), styleOf(2)}, 1)
	return kit.Stack(4,
		kit.Columns(200, name, empty, wrong, flour, when, share), note, mark,
		kit.NewSegments("Look", []string{"light", "dark", "by the hour"}, 1, nil),
		kit.Row(4, kit.NewMonth(eve, eve), kit.Stack(2, kit.NewChoicePill("rye", true, func() {}), kit.EmberButton("Throw away", nil), kit.InkButton("Score it", nil))),
	)
}

// whatIsSeen is photos as tiles, a photo with corners to drag, work that goes on, and an
// empty page. Charts have pictures of their own, in testdata/charts.
func whatIsSeen(t *testing.T) fyne.CanvasObject {
	main := maintest.New()
	loader := kit.NewLoader(main.Do, noPicture{}, 1, 1<<20)
	t.Cleanup(loader.Close)
	tiles := kit.Row(3)
	for i, item := range []kit.PhotoItem{
		{Title: "Ferry loaf", Right: "7", Sub: "Tue 3 March", Loaf: kit.PaleLoaf}, {Title: "Deck rye", Sub: "Mon 2 March", Loaf: kit.DarkLoaf, Chosen: true},
		{Title: "Spelt and oats", Loaf: kit.BrownLoaf, Choosable: true},
	} {
		tile := kit.NewPhotoTile(loader, fyne.NewSize(150, 100), 2, nil)
		tile.Set(item)
		if i == 2 {
			tile.FocusGained()
		}
		tiles.Add(tile)
	}
	photo := image.NewRGBA(image.Rect(0, 0, 240, 160))
	for y := range 160 {
		for x := range 240 {
			photo.Set(x, y, color.RGBA{uint8(90 + x/2), uint8(70 + y/2), 60, 255})
		}
	}
	view := kit.NewPhotoView(main.Do)
	view.SetPicture(photo)
	view.Wait()
	corners := kit.NewDragPoints(view)
	corners.Closed = true
	corners.SetPoints([]kit.PicturePoint{{X: 40, Y: 30}, {X: 200, Y: 20}, {X: 210, Y: 140}, {X: 30, Y: 130}})
	view.AddOverlay(corners)
	progress := kit.NewProgress("Copying photos", func() {})
	progress.Set(3, 8, "crumb.jpg")
	return kit.Stack(4, tiles, container.NewGridWrap(fyne.NewSize(360, 180), view), progress, kit.Empty(kit.GoldenLoaf, "No bread has been baked yet.", kit.PrimaryButton("Record a bake", nil), kit.NewLink("or look at the demo", nil)))
}

// styleOf is a colour with a shape of its own.
func styleOf(i int) charts.SeriesStyle {
	return charts.SeriesStyle{Hue: charts.Hue(i), Shape: charts.Shape(i), Hollow: i%2 == 1}
}
