package scene

// A Ground is what a loaf lies on.
type Ground int

// The grounds.
const (
	Board Ground = iota // a wooden board
	Linen               // a pale cloth
	Slate               // dark stone
	Steel               // the worktop of a galley
)

// ground is the colour of a ground at a place, in even light.
func (p *Painter) ground(g Ground, ox float32, x, y float32) rgb {
	if g == Board {
		return p.wood(ox, x, y)
	}
	cloud := p.smooth.at(x*60+ox, y*60+ox) - 0.5
	grain := p.fine.at(x*500+ox, y*500) - 0.5
	switch g {
	case Linen:
		weave := sin(x*420)*0.5 + sin(y*420)*0.5
		fold := p.smooth.at(x*22+y*18+ox, y*9-x*7) - 0.5
		return rgb{228, 222, 210}.times(1 + 0.16*fold + 0.035*weave + 0.05*grain)
	case Slate:
		return rgb{62, 65, 70}.times(1 + 0.55*cloud + 0.16*grain)
	default:
		brush := p.fine.at(x*18+ox, y*520) - 0.5
		return rgb{168, 172, 176}.times(1 + 0.16*cloud + 0.10*brush)
	}
}

// wood is a board of four planks with their grain.
func (p *Painter) wood(ox, x, y float32) rgb {
	plank := float32(int((y + 8) * 2.1))
	along := x + plank*3.7
	rings := p.smooth.at(along*9+ox, y*62+plank*91)
	fibre := p.fine.at(along*26+ox, y*430) - 0.5
	k := 0.86 + 0.30*sin(rings*44)*0.35 + 0.22*(rings-0.5) + 0.13*fibre
	c := rgb{176, 130, 86}.times(k + 0.06*(p.fine.at(plank*57, 7)-0.5))
	// The gaps between planks.
	gap := (y+8)*2.1 - plank
	return c.times(1 - 0.55*bell(min(gap, 1-gap), 0.012))
}

// dusted lays loose flour round a place: thick where near is 1.
func (p *Painter) dusted(c rgb, ox, x, y, near float32) rgb {
	if near <= 0 {
		return c
	}
	f := p.smooth.at(x*90+ox, y*90-ox)*0.7 + p.fine.at(x*640, y*640+ox)*0.3
	return c.mix(rgb{240, 234, 220}, 0.75*step(0.62-0.3*near, 0.85-0.2*near, f)*near)
}
