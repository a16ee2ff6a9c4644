package photo

// mostItems bounds how many items a picture has, and stretches of data; phones
// write some hundreds.
const mostItems = 1 << 16

// bits reads numbers of a box one after the other; bad goes up when there are too
// few bytes.
type bits struct {
	b   []byte
	bad bool
}

// take reads a number of so many bytes, 0 to 8.
func (r *bits) take(n int) uint64 {
	if n > len(r.b) {
		r.bad, r.b = true, nil
		return 0
	}
	v := uint64(0)
	for _, c := range r.b[:n] {
		v = v<<8 | uint64(c)
	}
	r.b = r.b[n:]
	return v
}

// place is where an item's data lies: in the file, or in the idat box.
type place struct {
	inside  bool
	extents []extent
}

// readPlaces reads an iloc box (ISO/IEC 14496-12 section 8.11.3).
func readPlaces(iloc []byte) (map[uint32]place, error) {
	if iloc == nil {
		return nil, errItems
	}
	r := bits{b: iloc[8:]}
	version := r.take(4) >> 24
	sizes := r.take(2)
	offsetSize, lengthSize := int(sizes>>12), int(sizes>>8&15)
	baseSize, indexSize := int(sizes>>4&15), int(sizes&15)
	if max(offsetSize, lengthSize, baseSize, indexSize) > 8 || version > 2 {
		return nil, errItems
	}
	wide := 2 // bytes of an item's number
	if version == 2 {
		wide = 4
	}
	if version == 0 {
		indexSize = 0
	}
	out := make(map[uint32]place)
	all := 0
	for range r.take(wide) {
		id := uint32(r.take(wide))
		p := place{}
		if version > 0 {
			switch r.take(2) & 15 {
			case 0:
			case 1:
				p.inside = true
			default:
				return nil, errItems // built of other items' data
			}
		}
		if r.take(2) != 0 {
			return nil, errItems // in another file
		}
		base := r.take(baseSize)
		for range r.take(2) {
			if all++; all > mostItems {
				return nil, errItems
			}
			r.take(indexSize)
			at, size := base+r.take(offsetSize), r.take(lengthSize)
			if r.bad || at > 1<<40 || base > 1<<40 || size > 1<<40 {
				return nil, errItems
			}
			p.extents = append(p.extents, extent{int64(at), int64(size)})
		}
		if _, twice := out[id]; twice || r.bad || len(out) > mostItems {
			return nil, errItems
		}
		out[id] = p
	}
	return out, nil
}

// versioned begins to read a box: behind its version and flags (section 4.2), with how many
// bytes a number has there, four in any version but the first.
func versioned(box []byte) (r bits, wide int) {
	r = bits{b: box[8:]}
	if r.take(4)>>24 > 0 {
		return r, 4
	}
	return r, 2
}

// readPrimary reads a pitm box (section 8.11.4): the item that is the picture.
func readPrimary(pitm []byte) (uint32, error) {
	if pitm == nil {
		return 0, errItems
	}
	r, wide := versioned(pitm)
	id := uint32(r.take(wide))
	if r.bad {
		return 0, errItems
	}
	return id, nil
}

// readThumbs reads an iref box (section 8.11.12): the items that are thumbnails.
func readThumbs(iref []byte) (map[uint32]bool, error) {
	out := make(map[uint32]bool)
	if iref == nil {
		return out, nil
	}
	r, wide := versioned(iref)
	if r.bad {
		return nil, errItems
	}
	refs, err := innerBoxes(r.b)
	if err != nil {
		return nil, err
	}
	for _, ref := range refs {
		r := bits{b: ref[8:]}
		if id := uint32(r.take(wide)); string(ref[4:8]) == "thmb" && !r.bad {
			out[id] = true
		}
	}
	return out, nil
}

// info is an entry of the list of items, within the list's own bytes.
type info struct {
	id      uint32
	kind    string
	box     []byte // the whole infe box
	letters []byte // its four letters
	tail    []byte // its name and what else is told in words
}

// drop makes the entry a hidden one of a kind that nobody reads.
func (i info) drop() {
	i.box[11] |= 1
	copy(i.letters, "skip")
	clear(i.tail)
}

// readInfos reads an iinf box (section 8.11.6).
func readInfos(iinf []byte) ([]info, error) {
	if iinf == nil {
		return nil, errItems
	}
	r, wide := versioned(iinf)
	r.take(wide)
	if r.bad {
		return nil, errItems
	}
	boxes, err := innerBoxes(r.b)
	if err != nil {
		return nil, err
	}
	var out []info
	seen := make(map[uint32]bool)
	for _, b := range boxes {
		if string(b[4:8]) != "infe" {
			free(b)
			continue
		}
		e := bits{b: b[8:]}
		version := e.take(4) >> 24
		wide := 2
		if version == 3 {
			wide = 4
		}
		i := info{box: b, id: uint32(e.take(wide))}
		e.take(2)
		if version != 2 && version != 3 || e.bad || len(e.b) < 4 {
			return nil, errItems // an older list, which does not say what an item is
		}
		i.kind, i.letters, i.tail = string(e.b[:4]), e.b[:4], e.b[4:]
		if seen[i.id] {
			return nil, errItems
		}
		seen[i.id] = true
		out = append(out, i)
	}
	return out, nil
}
