package figure

import (
	"encoding/binary"
	"errors"
	"sort"

	"golang.org/x/image/font/sfnt"
)

var errFont = errors.New("the font file is damaged")

// subset returns the TrueType font with the outlines of the letters in used
// alone. Letters keep their numbers, so all other tables stay as they are.
// Table layout: OpenType specification 1.9, "The OpenType Font File".
func subset(font []byte, used map[rune]bool) ([]byte, error) {
	tables, err := readTables(font)
	if err != nil {
		return nil, err
	}
	keep, err := lettersKept(font, used)
	if err != nil {
		return nil, err
	}
	if err := tables.trimOutlines(keep); err != nil {
		return nil, err
	}
	for _, tag := range []string{"DSIG", "GPOS", "GSUB", "GDEF", "kern", "gasp", "hdmx", "VDMX", "LTSH", "meta"} {
		delete(tables, tag)
	}
	if post := tables["post"]; len(post) > 32 { // version 3: no names of letters
		tables["post"] = append([]byte{0, 3, 0, 0}, post[4:32]...)
	}
	return tables.file(), nil
}

// tables holds the parts of a font file under their tags.
type tables map[string][]byte

func readTables(font []byte) (tables, error) {
	if len(font) < 12 {
		return nil, errFont
	}
	t := tables{}
	n := int(binary.BigEndian.Uint16(font[4:]))
	for i := range n {
		if len(font) < 12+16*(i+1) {
			return nil, errFont
		}
		rec := font[12+16*i:]
		at, size := int(binary.BigEndian.Uint32(rec[8:])), int(binary.BigEndian.Uint32(rec[12:]))
		if at > len(font) || size > len(font)-at {
			return nil, errFont
		}
		t[string(rec[:4])] = font[at : at+size]
	}
	for _, tag := range []string{"head", "loca", "glyf", "maxp"} {
		if t[tag] == nil {
			return nil, errFont
		}
	}
	if len(t["head"]) < 54 || len(t["maxp"]) < 6 {
		return nil, errFont
	}
	return t, nil
}

// lettersKept returns the glyph numbers of the letters used and of glyph 0.
func lettersKept(font []byte, used map[rune]bool) (map[int]bool, error) {
	f, err := sfnt.Parse(font)
	if err != nil {
		return nil, err
	}
	keep := map[int]bool{0: true}
	var buf sfnt.Buffer
	for r := range used {
		g, err := f.GlyphIndex(&buf, r)
		if err != nil {
			return nil, err
		}
		keep[int(g)] = true
	}
	return keep, nil
}

// trimOutlines empties the outlines not in keep; parts of composite letters are
// kept with them.
func (t tables) trimOutlines(keep map[int]bool) error {
	at, err := t.offsets()
	if err != nil {
		return err
	}
	glyf := t["glyf"]
	queue := make([]int, 0, len(keep))
	for g := range keep {
		queue = append(queue, g)
	}
	for len(queue) > 0 {
		g := queue[0]
		queue = queue[1:]
		if g+1 >= len(at) {
			return errFont
		}
		for _, part := range composites(glyf[at[g]:at[g+1]]) {
			if !keep[part] {
				keep[part] = true
				queue = append(queue, part)
			}
		}
	}
	var out, loca []byte
	for g := range len(at) - 1 {
		loca = binary.BigEndian.AppendUint32(loca, uint32(len(out)))
		if keep[g] {
			out = append(out, glyf[at[g]:at[g+1]]...)
			for len(out)%4 != 0 {
				out = append(out, 0)
			}
		}
	}
	loca = binary.BigEndian.AppendUint32(loca, uint32(len(out)))
	head := append([]byte(nil), t["head"]...)
	binary.BigEndian.PutUint16(head[50:], 1) // loca holds 32 bits each
	t["glyf"], t["loca"], t["head"] = out, loca, head
	return nil
}

// offsets returns where each outline begins in glyf, and where the last ends.
func (t tables) offsets() ([]int, error) {
	n := int(binary.BigEndian.Uint16(t["maxp"][4:])) + 1
	long := binary.BigEndian.Uint16(t["head"][50:]) != 0
	loca, glyf := t["loca"], t["glyf"]
	at := make([]int, n)
	for i := range at {
		switch {
		case long && len(loca) >= 4*(i+1):
			at[i] = int(binary.BigEndian.Uint32(loca[4*i:]))
		case !long && len(loca) >= 2*(i+1):
			at[i] = 2 * int(binary.BigEndian.Uint16(loca[2*i:]))
		default:
			return nil, errFont
		}
		if at[i] > len(glyf) || i > 0 && at[i] < at[i-1] {
			return nil, errFont
		}
	}
	return at, nil
}

// composites returns the numbers of the letters that an outline is made of.
func composites(outline []byte) []int {
	if len(outline) < 10 || int16(binary.BigEndian.Uint16(outline)) >= 0 {
		return nil
	}
	var parts []int
	for at := 10; at+4 <= len(outline); {
		flags := binary.BigEndian.Uint16(outline[at:])
		parts = append(parts, int(binary.BigEndian.Uint16(outline[at+2:])))
		at += 6
		if flags&0x1 != 0 { // arguments are words
			at += 2
		}
		switch {
		case flags&0x8 != 0: // one scale
			at += 2
		case flags&0x40 != 0: // two scales
			at += 4
		case flags&0x80 != 0: // a matrix
			at += 8
		}
		if flags&0x20 == 0 { // no more parts
			break
		}
	}
	return parts
}

// file returns the tables as a font file, in the order of their tags.
func (t tables) file() []byte {
	tags := make([]string, 0, len(t))
	for tag := range t {
		tags = append(tags, tag)
	}
	sort.Strings(tags)
	n := len(tags)
	log := 0
	for 2<<log <= n {
		log++
	}
	out := []byte{0, 1, 0, 0}
	for _, v := range []int{n, 16 << log, log, 16*n - 16<<log} {
		out = binary.BigEndian.AppendUint16(out, uint16(v))
	}
	head := append([]byte(nil), t["head"]...)
	binary.BigEndian.PutUint32(head[8:], 0) // the checksum of the whole, below
	at := 12 + 16*n
	var body []byte
	headAt := 0
	for _, tag := range tags {
		data := t[tag]
		if tag == "head" {
			data, headAt = head, at+len(body)
		}
		out = append(out, tag...)
		out = binary.BigEndian.AppendUint32(out, checksum(data))
		out = binary.BigEndian.AppendUint32(out, uint32(at+len(body)))
		out = binary.BigEndian.AppendUint32(out, uint32(len(data)))
		body = append(body, data...)
		for len(body)%4 != 0 {
			body = append(body, 0)
		}
	}
	out = append(out, body...)
	binary.BigEndian.PutUint32(out[headAt+8:], 0xB1B0AFBA-checksum(out))
	return out
}

func checksum(data []byte) uint32 {
	var sum uint32
	for i := 0; i < len(data); i += 4 {
		var word [4]byte
		copy(word[:], data[i:])
		sum += binary.BigEndian.Uint32(word[:])
	}
	return sum
}
