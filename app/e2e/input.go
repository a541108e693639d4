package e2e

import (
	"fmt"
	"image"
	"time"
)

// Kinds of input event the display can be made to believe in.
const (
	keyPress, keyRelease       = 2, 3
	buttonPress, buttonRelease = 4, 5
	motion                     = 6
)

// Button is a mouse button; the wheel counts as two.
type Button byte

// The buttons as X numbers them.
const (
	Left Button = iota + 1
	Middle
	Right
	WheelUp
	WheelDown
)

// Keysym is a key by what it writes, as X numbers them: Latin-1 characters are
// their own number.
type Keysym uint32

// Keys that write nothing.
const (
	Backspace  Keysym = 0xff08
	Tab        Keysym = 0xff09
	Return     Keysym = 0xff0d
	Escape     Keysym = 0xff1b
	Home       Keysym = 0xff50
	ArrowLeft  Keysym = 0xff51
	ArrowUp    Keysym = 0xff52
	ArrowRight Keysym = 0xff53
	ArrowDown  Keysym = 0xff54
	PageUp     Keysym = 0xff55
	PageDown   Keysym = 0xff56
	End        Keysym = 0xff57
	F1         Keysym = 0xffbe
	F11        Keysym = 0xffc8
	Shift      Keysym = 0xffe1
	Control    Keysym = 0xffe3
	Alt        Keysym = 0xffe9
	Delete     Keysym = 0xffff
)

func (d *Display) fake(kind, detail byte, at image.Point) error {
	const fakeInput = 2
	return d.wire.send(d.wire.xtest, fakeInput,
		[]byte{kind, detail, 0, 0}, u32(0, d.wire.root, 0, 0), i16(at.X, at.Y), make([]byte, 8))
}

// Move puts the pointer at a point of the window.
func (w Window) Move(to image.Point) error {
	at, err := w.Bounds()
	if err != nil {
		return err
	}
	if err := w.on.fake(motion, 0, to.Add(at.Min)); err != nil {
		return err
	}
	return w.on.wire.settle()
}

// Press holds a mouse button down; Release lets it go.
func (w Window) Press(b Button) error { return w.button(buttonPress, b) }

// Release lets a mouse button go.
func (w Window) Release(b Button) error { return w.button(buttonRelease, b) }

func (w Window) button(kind byte, b Button) error {
	if err := w.on.fake(kind, byte(b), image.Point{}); err != nil {
		return err
	}
	return w.on.wire.settle()
}

// pulse is the time between two pointer or key events: a hand is slower than
// the program's picture.
const pulse = time.Second / 60

// Click presses and releases a button at a point.
func (w Window) Click(b Button, at image.Point) error {
	if err := w.Move(at); err != nil {
		return err
	}
	time.Sleep(pulse)
	if err := w.Press(b); err != nil {
		return err
	}
	time.Sleep(pulse)
	return w.Release(b)
}

// Drag holds a button from the first point to the last, through all between,
// one point per sixtieth of a second.
func (w Window) Drag(b Button, points ...image.Point) error {
	if len(points) == 0 {
		return nil
	}
	if err := w.Move(points[0]); err != nil {
		return err
	}
	if err := w.Press(b); err != nil {
		return err
	}
	at, err := w.Bounds()
	if err != nil {
		return err
	}
	tick := time.NewTicker(pulse)
	defer tick.Stop()
	for _, p := range points { // sent like a hand: the display is not waited for
		<-tick.C
		if err := w.on.fake(motion, 0, p.Add(at.Min)); err != nil {
			return err
		}
	}
	<-tick.C
	return w.Release(b)
}

// Line returns points from one to another in equal steps, both ends included.
func Line(from, to image.Point, steps int) []image.Point {
	points := make([]image.Point, 0, steps+1)
	for i := range steps + 1 {
		points = append(points, from.Add(to.Sub(from).Mul(i).Div(max(steps, 1))))
	}
	return points
}

// Key strikes a key while the held keys are down.
func (w Window) Key(k Keysym, held ...Keysym) error {
	code, shifted, err := w.on.wire.keycode(k)
	if err != nil {
		return err
	}
	if shifted {
		held = append([]Keysym{Shift}, held...)
	}
	var down []byte
	for _, h := range held {
		c, _, err := w.on.wire.keycode(h)
		if err != nil {
			return err
		}
		down = append(down, c)
	}
	down = append(down, code)
	for _, c := range down {
		if err := w.on.fake(keyPress, c, image.Point{}); err != nil {
			return err
		}
	}
	time.Sleep(pulse)
	for i := len(down) - 1; i >= 0; i-- {
		if err := w.on.fake(keyRelease, down[i], image.Point{}); err != nil {
			return err
		}
	}
	return w.on.wire.settle()
}

// Type strikes the keys of a text of Latin-1 characters.
func (w Window) Type(text string) error {
	for _, r := range text {
		if err := w.Key(Keysym(r)); err != nil {
			return err
		}
		time.Sleep(pulse)
	}
	return nil
}

// keycode finds the key that writes the symbol, alone or with Shift.
func (w *wire) keycode(k Keysym) (code byte, shifted bool, err error) {
	count := w.maxKey - w.minKey + 1
	reply, err := w.ask(opGetKeyboardMapping, 0, []byte{w.minKey, count, 0, 0})
	if err != nil {
		return 0, false, err
	}
	per, symbols := int(reply[1]), reply[32:]
	for level := range min(per, 2) {
		for i := range int(count) {
			if Keysym(order.Uint32(symbols[4*(i*per+level):])) == k {
				return w.minKey + byte(i), level == 1, nil
			}
		}
	}
	return 0, false, fmt.Errorf("no key writes %#x", uint32(k))
}
