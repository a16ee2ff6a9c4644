package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// A stranger is somebody who opens the program for the first time, with a way of working.
type stranger struct {
	name     string
	language string
	// culture begins one and feeds it a day later, bake writes one down with a score, and
	// tasting plans one of two bakes.
	culture, bake, tasting func(p *program) []gesture
}

// firstMinute is how long a person may take to make a culture and feed it: judged by what
// there is to press, at two seconds for each, since the walk itself waits at times.
const firstMinute = time.Minute

// strangers are tried by mouse alone and by keys alone, in English and in German.
func strangers() []stranger {
	mouse := stranger{name: "by mouse", culture: mouseCulture, bake: mouseBake, tasting: mouseTasting}
	keys := stranger{name: "by keys", culture: keysCulture, bake: keysBake, tasting: keysTasting}
	german := func(s stranger) stranger {
		s.name, s.language = s.name+", in German", "de"
		return s
	}
	return []stranger{german(mouse), german(keys), keys, mouse}
}

// firstHour goes from a fresh journal to a fed culture, a recorded bake and a planned
// tasting, as each of the strangers would, and counts what a person has to do. Letters of
// names count as keys. The counts are written as a table beside the pictures.
func firstHour(w *walk) {
	table := []string{"| who | what | clicks | keys | seconds |", "|---|---|---|---|---|"}
	for i, s := range strangers() {
		doing(s.name, func() { table = append(table, w.oneStranger(i, s)...) })
	}
	text := strings.Join(table, "\n") + "\n"
	fmt.Print(text)
	check(os.WriteFile(filepath.Join(w.shots, "first-hour.md"), []byte(text), 0o644))
}

func (w *walk) oneStranger(i int, s stranger) (table []string) {
	dir := filepath.Join(w.dir, fmt.Sprint(i))
	check(os.Mkdir(dir, 0o755))
	p := newProgram(w.screen, w.exe, dir, filepath.Join(dir, "journal"))
	defer p.kill()
	begin := time.Date(2026, 3, 4, 8, 0, 0, 0, time.Local)
	p.setClock(begin)
	p.start()
	p.see("Your journal is empty")
	if s.language != "" {
		said := readTongue(w.data, s.language)
		p.steps(p.pressing("Settings"), p.pressing(said.name), func() { p.in = said },
			p.seeing("As you like it"), p.pressing("Today"), p.seeing("Your journal is empty"), p.picture("empty-"+s.language))
	}
	for _, task := range []struct {
		what string
		do   []gesture
	}{{"a fed culture", s.culture(p)}, {"a recorded bake", s.bake(p)}, {"a planned tasting", s.tasting(p)}} {
		p.keyed, p.clicked = 0, 0
		started := time.Now()
		p.steps(task.do...)
		took := time.Since(started)
		table = append(table, fmt.Sprintf("| %s | %s | %d | %d | %.0f |", s.name, task.what, p.clicked, p.keyed, took.Seconds()))
		p.settled(strings.ReplaceAll(s.name+" "+task.what, " ", "-"))()
		failIf(task.what == "a fed culture" && p.clicked+p.keyed > 30, "a culture takes %d clicks and %d keys: more than a person has time for in %s", p.clicked, p.keyed, firstMinute)
	}
	p.quit()
	return table
}

// nextMorning moves the clock to the next day.
func (p *program) nextMorning() {
	p.setClock(time.Date(2026, 3, 5, 8, 30, 0, 0, time.Local))
}

func mouseCulture(p *program) []gesture {
	return []gesture{
		p.pressing("Begin a culture"), p.seeing("what you call it"), p.typing("Gorse"), p.pressingLast("Begin"), p.seeing("Gorse, "),
		p.nextMorning, p.pressing("Today"), p.seeing("Gorse needs feeding"), p.pressing("Feed as last time"), p.seeing("Undo"),
	}
}

func keysCulture(p *program) []gesture {
	return []gesture{
		p.keys("c"), p.seeing("what you call it"), p.typing("Gorse"), p.keys("Return"), p.seeing("Gorse, "),
		p.nextMorning, p.keys("g"), p.seeing("Undo"),
	}
}

func mouseBake(p *program) []gesture {
	return []gesture{
		p.pressing("Today"), p.pressing("Write down a bake"), p.seeing("What went in"), p.typing("Deck"),
		p.pressing("flour, water, salt, culture …"), p.typing("Strong white"), p.pressing("7"), p.missing("Shown once the dough has ingredients."),
	}
}

func keysBake(p *program) []gesture {
	return []gesture{
		p.keys("ctrl+1", "n"), p.seeing("What went in"), p.typing("Deck"), p.keys("Tab", "Tab"), p.picture("keys-in-bake"), p.keys("Escape"),
	}
}

func mouseTasting(p *program) []gesture {
	return []gesture{
		p.pressing("Today"), p.pressing("Write down a bake"), p.seeing("What went in"), p.typing("Ferry"),
		p.pressing("Tastings"), p.pressing("Taste two loaves that are baked already"), p.seeing("Which two loaves?"),
		p.pressing("Deck"), p.pressing("Ferry"), p.pressing("Plan the tasting"), p.seeing("What this plan can find"),
	}
}

func keysTasting(p *program) []gesture {
	return []gesture{
		p.keys("ctrl+1", "n"), p.seeing("What went in"), p.typing("Ferry"), p.keys("Escape"),
		p.keys("ctrl+4"), p.seeing("Nothing tasted blind yet"), p.keys("t"), p.seeing("Which two loaves?"),
		p.typing("Deck"), p.keys("Down", "Return", "Tab"), p.typing("Ferry"), p.keys("Down", "Return"), p.picture("keys-two-loaves"),
		p.keys("Return"), p.seeing("What this plan can find"),
	}
}
