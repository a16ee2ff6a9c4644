package photo_test

import (
	"bytes"
	"encoding/binary"
)

// ladenHEIC writes the picture of a HEIC sample of testdata/photo anew, with what
// phones put beside it: EXIF from a TIFF block, XMP, a thumbnail (an item of its own,
// of whatever bytes), and a secret in every place that holds words or nothing: the
// handler's and the items' names, a description, the gaps of the data, a box of the
// phone's. It knows the layout of those samples only, and panics at another.
func ladenHEIC(heic, tiff, thumb []byte, secret string) []byte {
	find := func(kind string) []byte {
		at := bytes.Index(heic, []byte(kind))
		if at < 4 {
			panic("the sample has no " + kind + " box")
		}
		return heic[at-4 : at-4+int(binary.BigEndian.Uint32(heic[at-4:]))]
	}
	iloc, ipco, ipma := find("iloc"), find("ipco"), find("ipma")
	// Items of 18 bytes, version 0: number, reference, base, count, offset, length. The
	// first is the picture.
	at, size := binary.BigEndian.Uint32(iloc[16+4:]), binary.BigEndian.Uint32(iloc[16+14:])
	picture := heic[at : at+size]

	// Each item: its kind, what is told of it, its data.
	items := []struct {
		kind, words string
		data        []byte
	}{
		{"hvc1", secret + "\x00", picture},
		{"Exif", secret + "\x00", append([]byte{0, 0, 0, 0}, tiff...)},
		{"mime", "\x00application/rdf+xml\x00", []byte("<x:xmpmeta>" + secret)},
		{"hvc1", "\x00", thumb},
	}
	named := ipma[8+4+4+2:] // of the picture: how many properties, and which
	props := append(append([]byte{}, ipco[8:]...), isoBox("udes", "\x00\x00\x00\x00en\x00"+secret+"\x00\x00\x00")...)
	associations := append([]byte{0, 0, 0, 0, 0, 0, 0, 2, 0, 1}, named...)
	associations = append(append(associations, 0, 4), named...)

	meta := func(dataAt int) []byte {
		locations := []byte{0, 0, 0, 0, 0x44, 0x40, 0, byte(len(items))}
		infos := []byte{0, 0, 0, 0, 0, byte(len(items))}
		for i, it := range items {
			dataAt += len(secret) // a gap before each
			locations = append(locations, 0, byte(i+1), 0, 0, 0, 0, 0, 0, 0, 1)
			locations = binary.BigEndian.AppendUint32(locations, uint32(dataAt))
			locations = binary.BigEndian.AppendUint32(locations, uint32(len(it.data)))
			dataAt += len(it.data)
			infos = append(infos, isoBox("infe", "\x02\x00\x00\x00\x00"+string(rune(i+1))+"\x00\x00"+it.kind+it.words)...)
		}
		body := "\x00\x00\x00\x00" +
			string(isoBox("hdlr", "\x00\x00\x00\x00\x00\x00\x00\x00pict"+string(make([]byte, 12))+secret+"\x00")) +
			string(isoBox("pitm", "\x00\x00\x00\x00\x00\x01")) +
			string(isoBox("iloc", string(locations))) +
			string(isoBox("iinf", string(infos))) +
			string(isoBox("iprp", string(isoBox("ipco", string(props)))+string(isoBox("ipma", string(associations))))) +
			string(isoBox("iref", "\x00\x00\x00\x00"+
				string(isoBox("cdsc", "\x00\x02\x00\x01\x00\x01"))+
				string(isoBox("cdsc", "\x00\x03\x00\x01\x00\x01"))+
				string(isoBox("thmb", "\x00\x04\x00\x01\x00\x01")))) +
			string(isoBox("xml ", "\x00\x00\x00\x00"+secret)) +
			string(isoBox("idat", secret))
		return isoBox("meta", body)
	}
	out := append([]byte{}, find("ftyp")...)
	out = append(out, isoBox("uuid", "0123456789abcdef"+secret)...)
	out = append(out, meta(len(out)+len(meta(0))+8)...)
	var data []byte
	for _, it := range items {
		data = append(append(data, secret...), it.data...)
	}
	out = append(out, isoBox("mdat", string(data)+secret)...)
	return append(out, isoBox("mpvd", secret)...)
}
