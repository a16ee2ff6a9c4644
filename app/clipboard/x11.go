//go:build linux || freebsd || openbsd || netbsd

package clipboard

import (
	"context"
	"fmt"
	"os"
	"sync"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// Pictures says whether pictures can be read from the clipboard here: not from behind
// Weston, which hands X11 programs nothing but text (as seen with its version 10).
var Pictures = sync.OnceValue(func() bool { return windowManager() != "Weston WM" })

// windowManager gives the name of the window manager, as the Extended Window Manager Hints
// have it (_NET_SUPPORTING_WM_CHECK); empty where it does not say.
func windowManager() string {
	if os.Getenv("DISPLAY") == "" {
		return ""
	}
	conn, err := xgb.NewConn()
	if err != nil {
		return ""
	}
	defer conn.Close()
	property := func(of xproto.Window, name string) []byte {
		atom, err := xproto.InternAtom(conn, true, uint16(len(name)), name).Reply()
		if err != nil || atom.Atom == xproto.AtomNone {
			return nil
		}
		got, err := xproto.GetProperty(conn, false, of, atom.Atom, xproto.GetPropertyTypeAny, 0, 64).Reply()
		if err != nil {
			return nil
		}
		return got.Value
	}
	window := property(xproto.Setup(conn).DefaultScreen(conn).Root, "_NET_SUPPORTING_WM_CHECK")
	if len(window) != 4 {
		return ""
	}
	return string(property(xproto.Window(xgb.Get32(window)), "_NET_WM_NAME"))
}

// asker asks the owner of the clipboard through a window of its own that nobody sees.
type asker struct {
	conn   *xgb.Conn
	window xproto.Window
	atoms  map[string]xproto.Atom
}

func read(ctx context.Context, kinds []string) (string, []byte, error) {
	if os.Getenv("DISPLAY") == "" {
		return "", nil, ErrNothing
	}
	conn, err := xgb.NewConn()
	if err != nil {
		return "", nil, fmt.Errorf("asking for the clipboard: %w", err)
	}
	// Closing the connection ends what waits on it.
	stop := context.AfterFunc(ctx, conn.Close)
	defer func() {
		if stop() {
			conn.Close()
		}
	}()
	a := &asker{conn: conn}
	if err := a.begin(kinds); err != nil {
		return "", nil, fmt.Errorf("asking for the clipboard: %w", err)
	}
	kind, data, err := a.ask(kinds)
	if ctx.Err() != nil {
		return "", nil, fmt.Errorf("asking for the clipboard: %w", ctx.Err())
	}
	return kind, data, err
}

// property is where the owner puts what it is asked for.
const property = "TWINLOAF_CLIPBOARD"

func (a *asker) begin(kinds []string) error {
	a.atoms = map[string]xproto.Atom{}
	for _, name := range append([]string{"CLIPBOARD", "TARGETS", "INCR", property}, kinds...) {
		got, err := xproto.InternAtom(a.conn, false, uint16(len(name)), name).Reply()
		if err != nil {
			return err
		}
		a.atoms[name] = got.Atom
	}
	id, err := xproto.NewWindowId(a.conn)
	if err != nil {
		return err
	}
	a.window = id
	root := xproto.Setup(a.conn).DefaultScreen(a.conn).Root
	return xproto.CreateWindowChecked(a.conn, 0, id, root, 0, 0, 1, 1, 0, xproto.WindowClassInputOnly, 0,
		xproto.CwEventMask, []uint32{xproto.EventMaskPropertyChange}).Check()
}

// ask finds out which kinds there are, and takes the first that is wanted.
func (a *asker) ask(kinds []string) (string, []byte, error) {
	list, err := a.convert("TARGETS")
	if err != nil {
		return "", nil, err
	}
	has := map[xproto.Atom]bool{}
	for i := 0; i+4 <= len(list); i += 4 {
		has[xproto.Atom(xgb.Get32(list[i:]))] = true
	}
	for _, kind := range kinds {
		if !has[a.atoms[kind]] {
			continue
		}
		data, err := a.convert(kind)
		if err == nil && len(data) == 0 {
			err = ErrNothing
		}
		return kind, data, err
	}
	return "", nil, ErrNothing
}

// convert asks for the clipboard in one kind.
func (a *asker) convert(kind string) ([]byte, error) {
	xproto.ConvertSelection(a.conn, a.window, a.atoms["CLIPBOARD"], a.atoms[kind], a.atoms[property], xproto.TimeCurrentTime)
	e, err := next[xproto.SelectionNotifyEvent](a)
	switch {
	case err != nil:
		return nil, err
	case e.Property == xproto.AtomNone:
		return nil, ErrNothing
	}
	data, of, err := a.take()
	if err != nil || of != a.atoms["INCR"] {
		return data, err
	}
	return a.takeAll()
}

// next waits for the next event of a kind.
func next[E any](a *asker) (E, error) {
	for {
		ev, err := a.conn.WaitForEvent()
		switch e := any(ev).(type) {
		case E:
			return e, nil
		case nil:
			var none E
			if err != nil {
				return none, fmt.Errorf("asking for the clipboard: %w", err)
			}
			return none, ErrNothing // the connection was closed
		}
	}
}

// take gives what stands in the property, and empties it.
func (a *asker) take() ([]byte, xproto.Atom, error) {
	got, err := xproto.GetProperty(a.conn, true, a.window, a.atoms[property], xproto.GetPropertyTypeAny, 0, most/4).Reply()
	switch {
	case err != nil:
		return nil, 0, fmt.Errorf("reading the clipboard: %w", err)
	case got.BytesAfter > 0:
		return nil, 0, ErrTooLarge
	}
	return got.Value, got.Type, nil
}

// takeAll takes piece after piece, up to an empty one.
func (a *asker) takeAll() ([]byte, error) {
	var all []byte
	for {
		e, err := next[xproto.PropertyNotifyEvent](a)
		if err != nil {
			return nil, err
		}
		if e.Atom != a.atoms[property] || e.State != xproto.PropertyNewValue {
			continue
		}
		piece, _, err := a.take()
		switch {
		case err != nil:
			return nil, err
		case len(piece) == 0:
			return all, nil
		case len(all)+len(piece) > most:
			return nil, ErrTooLarge
		}
		all = append(all, piece...)
	}
}
