package main

import (
	"errors"
	"fmt"
	"net/url"
	"strconv"
	"strings"
	"time"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// A drag carries files from a window of its own to another, as a file manager does:
// by version 5 of the "Drag-and-Drop Protocol for the X Window System" (XDND,
// freedesktop.org), as its source.
type drag struct {
	conn           *xgb.Conn
	source, target xproto.Window
	atoms          map[string]xproto.Atom
	began          xproto.Timestamp
	uris           string // the files as text/uri-list
}

// The protocol's version, and the type under which files are offered.
const (
	xdndVersion = 5
	uriList     = "text/uri-list"
)

// drop drags files over a place in the window and lets go of them there. It returns
// once the program has said that it has taken them.
func (p *program) drop(x, y int, files ...string) {
	window := must(strconv.ParseUint(p.window, 10, 32))
	conn := must(xgb.NewConnDisplay(p.display))
	defer conn.Close()
	// A connection that is closed ends every wait for an event.
	defer time.AfterFunc(patience, conn.Close).Stop()
	d := &drag{conn: conn, target: xproto.Window(window), uris: asURIs(files)}
	d.begin()
	d.aware()
	d.carry(x, y)
	pause()
}

// asURIs writes files as text/uri-list (RFC 2483, section 5): a URI a line.
func asURIs(files []string) string {
	var b strings.Builder
	for _, f := range files {
		b.WriteString((&url.URL{Scheme: "file", Path: f}).String())
		b.WriteString("\r\n")
	}
	return b.String()
}

// begin makes the window that is dragged from, and has it own what is dragged.
func (d *drag) begin() {
	d.learnAtoms("XdndAware", "XdndSelection", "XdndEnter", "XdndPosition", "XdndStatus",
		"XdndDrop", "XdndFinished", "XdndActionCopy", uriList)
	d.source = must(xproto.NewWindowId(d.conn))
	root := xproto.Setup(d.conn).DefaultScreen(d.conn).Root
	check(xproto.CreateWindowChecked(d.conn, 0, d.source, root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly, 0,
		xproto.CwEventMask, []uint32{xproto.EventMaskPropertyChange}).Check())
	d.began = d.now()
	check(xproto.SetSelectionOwnerChecked(d.conn, d.source, d.atoms["XdndSelection"], d.began).Check())
}

func (d *drag) learnAtoms(names ...string) {
	d.atoms = map[string]xproto.Atom{}
	for _, name := range names {
		d.atoms[name] = must(xproto.InternAtom(d.conn, false, uint16(len(name)), name).Reply()).Atom
	}
}

// now asks the display for its time: it tells it with every change of a property.
func (d *drag) now() xproto.Timestamp {
	check(xproto.ChangePropertyChecked(d.conn, xproto.PropModeAppend, d.source,
		xproto.AtomWmName, xproto.AtomString, 8, 0, nil).Check())
	for {
		if e, ok := d.event().(xproto.PropertyNotifyEvent); ok {
			return e.Time
		}
	}
}

// aware asks the target whether it takes what is dropped, and by which version.
func (d *drag) aware() {
	got := must(xproto.GetProperty(d.conn, false, d.target, d.atoms["XdndAware"], xproto.GetPropertyTypeAny, 0, 1).Reply())
	switch {
	case len(got.Value) < 4:
		panic(errors.New("the window takes nothing that is dropped"))
	case xgb.Get32(got.Value) < xdndVersion:
		panic(fmt.Errorf("the window speaks version %d", xgb.Get32(got.Value)))
	}
}

// carry goes through the steps of the protocol.
func (d *drag) carry(x, y int) {
	at := must(xproto.TranslateCoordinates(d.conn, d.target, xproto.Setup(d.conn).DefaultScreen(d.conn).Root, int16(x), int16(y)).Reply())
	place := uint32(uint16(at.DstX))<<16 | uint32(uint16(at.DstY))
	d.tell("XdndEnter", xdndVersion<<24, uint32(d.atoms[uriList]), 0, 0)
	d.tell("XdndPosition", 0, place, uint32(d.began), uint32(d.atoms["XdndActionCopy"]))
	failIf(d.answer("XdndStatus")[1]&1 == 0, "the window does not want it")
	d.tell("XdndDrop", 0, uint32(d.began), 0, 0)
	// The protocol has one bit for "taken". GLFW 3.3 writes the number of bytes it was
	// handed, so that only a nought is certain to mean that it took nothing.
	failIf(d.answer("XdndFinished")[1] == 0, "the window did not take it")
}

// tell sends a message of the protocol to the target; the first word of each is the
// source.
func (d *drag) tell(message string, words ...uint32) {
	e := xproto.ClientMessageEvent{
		Format: 32, Window: d.target, Type: d.atoms[message],
		Data: xproto.ClientMessageDataUnionData32New(append([]uint32{uint32(d.source)}, words...)),
	}
	check(xproto.SendEventChecked(d.conn, false, d.target, xproto.EventMaskNoEvent, string(e.Bytes())).Check())
}

// answer waits for a message of the target, and hands over the files when it asks for
// them.
func (d *drag) answer(message string) []uint32 {
	for {
		switch e := d.event().(type) {
		case xproto.SelectionRequestEvent:
			d.handOver(e)
		case xproto.ClientMessageEvent:
			if e.Type == d.atoms[message] {
				return e.Data.Data32
			}
		}
	}
}

// handOver writes the files to the property that the target asks for, and says so; a
// request for anything else is refused.
func (d *drag) handOver(r xproto.SelectionRequestEvent) {
	done := xproto.SelectionNotifyEvent{Time: r.Time, Requestor: r.Requestor, Selection: r.Selection, Target: r.Target}
	if r.Target == d.atoms[uriList] {
		done.Property = r.Property
		check(xproto.ChangePropertyChecked(d.conn, xproto.PropModeReplace, r.Requestor, r.Property, r.Target,
			8, uint32(len(d.uris)), []byte(d.uris)).Check())
	}
	check(xproto.SendEventChecked(d.conn, false, r.Requestor, xproto.EventMaskNoEvent, string(done.Bytes())).Check())
}

// event waits for the next event.
func (d *drag) event() xgb.Event {
	e, err := d.conn.WaitForEvent()
	if err != nil {
		panic(err)
	}
	failIf(e == nil, "nothing came")
	return e
}
