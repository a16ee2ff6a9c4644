package main

// flows are the walks, in the order of a baker's first weeks.
func flows() []flow {
	return []flow{
		{"a first hour", firstHour},
		{"record a bake", recordABake},
		{"chart a culture", chartACulture},
		{"foretell a week", foretellAWeek},
		{"a row of pictures", followARow},
		{"taste two loaves blind", tasteBlind},
		{"taste alone", tasteAlone},
		{"taste by scores", scoreBlind},
		{"taste by every method", tasteByMethods},
		{"add tastings up", addUp},
		{"measure two crumbs", measureTwo},
		{"mend a crumb", mendCrumb},
		{"browse by flour", browseByFlour},
		{"a bake day", bakeDay},
		{"told and rung", toldAndRung},
		{"by keys alone", byKeysAlone},
		{"take a journal away and bring it in", takeAndBring},
		{"go back to a backup", goBack},
		{"open a damaged journal", openDamaged},
		{"a full disk", fullDisk},
		{"end while typing", endWhileTyping},
		{"type and escape", typeAndEscape},
	}
}
