package e2e

import (
	"bufio"
	"errors"
	"fmt"
	"image"
	"os"
	"os/exec"
	"strconv"
	"strings"
	"time"
)

// Display is a private X server of its own size without a window manager.
type Display struct {
	Number int
	server *exec.Cmd
	wire   *wire
}

// OpenDisplay starts Xvfb with one screen of this size in pixels, 24 bits
// deep, under a number it chooses itself.
func OpenDisplay(width, height int) (*Display, error) {
	reading, writing, err := os.Pipe()
	if err != nil {
		return nil, err
	}
	defer reading.Close()
	server := exec.Command("Xvfb", "-displayfd", "3", "-screen", "0", fmt.Sprintf("%dx%dx24", width, height), "-nolisten", "tcp", "-noreset")
	server.ExtraFiles = []*os.File{writing}
	err = server.Start()
	writing.Close()
	if err != nil {
		return nil, fmt.Errorf("starting Xvfb: %w", err)
	}
	d := &Display{server: server}
	if d.Number, err = numberFrom(reading); err == nil {
		d.wire, err = dial(d.Number)
	}
	if err != nil {
		return nil, errors.Join(fmt.Errorf("connecting to Xvfb: %w", err), d.Close())
	}
	return d, nil
}

// numberFrom reads the display's number, which Xvfb writes when it is ready.
func numberFrom(pipe *os.File) (int, error) {
	if err := pipe.SetReadDeadline(time.Now().Add(patience)); err != nil {
		return 0, err
	}
	line, err := bufio.NewReader(pipe).ReadString('\n')
	if err != nil {
		return 0, err
	}
	return strconv.Atoi(strings.TrimSpace(line))
}

// Name is the display's name for the DISPLAY variable.
func (d *Display) Name() string { return fmt.Sprintf(":%d", d.Number) }

// Close ends the server, and with it whatever still shows a window on it.
func (d *Display) Close() error {
	if d.wire != nil {
		d.wire.conn.Close()
	}
	if err := d.server.Process.Kill(); err != nil && !errors.Is(err, os.ErrProcessDone) {
		return err
	}
	d.server.Wait()
	return nil
}

// Picture returns what a rectangle of the screen shows.
func (d *Display) Picture(r image.Rectangle) (*image.RGBA, error) {
	r = r.Intersect(image.Rect(0, 0, d.wire.width, d.wire.height))
	if r.Empty() {
		return nil, fmt.Errorf("the rectangle %v lies off the screen", r)
	}
	const zPixmap, allPlanes = 2, 0xffffffff
	reply, err := d.wire.ask(opGetImage, zPixmap, u32(d.wire.root), i16(r.Min.X, r.Min.Y, r.Dx(), r.Dy()), u32(allPlanes))
	if err != nil {
		return nil, err
	}
	data := reply[32:]
	if len(data) < 4*r.Dx()*r.Dy() {
		return nil, fmt.Errorf("the display sent %d bytes for %v", len(data), r)
	}
	picture := image.NewRGBA(image.Rect(0, 0, r.Dx(), r.Dy()))
	for i := 0; i < len(picture.Pix); i += 4 {
		picture.Pix[i], picture.Pix[i+1], picture.Pix[i+2], picture.Pix[i+3] = data[i+2], data[i+1], data[i], 0xff
	}
	return picture, nil
}

// Changed returns the share of pixels, 0 to 1, in which two pictures of one
// size differ by more than 8 of 255 in some channel; pictures of different
// size differ altogether.
func Changed(a, b *image.RGBA) float64 {
	if a.Bounds() != b.Bounds() || len(a.Pix) == 0 {
		return 1
	}
	var n int
	for i := 0; i < len(a.Pix); i += 4 {
		if apart(a.Pix[i], b.Pix[i]) || apart(a.Pix[i+1], b.Pix[i+1]) || apart(a.Pix[i+2], b.Pix[i+2]) {
			n++
		}
	}
	return float64(n) / float64(len(a.Pix)/4)
}

func apart(a, b uint8) bool { return max(a, b)-min(a, b) > 8 }
