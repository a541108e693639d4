// Command gen makes the stored meshes of the bones from descriptions of their
// form. They are illustrative: of no person, from no scan, not to be measured
// on. It is run by go generate in package assets.
package main

import (
	"flag"
	"fmt"
	"log"
	"os"
	"path/filepath"

	"gonum.org/v1/gonum/spatial/r3"
)

// bone is a body to be stored.
type bone struct {
	name      string
	field     field
	lo, hi    r3.Vec
	triangles int
}

// bones are what the program needs: the femur cut for a stem, the femur with
// its own neck for a resurfacing, and the half pelvis; each also small, for
// pictures in which several joints stand side by side.
func bones() []bone {
	lo, hi := at(-62, -458, -34), at(46, 22, 92)
	low, high := at(-116, -112, -98), at(62, 146, 66)
	return []bone{
		{"femur-cut", femur(33), lo, hi, 3800},
		{"femur-neck", femur(8), lo, hi, 4000},
		{"hemipelvis", hemipelvis(), low, high, 5400},
		{"femur-cut-small", femur(33), lo, hi, 1300},
		{"femur-neck-small", femur(8), lo, hi, 1400},
		{"hemipelvis-small", hemipelvis(), low, high, 2000},
	}
}

func main() {
	log.SetFlags(0)
	dir := flag.String("dir", ".", "folder to write to")
	step := flag.Float64("step", 1.8, "grid step in mm")
	only := flag.String("only", "", "make this mesh alone")
	flag.Parse()
	for _, b := range bones() {
		if *only != "" && *only != b.name {
			continue
		}
		m := b.make(*step)
		data := m.encode()
		if err := os.WriteFile(filepath.Join(*dir, b.name+".mesh"), data, 0o644); err != nil {
			log.Fatal(err)
		}
		fmt.Printf("%s: %d triangles, %d vertices, %d bytes\n", b.name, len(m.corners), len(m.points), len(data))
	}
}

// make returns the finished mesh of b from a grid of the given step.
func (b bone) make(step float64) finished {
	s := extract(b.field, b.lo, b.hi, step)
	settle(s, b.field)
	s = thin(s, b.triangles)
	settle(s, b.field)
	return finish(s, b.field)
}
