package photo

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
)

// heicItems is where the items of a HEIC lie in its file.
type heicItems struct {
	kept     []extent // the data of image items
	exif     []extent // of the EXIF item, when it is written anew
	exifData []byte   // what to write there; what is left over is zeros
}

// imageItems are the kinds of items that are pictures or built of pictures (ISO/IEC
// 23008-12 section 6 and annexes). A JPEG within is none: it has EXIF of its own.
var imageItems = []string{"hvc1", "hev1", "lhv1", "av01", "avc1", "grid", "iden", "iovl", "tmap"}

// imageProperties are the properties of items that decoding needs; the payload of any
// other, such as a description in words, becomes zeros.
var imageProperties = []string{
	"hvcC", "lhvC", "av1C", "avcC", "a1op", "a1lx", "lsel", "oinf", "tols", "ispe", "pixi", "colr", "pasp",
	"clap", "irot", "imir", "rloc", "auxC", "clli", "mdcv", "cclv", "amve", "rref",
}

var errItems = errors.New("its list of items is broken")

// stripMeta cleans a meta box (ISO/IEC 14496-12 section 8.11) in place, its head
// being head bytes long.
func stripMeta(data []byte, head int, exif []byte) (heicItems, error) {
	if len(data) < head+4 {
		return heicItems{}, errItems
	}
	children, err := innerBoxes(data[head+4:])
	if err != nil {
		return heicItems{}, err
	}
	parts := make(map[string][]byte)
	for _, c := range children {
		kind := string(c[4:8])
		switch kind {
		case "hdlr":
			const named = 8 + 4 + 4 + 4 + 12
			if len(c) > named {
				clear(c[named:]) // whose handler it is
			}
		case "iinf", "iloc", "pitm", "idat":
			if parts[kind] != nil {
				return heicItems{}, errItems
			}
			parts[kind] = c
		case "iref", "grpl":
			parts[kind] = c
		case "iprp":
			if err := stripProperties(c); err != nil {
				return heicItems{}, err
			}
		default:
			free(c)
		}
	}
	places, err := readPlaces(parts["iloc"])
	if err != nil {
		return heicItems{}, err
	}
	primary, err := readPrimary(parts["pitm"])
	if err != nil {
		return heicItems{}, err
	}
	thumbs, err := readThumbs(parts["iref"])
	if err != nil {
		return heicItems{}, err
	}
	if thumbs[primary] {
		return heicItems{}, errItems
	}
	return stripItems(parts["iinf"], parts["idat"], places, primary, thumbs, exif)
}

// stripItems cleans the list of items and the data beside it, and says where the
// items' other data is.
func stripItems(iinf, idat []byte, places map[uint32]place, primary uint32, thumbs map[uint32]bool, exif []byte) (heicItems, error) {
	var out heicItems
	var inside []extent // within idat
	infos, err := readInfos(iinf)
	if err != nil {
		return heicItems{}, err
	}
	whole, dated := false, exif == nil
	for _, info := range infos {
		p := places[info.id]
		switch {
		case slices.Contains(imageItems, info.kind) && !thumbs[info.id]:
			whole = whole || info.id == primary
			if info.kind != "iden" && slices.ContainsFunc(p.extents, func(e extent) bool { return e.size == 0 }) {
				return heicItems{}, errItems // as long as the file, by the letter
			}
			clear(info.tail)
			if p.inside {
				inside = append(inside, p.extents...)
			} else {
				out.kept = append(out.kept, p.extents...)
			}
		case info.kind == "Exif" && !dated:
			dated = true
			clear(info.tail)
			// Before the block stands how far it is from there to its start.
			out.exifData = append([]byte{0, 0, 0, 0}, exif...)
			room := int64(0)
			for _, e := range p.extents {
				room += e.size
			}
			if p.inside || room < int64(len(out.exifData)) {
				return heicItems{}, errors.New("its EXIF lies where it cannot be written anew")
			}
			out.exif = p.extents
		default:
			info.drop()
		}
	}
	if !whole || !dated {
		return heicItems{}, errItems
	}
	return out, keepOnly(idat, inside)
}

// keepOnly clears what is in an idat box outside of some stretches of it.
func keepOnly(idat []byte, inside []extent) error {
	if idat == nil {
		if len(inside) > 0 {
			return errItems
		}
		return nil
	}
	old := slices.Clone(idat[8:])
	clear(idat[8:])
	for _, e := range inside {
		if e.at > int64(len(old)) || e.size > int64(len(old))-e.at {
			return fmt.Errorf("an item outside of the data, at %d", e.at)
		}
		copy(idat[8+e.at:], old[e.at:e.at+e.size])
	}
	return nil
}

// stripProperties clears the properties that no picture needs.
func stripProperties(iprp []byte) error {
	children, err := innerBoxes(iprp[8:])
	if err != nil {
		return err
	}
	for _, c := range children {
		switch string(c[4:8]) {
		case "ipco":
			properties, err := innerBoxes(c[8:])
			if err != nil {
				return err
			}
			for _, p := range properties {
				if !slices.Contains(imageProperties, string(p[4:8])) {
					clear(p[8:]) // its place among the others is counted
				}
			}
		case "ipma":
		default:
			free(c)
		}
	}
	return nil
}

// innerBoxes parts the content of a box into the boxes in it, heads included.
func innerBoxes(data []byte) ([][]byte, error) {
	var all [][]byte
	for len(data) > 0 {
		if len(data) < 8 {
			return nil, errItems
		}
		n := cmp.Or(uint64(be32(data)), uint64(len(data)))
		if n < 8 || n > uint64(len(data)) {
			return nil, errItems
		}
		all = append(all, data[:n:n])
		data = data[n:]
	}
	return all, nil
}

// free makes a box one of free space.
func free(b []byte) {
	copy(b[4:], "free")
	clear(b[8:])
}
