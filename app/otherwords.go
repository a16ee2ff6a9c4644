package app

import (
	"strings"

	"fyne.io/fyne/v2/lang"
)

// otherWords are groups of words that bakers use for one thing. What is called by one word of
// a group is found by the others too.
func otherWords() []string {
	return []string{
		lang.L("compare, side by side, versus, difference, contrast"),
		lang.L("save, export, download, table, CSV, spreadsheet, recipe"),
		lang.L("take the journal away, take it away, export, archive, send, share, zip, move to another computer"),
		lang.L("bring an archive in, bring in, import, load, restore from an archive"),
		lang.L("print, PDF, paper, label, sheet"),
		lang.L("dark, night, black, appearance, theme, colours, look, mode"),
		lang.L("light, day, white, bright"),
		lang.L("undo, take back, revert, mistake"),
		lang.L("redo, repeat, again"),
		lang.L("who can read the journal, password, lock, encrypt, private, secret, privacy, cloud, sync, account"),
		lang.L("back the journal up, back up, backup, backups, copy, safety"),
		lang.L("bin, trash, delete, deleted, remove, recover"),
		lang.L("culture, starter, sourdough, levain, mother"),
		lang.L("bake, bread, loaf, boule"),
		lang.L("feed, refresh, feeding, refreshment"),
		lang.L("plan, schedule, timetable, timer, bake day"),
		lang.L("tasting, blind, triangle, taste test, vote"),
		lang.L("photo, picture, image, camera"),
		lang.L("text, font, zoom, size, larger, smaller"),
		lang.L("language, translate, English, Deutsch, German"),
		lang.L("°F, Fahrenheit, Celsius, ounces, grams, units, temperature, weight"),
		lang.L("currency, money, price, cost, dollar, euro, pound"),
		lang.L("sound, bell, alarm, notification, reminder, mute, silent"),
		lang.L("bedtime, sleep, night, wake-up"),
		lang.L("every key, keys, shortcut, shortcuts, keyboard"),
		lang.L("find, search, look for"),
		lang.L("close, quit, exit, leave"),
		lang.L("help, manual, guide, tutorial, how"),
		lang.L("version, about, licence, license, credits"),
		lang.L("allergen, gluten, nuts, be careful, safety, mould"),
		lang.L("figures, formula, source, statistics, meaning"),
	}
}

// withOtherWords adds to what can be found the other words for it. A word is known by its
// beginning: "bake" in "bakes", but no "day" in "Today".
func withOtherWords(all []found) []found {
	groups := otherWords()
	for i, g := range groups {
		groups[i] = strings.ToLower(g)
	}
	for i, f := range all {
		low := " " + spaced.Replace(strings.ToLower(f.words))
		for _, g := range groups {
			for word := range strings.SplitSeq(g, ", ") {
				if strings.Contains(low, " "+word) {
					all[i].also += " " + strings.ReplaceAll(g, ",", "")
					break
				}
			}
		}
	}
	return all
}

// spaced sets words apart that stand together with a sign.
var spaced = strings.NewReplacer(":", " ", ",", " ", "“", " ", "„", " ", "(", " ", "/", " ")

// search gives what holds every word of text: those that begin with it first, then those that
// hold it, then those that are also called so.
func search(all []found, text string) []found {
	words := strings.Fields(strings.ToLower(text))
	var begins, holds, called []found
	for _, f := range all {
		low := strings.ToLower(f.words)
		named, other := true, true
		for _, word := range words {
			holdsWord := strings.Contains(low, word)
			named = named && holdsWord
			other = other && (holdsWord || strings.Contains(f.also, " "+word))
		}
		switch {
		case named && len(words) > 0 && strings.HasPrefix(low, words[0]):
			begins = append(begins, f)
		case named:
			holds = append(holds, f)
		case other:
			called = append(called, f)
		}
	}
	out := append(append(begins, holds...), called...)
	return out[:min(len(out), mostFound)]
}
