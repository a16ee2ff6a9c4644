package demo

// A remark is something the cook wrote, and when it would have been written.
type remark struct {
	words string
	fits  func(d *bread, m made, score int) bool
}

func always(*bread, made, int) bool         { return true }
func good(_ *bread, _ made, score int) bool { return score >= 7 }
func poor(_ *bread, _ made, score int) bool { return score <= 5 }
func cool(_ *bread, m made, _ int) bool     { return m.doughC < 24 }
func warm(_ *bread, m made, _ int) bool     { return m.doughC > 26.5 }
func long(_ *bread, m made, _ int) bool     { return m.cold >= 18 }
func wet(_ *bread, m made, _ int) bool      { return m.hyd >= 76 }
func rye(d *bread, _ made, _ int) bool      { return d.ryeShare() > 50 }
func spelt(d *bread, _ made, _ int) bool    { return d.flours[0].name == lightSpelt }
func seeds(d *bread, _ made, _ int) bool    { return len(d.adds) == 2 && d.adds[0].name == "Sesame seeds" }

// remarks are notes on the dough, in the cook's voice. Each is used once.
var remarks = []remark{
	{"Swell from the north-west; wedged the bowl between the flour bins.", always},
	{"Late sailing, so the last fold was done in the dark with a torch.", always},
	{"The mate wanted it plainer. The mate got it as it was.", always},
	{"New sack of white opened. Takes a little more water than the last.", always},
	{"Fog all morning, everything damp. Held back 20 g of water.", always},
	{"Full moon and thirty cyclists aboard. Doubled the slices, not the loaf.", always},
	{"Lid on two minutes longer than meant: the pilot was on the radio.", always},
	{"Used the blue bowl. Marked it at the height of the dough this time.", always},
	{"Generator off for an hour. The cold box crept up to seven degrees.", always},
	{"Forgot the salt until the second fold. Wetted my hands and worked it in.", always},
	{"Shaped tighter than usual; it stood up in the basket by itself.", always},
	{"Tried rice flour in the basket. It lets go much better.", always},
	{"Cut it too soon. Nobody complained but me.", always},
	{"Scored deeper and flatter. The ear came up at once.", good},
	{"Best one this month. Do exactly this again.", good},
	{"Sang when it came out. The engineer came up to listen.", good},
	{"Crust like glass, and it stayed so until evening.", good},
	{"Held its shape right to the oven. The long rest pays.", good},
	{"Flat as the sea in June. Too long on the bench before shaping.", poor},
	{"Tight under the crust on one side. Shaped in a hurry at the quay.", poor},
	{"Burst along the side: not proved enough, and the cut was timid.", poor},
	{"Pale. The oven never got past 230.", poor},
	{"Dough was cold from the start and stayed there. Gave the bulk longer.", cool},
	{"Water straight from the tap, and I could feel it. Slow afternoon.", cool},
	{"Hot galley, doors shut for the rain. Cut the bulk short.", warm},
	{"Ran ahead of me. Into the cold half an hour early.", warm},
	{"A whole day in the cold. Smells of apples when the lid comes off.", long},
	{"Left it overnight and through the forenoon watch. No harm done.", long},
	{"Very slack until the third fold, then it came together.", wet},
	{"Wet hands, wet scraper, patience.", wet},
	{"Docked the top with a skewer. No cracks.", rye},
	{"Wrapped in cloth until tomorrow, and hidden from the deckhands.", rye},
	{"Needs two days. Sliced thin with smoked fish it was something.", rye},
	{"Stopped mixing early; spelt goes slack if it is pushed.", spelt},
	{"Oats a bit hot when they went in. Dough at 27 for a while.", spelt},
	{"Toasted the seeds darker. Much better smell.", seeds},
	{"Rolled on a wet cloth, then in sesame. Sticks now.", seeds},
}

// remark chooses a note that fits and has not been used, or none.
func (s *story) remark(d *bread, m made, score int) string {
	if s.rng.IntN(10) < 3 {
		return ""
	}
	for range 12 {
		r := remarks[s.rng.IntN(len(remarks))]
		if !s.told[r.words] && r.fits(d, m, score) {
			s.told[r.words] = true
			return r.words
		}
	}
	return ""
}

// tasted are words on the finished bread, by how well it was liked.
var tasted = [3][]string{
	{"Gummy in the middle.", "Sour in the wrong way, sharp at the back.", "Close crumb, heavy to hold.", "Toast only."},
	{"Mild and even. Sandwich bread.", "Good crust, plain crumb.", "A little dry by the second day.", "Fine with soup.", "Close at the bottom, better above."},
	{"Thin crackling crust, soft inside.", "Nutty, a clean sourness, long.", "Gone before we reached the mainland.", "Open and glossy; the walls shine.", "Would serve this to anybody."},
}

func (s *story) tasted(score int) string {
	if s.rng.IntN(10) < 4 {
		return ""
	}
	row := tasted[min(2, max(0, (score-3)/2))]
	return row[s.rng.IntN(len(row))]
}
