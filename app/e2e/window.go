package e2e

import (
	"fmt"
	"image"
	"strings"
	"time"
)

// Window is a window on a display; its points are pixels from its own upper
// left corner.
type Window struct {
	on *Display
	id uint32
}

// Window waits for a visible window whose title contains the words.
func (d *Display) Window(title string, wait time.Duration) (Window, error) {
	var seen []string
	for end := time.Now().Add(wait); time.Now().Before(end); time.Sleep(20 * time.Millisecond) {
		windows, err := d.windows()
		if err != nil {
			return Window{}, err
		}
		seen = seen[:0]
		for _, w := range windows {
			name, err := w.Title()
			if err != nil {
				continue // it closed meanwhile
			}
			if strings.Contains(name, title) {
				return w, nil
			}
			seen = append(seen, name)
		}
	}
	return Window{}, fmt.Errorf("no window titled %q within %v; visible: %q", title, wait, seen)
}

// windows returns the visible windows, top-level ones only: there is no window
// manager that would put frames round them.
func (d *Display) windows() ([]Window, error) {
	reply, err := d.wire.ask(opQueryTree, 0, u32(d.wire.root))
	if err != nil {
		return nil, err
	}
	var visible []Window
	for i := range int(order.Uint16(reply[16:])) {
		w := Window{d, order.Uint32(reply[32+4*i:])}
		const mapState, viewable = 26, 2
		if a, err := d.wire.ask(opGetWindowAttributes, 0, u32(w.id)); err == nil && a[mapState] == viewable {
			visible = append(visible, w)
		}
	}
	return visible, nil
}

// Title returns the window's title.
func (w Window) Title() (string, error) {
	for _, property := range []string{"_NET_WM_NAME", "WM_NAME"} {
		atom, err := w.on.wire.atom(property)
		if err != nil {
			return "", err
		}
		reply, err := w.on.wire.ask(opGetProperty, 0, u32(w.id, atom, 0, 0, 256))
		if err != nil {
			return "", err
		}
		if n := int(order.Uint32(reply[16:])); n > 0 && reply[1] == 8 {
			return string(reply[32 : 32+n]), nil
		}
	}
	return "", nil
}

// Bounds returns where the window lies on the screen.
func (w Window) Bounds() (image.Rectangle, error) {
	reply, err := w.on.wire.ask(opGetGeometry, 0, u32(w.id))
	if err != nil {
		return image.Rectangle{}, err
	}
	x, y := int(int16(order.Uint16(reply[12:]))), int(int16(order.Uint16(reply[14:])))
	return image.Rect(x, y, x+int(order.Uint16(reply[16:])), y+int(order.Uint16(reply[18:]))), nil
}

// Picture returns what a rectangle of the window shows; an empty rectangle
// means all of it.
func (w Window) Picture(r image.Rectangle) (*image.RGBA, error) {
	at, err := w.Bounds()
	if err != nil {
		return nil, err
	}
	if r.Empty() {
		return w.on.Picture(at)
	}
	return w.on.Picture(r.Add(at.Min).Intersect(at))
}

// Resize asks for another size and waits until the display has given it.
func (w Window) Resize(width, height int) error {
	const masks = 0x4 | 0x8 // width, height
	if err := w.on.wire.send(opConfigureWindow, 0, u32(w.id), u16(masks), u16(0), u32(uint32(width), uint32(height))); err != nil {
		return err
	}
	return w.on.wire.settle()
}

// Focus gives the window the keyboard.
func (w Window) Focus() error {
	const toParent = 2
	if err := w.on.wire.send(opSetInputFocus, toParent, u32(w.id, 0)); err != nil {
		return err
	}
	return w.on.wire.settle()
}

// Close asks the program to close the window, as the frame's button does.
func (w Window) Close() error {
	protocols, err := w.on.wire.atom("WM_PROTOCOLS")
	if err != nil {
		return err
	}
	deletion, err := w.on.wire.atom("WM_DELETE_WINDOW")
	if err != nil {
		return err
	}
	const clientMessage, format32 = 33, 32
	message := append([]byte{clientMessage, format32, 0, 0}, u32(w.id, protocols, deletion, 0, 0, 0, 0)...)
	if err := w.on.wire.send(opSendEvent, 0, u32(w.id, 0), message); err != nil {
		return err
	}
	return w.on.wire.settle()
}
