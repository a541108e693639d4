package e2e

import (
	"encoding/binary"
	"errors"
	"fmt"
	"io"
	"net"
	"time"
)

// patience bounds each exchange with the display.
const patience = 10 * time.Second

// wire is a connection to an X server, version 11 of the protocol, little
// endian, one request at a time. Source: X Window System Protocol, X Version
// 11, and the XTEST extension protocol 2.2 (X.Org).
type wire struct {
	conn     net.Conn
	sequence uint16
	root     uint32
	width    int
	height   int
	minKey   byte
	maxKey   byte
	atoms    map[string]uint32
	xtest    byte // major opcode of the XTEST extension
}

// Opcodes of the core protocol that are used here.
const (
	opGetWindowAttributes = 3
	opConfigureWindow     = 12
	opGetGeometry         = 14
	opQueryTree           = 15
	opInternAtom          = 16
	opGetProperty         = 20
	opSendEvent           = 25
	opSetInputFocus       = 42
	opGetInputFocus       = 43
	opGetImage            = 73
	opQueryExtension      = 98
	opGetKeyboardMapping  = 101
)

var order = binary.LittleEndian

// dial connects to the display of this number on this machine.
func dial(number int) (*wire, error) {
	conn, err := net.DialTimeout("unix", fmt.Sprintf("/tmp/.X11-unix/X%d", number), patience)
	if err != nil {
		return nil, err
	}
	w := &wire{conn: conn, atoms: map[string]uint32{}}
	if err := w.greet(); err != nil {
		return nil, errors.Join(err, conn.Close())
	}
	return w, nil
}

// greet opens the conversation and reads the screen's size and root window.
func (w *wire) greet() error {
	w.conn.SetDeadline(time.Now().Add(patience))
	if _, err := w.conn.Write([]byte{'l', 0, 11, 0, 0, 0, 0, 0, 0, 0, 0, 0}); err != nil {
		return err
	}
	head := make([]byte, 8)
	if _, err := io.ReadFull(w.conn, head); err != nil {
		return err
	}
	body := make([]byte, 4*int(order.Uint16(head[6:])))
	if _, err := io.ReadFull(w.conn, body); err != nil {
		return err
	}
	if head[0] != 1 {
		return fmt.Errorf("the display refuses the connection: %.*s", int(head[1]), body)
	}
	vendor, formats := int(order.Uint16(body[16:])), int(body[21])
	screen := body[32+padded(vendor)+8*formats:]
	w.minKey, w.maxKey = body[26], body[27]
	w.root = order.Uint32(screen)
	w.width, w.height = int(order.Uint16(screen[20:])), int(order.Uint16(screen[22:]))
	return w.findXTest()
}

func (w *wire) findXTest() error {
	const name = "XTEST"
	reply, err := w.ask(opQueryExtension, 0, u16(uint16(len(name))), u16(0), []byte(name))
	if err != nil {
		return err
	}
	if reply[8] == 0 {
		return errors.New("the display lacks the XTEST extension")
	}
	w.xtest = reply[9]
	return nil
}

// send writes one request: its opcode, the byte beside it, and its fields,
// padded to four bytes.
func (w *wire) send(op, detail byte, fields ...[]byte) error {
	request := []byte{op, detail, 0, 0}
	for _, f := range fields {
		request = append(request, f...)
	}
	request = append(request, make([]byte, padded(len(request))-len(request))...)
	order.PutUint16(request[2:], uint16(len(request)/4))
	w.sequence++
	w.conn.SetDeadline(time.Now().Add(patience))
	_, err := w.conn.Write(request)
	return err
}

// ask sends a request and returns its reply, header included. An error of an
// earlier request surfaces here too.
func (w *wire) ask(op, detail byte, fields ...[]byte) ([]byte, error) {
	if err := w.send(op, detail, fields...); err != nil {
		return nil, err
	}
	for {
		packet := make([]byte, 32)
		if _, err := io.ReadFull(w.conn, packet); err != nil {
			return nil, fmt.Errorf("the display does not answer request %d: %w", op, err)
		}
		switch {
		case packet[0] == 0:
			return nil, fmt.Errorf("the display answers request %d with error %d", packet[10], packet[1])
		case packet[0] != 1:
			continue // an event
		}
		reply := append(packet, make([]byte, 4*int(order.Uint32(packet[4:])))...)
		if _, err := io.ReadFull(w.conn, reply[32:]); err != nil {
			return nil, err
		}
		if order.Uint16(reply[2:]) == w.sequence {
			return reply, nil
		}
	}
}

// settle waits until the display has done all it was sent.
func (w *wire) settle() error {
	_, err := w.ask(opGetInputFocus, 0)
	return err
}

// atom returns the number the display gives a name.
func (w *wire) atom(name string) (uint32, error) {
	if a, ok := w.atoms[name]; ok {
		return a, nil
	}
	reply, err := w.ask(opInternAtom, 0, u16(uint16(len(name))), u16(0), []byte(name))
	if err != nil {
		return 0, err
	}
	w.atoms[name] = order.Uint32(reply[8:])
	return w.atoms[name], nil
}

func padded(n int) int { return (n + 3) &^ 3 }

func u16(v uint16) []byte { return order.AppendUint16(nil, v) }

func u32(values ...uint32) []byte {
	var b []byte
	for _, v := range values {
		b = order.AppendUint32(b, v)
	}
	return b
}

func i16(values ...int) []byte {
	var b []byte
	for _, v := range values {
		b = order.AppendUint16(b, uint16(int16(v)))
	}
	return b
}
