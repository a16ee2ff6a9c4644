package main

import (
	"context"
	"fmt"
	"image"
	"image/png"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"github.com/jezek/xgb"
	"github.com/jezek/xgb/xproto"
)

// A screen is a virtual display of its own, with the keys and the mouse on it.
type screen struct {
	ctx     context.Context // the flow's: what runs on the display ends with it
	display string
	x, wm   *exec.Cmd
	conn    *xgb.Conn
	shots   string // the folder that pictures go to
	taken   int
	started []*program
	// keyed and clicked count what a person would have done.
	keyed, clicked int
}

// startScreen starts Xvfb on a free display and a window manager on it, with room for
// a window of so many pixels and its frame.
func startScreen(ctx context.Context, width, height int, shots string) *screen {
	r, w, err := os.Pipe()
	check(err)
	const frame = 60 // of the window manager's
	size := fmt.Sprintf("%dx%dx24", width+frame, height+frame)
	x := exec.CommandContext(ctx, "Xvfb", "-displayfd", "3", "-screen", "0", size, "-nolisten", "tcp")
	x.ExtraFiles = []*os.File{w}
	check(x.Start())
	_ = w.Close()
	var n int
	if _, err := fmt.Fscan(r, &n); err != nil {
		panic(fmt.Errorf("asking Xvfb for its display: %w", err))
	}
	s := &screen{ctx: ctx, display: ":" + strconv.Itoa(n), x: x, shots: shots}
	err = attempt(func() {
		s.conn = must(xgb.NewConnDisplay(s.display))
		s.wm = s.command("openbox")
		check(s.wm.Start())
	})
	if err != nil {
		s.stop()
		panic(fmt.Errorf("preparing the display: %w", err))
	}
	return s
}

func (s *screen) env(more ...string) []string {
	return append(append(os.Environ(), "DISPLAY="+s.display, "LANG=en_GB.UTF-8", "LC_ALL=en_GB.UTF-8", "LIBGL_ALWAYS_SOFTWARE=1"), more...)
}

// command prepares a command on the display. Ended with its flow, it is not waited for
// although what it started itself may hold its output open.
func (s *screen) command(name string, args ...string) *exec.Cmd {
	c := exec.CommandContext(s.ctx, name, args...)
	c.Env = s.env()
	c.WaitDelay = 10 * time.Second
	return c
}

// stop ends every program on the display, and takes the display away.
func (s *screen) stop() {
	for _, p := range s.started {
		_ = attempt(p.kill)
	}
	s.close()
}

// close takes the display away.
func (s *screen) close() {
	if s.conn != nil {
		s.conn.Close()
	}
	for _, c := range []*exec.Cmd{s.wm, s.x} {
		if c != nil && c.Process != nil {
			_ = c.Process.Kill()
			_ = c.Wait()
		}
	}
}

func (s *screen) xdotool(args ...string) {
	c := s.command("xdotool", args...)
	c.Env = append(c.Env, "LC_ALL=C.UTF-8") // or it types no Ü where the computer has no other locale
	if out, err := c.CombinedOutput(); err != nil {
		panic(fmt.Errorf("xdotool %s: %w: %s", strings.Join(args, " "), err, out))
	}
}

// key presses a key, named as xdotool names it: "Return", "ctrl+k".
func (s *screen) key(names ...string) {
	for _, n := range names {
		s.keyed++
		s.xdotool("key", "--clearmodifiers", n)
		pause()
	}
}

// typeText types text key by key.
func (s *screen) typeText(text string) {
	defer pause()
	s.keyed += utf8.RuneCountInString(text)
	s.xdotool("type", "--delay", "12", text)
}

// ask runs xdotool for what it answers.
func (s *screen) ask(args ...string) string {
	out, err := s.command("xdotool", args...).Output()
	if err != nil {
		panic(fmt.Errorf("xdotool %s: %w", strings.Join(args, " "), err))
	}
	return strings.TrimSpace(string(out))
}

// copied gives the text that is on the clipboard.
func (s *screen) copied() string {
	return string(must(s.command("xclip", "-selection", "clipboard", "-out").Output()))
}

// look gives what a window shows. All of it has to be on the display.
func (s *screen) look(window string) *image.RGBA {
	at := xproto.Drawable(must(strconv.ParseUint(window, 10, 32)))
	size := must(xproto.GetGeometry(s.conn, at).Reply())
	got := must(xproto.GetImage(s.conn, xproto.ImageFormatZPixmap, at, 0, 0, size.Width, size.Height, math.MaxUint32).Reply())
	// With the depth of 24 that the display was started with, a pixel is blue, green, red and a byte of nothing.
	img := image.NewRGBA(image.Rect(0, 0, int(size.Width), int(size.Height)))
	for i := 0; i+3 < min(len(got.Data), len(img.Pix)); i += 4 {
		img.Pix[i], img.Pix[i+1], img.Pix[i+2], img.Pix[i+3] = got.Data[i+2], got.Data[i+1], got.Data[i], 0xff
	}
	return img
}

// take takes a picture of a window and keeps it under a name.
func (s *screen) take(name, window string) image.Image {
	s.taken++
	img := s.look(window)
	writePNG(filepath.Join(s.shots, fmt.Sprintf("%03d-%s.png", s.taken, name)), img)
	return img
}

func writePNG(path string, img image.Image) {
	f := must(os.Create(path))
	check(png.Encode(f, img))
	check(f.Close())
}

// pause gives the window the time of a few frames between two gestures, as a
// person does.
func pause() { time.Sleep(120 * time.Millisecond) }
