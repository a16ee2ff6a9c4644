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
func (p *program) drop(x, y int, files ...string) error {
	window, err := strconv.ParseUint(p.window, 10, 32)
	if err != nil {
		return fmt.Errorf("the number of the window: %w", err)
	}
	conn, err := xgb.NewConnDisplay(p.display)
	if err != nil {
		return fmt.Errorf("opening the display to drag from: %w", err)
	}
	defer conn.Close()
	// A connection that is closed ends every wait for an event.
	defer time.AfterFunc(patience, conn.Close).Stop()
	d := &drag{conn: conn, target: xproto.Window(window), uris: asURIs(files)}
	if err := errors.Join(d.begin(), d.aware()); err != nil {
		return fmt.Errorf("beginning to drag %q: %w", files, err)
	}
	if err := d.carry(x, y); err != nil {
		return fmt.Errorf("dropping %q: %w", files, err)
	}
	pause()
	return nil
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
func (d *drag) begin() error {
	if err := d.learnAtoms("XdndAware", "XdndSelection", "XdndEnter", "XdndPosition", "XdndStatus",
		"XdndDrop", "XdndFinished", "XdndActionCopy", uriList); err != nil {
		return err
	}
	id, err := xproto.NewWindowId(d.conn)
	if err != nil {
		return err
	}
	d.source = id
	root := xproto.Setup(d.conn).DefaultScreen(d.conn).Root
	err = xproto.CreateWindowChecked(d.conn, 0, id, root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly, 0,
		xproto.CwEventMask, []uint32{xproto.EventMaskPropertyChange}).Check()
	if err != nil {
		return err
	}
	if d.began, err = d.now(); err != nil {
		return err
	}
	return xproto.SetSelectionOwnerChecked(d.conn, id, d.atoms["XdndSelection"], d.began).Check()
}

func (d *drag) learnAtoms(names ...string) error {
	d.atoms = map[string]xproto.Atom{}
	for _, name := range names {
		got, err := xproto.InternAtom(d.conn, false, uint16(len(name)), name).Reply()
		if err != nil {
			return fmt.Errorf("the atom %s: %w", name, err)
		}
		d.atoms[name] = got.Atom
	}
	return nil
}

// now asks the display for its time: it tells it with every change of a property.
func (d *drag) now() (xproto.Timestamp, error) {
	err := xproto.ChangePropertyChecked(d.conn, xproto.PropModeAppend, d.source,
		xproto.AtomWmName, xproto.AtomString, 8, 0, nil).Check()
	if err != nil {
		return 0, err
	}
	for {
		switch e, err := d.event(); e := e.(type) {
		case nil:
			return 0, err
		case xproto.PropertyNotifyEvent:
			return e.Time, nil
		}
	}
}

// aware asks the target whether it takes what is dropped, and by which version.
func (d *drag) aware() error {
	got, err := xproto.GetProperty(d.conn, false, d.target, d.atoms["XdndAware"], xproto.GetPropertyTypeAny, 0, 1).Reply()
	switch {
	case err != nil:
		return err
	case len(got.Value) < 4:
		return errors.New("the window takes nothing that is dropped")
	case xgb.Get32(got.Value) < xdndVersion:
		return fmt.Errorf("the window speaks version %d", xgb.Get32(got.Value))
	}
	return nil
}

// carry goes through the steps of the protocol.
func (d *drag) carry(x, y int) error {
	at, err := xproto.TranslateCoordinates(d.conn, d.target, xproto.Setup(d.conn).DefaultScreen(d.conn).Root, int16(x), int16(y)).Reply()
	if err != nil {
		return err
	}
	place := uint32(uint16(at.DstX))<<16 | uint32(uint16(at.DstY))
	if err := d.tell("XdndEnter", xdndVersion<<24, uint32(d.atoms[uriList]), 0, 0); err != nil {
		return err
	}
	if err := d.tell("XdndPosition", 0, place, uint32(d.began), uint32(d.atoms["XdndActionCopy"])); err != nil {
		return err
	}
	if said, err := d.answer("XdndStatus"); err != nil {
		return err
	} else if said[1]&1 == 0 {
		return errors.New("the window does not want it")
	}
	if err := d.tell("XdndDrop", 0, uint32(d.began), 0, 0); err != nil {
		return err
	}
	said, err := d.answer("XdndFinished")
	// The protocol has one bit for "taken". GLFW 3.3 writes the number of bytes it was
	// handed, so that only a nought is certain to mean that it took nothing.
	if err == nil && said[1] == 0 {
		err = errors.New("the window did not take it")
	}
	return err
}

// tell sends a message of the protocol to the target; the first word of each is the
// source.
func (d *drag) tell(message string, words ...uint32) error {
	e := xproto.ClientMessageEvent{
		Format: 32, Window: d.target, Type: d.atoms[message],
		Data: xproto.ClientMessageDataUnionData32New(append([]uint32{uint32(d.source)}, words...)),
	}
	if err := xproto.SendEventChecked(d.conn, false, d.target, xproto.EventMaskNoEvent, string(e.Bytes())).Check(); err != nil {
		return fmt.Errorf("sending %s: %w", message, err)
	}
	return nil
}

// answer waits for a message of the target, and hands over the files when it asks for
// them.
func (d *drag) answer(message string) ([]uint32, error) {
	for {
		switch e, err := d.event(); e := e.(type) {
		case nil:
			return nil, fmt.Errorf("waiting for %s: %w", message, err)
		case xproto.SelectionRequestEvent:
			if err := d.handOver(e); err != nil {
				return nil, err
			}
		case xproto.ClientMessageEvent:
			if e.Type == d.atoms[message] {
				return e.Data.Data32, nil
			}
		}
	}
}

// handOver writes the files to the property that the target asks for, and says so; a
// request for anything else is refused.
func (d *drag) handOver(r xproto.SelectionRequestEvent) error {
	done := xproto.SelectionNotifyEvent{Time: r.Time, Requestor: r.Requestor, Selection: r.Selection, Target: r.Target}
	if r.Target == d.atoms[uriList] {
		done.Property = r.Property
		err := xproto.ChangePropertyChecked(d.conn, xproto.PropModeReplace, r.Requestor, r.Property, r.Target,
			8, uint32(len(d.uris)), []byte(d.uris)).Check()
		if err != nil {
			return fmt.Errorf("handing the files over: %w", err)
		}
	}
	return xproto.SendEventChecked(d.conn, false, r.Requestor, xproto.EventMaskNoEvent, string(done.Bytes())).Check()
}

// event waits for the next event; without one, there is an error.
func (d *drag) event() (xgb.Event, error) {
	switch e, err := d.conn.WaitForEvent(); {
	case err != nil:
		return nil, err
	case e == nil:
		return nil, errors.New("nothing came")
	default:
		return e, nil
	}
}
