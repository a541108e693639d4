package e2e

import (
	"bytes"
	"image"
	"os"
	"path/filepath"
	"strconv"
	"testing"
	"time"
)

const (
	sampleEvery = 10 * time.Second
	warmUp      = 30 * time.Second
)

// TestALongSessionHoldsItsMemory works in a real window for as many minutes as
// RIMCLEAR_SOAK says, and samples what the program holds: go run ./cmd/dev soak.
func TestALongSessionHoldsItsMemory(t *testing.T) {
	minutes, err := strconv.ParseFloat(os.Getenv("RIMCLEAR_SOAK"), 64)
	if err != nil || minutes <= 0 {
		t.Skip("a long session is held only with RIMCLEAR_SOAK=minutes: go run ./cmd/dev soak")
	}
	p, w := open(t, 1280, 800)
	l := &long{consultation: &consultation{T: t, p: p, w: w}, brightnessItem: firstItem}
	l.until(time.Now().Add(warmUp))
	stop, taken := make(chan struct{}), make(chan Growth)
	go func() { taken <- l.sample(stop) }()
	closed := false
	defer func() { // what was seen is told however the session ends
		if !closed {
			if code, err := p.Ended(time.Second); err == nil {
				t.Errorf("the program has ended with exit code %d (-1: killed):\n%s", code, p.Log())
			}
		}
		close(stop)
		g := <-taken
		t.Logf("%d rounds", l.rounds)
		l.report(g)
		for _, f := range g.Faults() {
			t.Error(f)
		}
	}()
	l.until(time.Now().Add(time.Duration(minutes * float64(time.Minute))))
	closed = true
	closes(t, p, w)
}

// long is a session that goes through all views in rounds, with another sample
// case and another brightness each time.
type long struct {
	*consultation
	rounds         int
	brightnessItem int
}

// sample samples the program until it is to stop.
func (l *long) sample(stop <-chan struct{}) (g Growth) {
	start, tick := time.Now(), time.NewTicker(sampleEvery)
	defer tick.Stop()
	for {
		mb, err := Resident(l.p.PID(), "VmRSS")
		s, told := l.p.State()
		if err == nil && told == nil {
			g = append(g, Sample{At: time.Since(start), Memory: mb, Goroutines: s.Goroutines})
		}
		select {
		case <-stop:
			return g
		case <-tick.C:
		}
	}
}

// report writes the table where pictures go, or else into the log.
func (l *long) report(g Growth) {
	var table bytes.Buffer
	if err := g.Write(&table); err != nil {
		l.Error(err)
	}
	l.Logf("\n%s", table.String())
	if len(g) < 2 || g[0].Goroutines == 0 {
		l.Errorf("%d samples, %v: the program does not tell enough of itself", len(g), g)
	}
	if folder := os.Getenv("RIMCLEAR_E2E_OUT"); folder != "" {
		if err := os.MkdirAll(folder, 0o755); err != nil {
			l.Error(err)
		}
		if err := os.WriteFile(filepath.Join(folder, "soak.txt"), table.Bytes(), 0o644); err != nil {
			l.Error(err)
		}
	}
}

// until works in whole rounds until it is that time.
func (l *long) until(end time.Time) {
	l.Helper()
	for time.Now().Before(end) {
		l.explore()
		l.target()
		l.compare()
		l.explain()
		l.window()
		l.open(l.rounds % 4)
		l.rounds++
	}
}

// try does one thing of the round.
func (l *long) try(err error) {
	l.Helper()
	if err != nil {
		l.Fatal(err)
	}
}

func (l *long) press(k Keysym, held ...Keysym) {
	l.Helper()
	l.try(l.w.Key(k, held...))
	time.Sleep(100 * time.Millisecond)
}

// drag drags along a place to and fro, if the program shows it.
func (l *long) drag(name string, from, to float64) {
	l.Helper()
	r, err := state(l.T, l.p).Place(name)
	if err != nil {
		return
	}
	way := append(Line(along(r, from), along(r, to), 30), Line(along(r, to), along(r, (from+to)/2), 20)...)
	l.try(l.w.Drag(Left, way...))
}

func (l *long) turn(k Keysym, view string) {
	l.Helper()
	l.act(l.key(k, Control), view, func(s State) bool { return s.View == view && len(s.Places) > 0 })
	l.settled()
}

func (l *long) explore() {
	l.Helper()
	l.turn('e', "explore")
	for _, key := range []string{"cup_inclination_deg", "head_diameter_mm", "flexion_deg", "stem_anteversion_deg"} {
		l.drag(key, 0.4, 0.6)
	}
	l.drag("joint", 0.3, 0.7)
	joint := place(l.T, l.p, "joint")
	for _, b := range []Button{WheelUp, WheelUp, WheelDown, WheelDown} {
		l.try(l.w.Click(b, along(joint, 0.5)))
	}
	for _, k := range []Keysym{'1', '2', '3', '0', 'g', 'g', 'r'} {
		l.press(k, Control)
	}
	for range 4 {
		l.press('z', Control)
	}
	for range 2 {
		l.press('y', Control)
	}
}

// target drags the cup on the map, and has a motion shown that is clicked.
func (l *long) target() {
	l.Helper()
	l.turn('t', "target")
	l.drag("map", 0.4, 0.6)
	motions := place(l.T, l.p, "motions")
	for i := range 3 {
		l.try(l.w.Click(Left, image.Pt(motions.Min.X+motions.Dx()/2, motions.Min.Y+60+40*i)))
		time.Sleep(500 * time.Millisecond)
	}
	time.Sleep(time.Second) // placements are simulated when it is quiet
}

func (l *long) compare() {
	l.Helper()
	l.turn('m', "compare")
	l.press('d', Control)
	l.press('d', Control)
	l.drag("designs", 0.4, 0.6)
	l.drag("head_diameter_mm", 0.4, 0.6)
	l.drag("flexion_deg", 0.3, 0.6)
	l.press('d', Control, Shift)
	l.press('z', Control)
}

// explain goes through some activities and plays each.
func (l *long) explain() {
	l.Helper()
	l.turn('j', "explain")
	for range 3 {
		l.press(ArrowRight)
		l.press('p')
		time.Sleep(2 * time.Second)
		l.press('p')
	}
}

// window changes its size and back, the size of the text, and the brightness.
func (l *long) window() {
	l.Helper()
	for _, size := range [2]image.Point{{1024, 700}, {1280, 800}} {
		l.try(l.w.Resize(size.X, size.Y))
		l.settled()
	}
	l.press('=', Control)
	l.press('-', Control)
	if before := brightness(l.shoot("")); !l.relit(before) {
		l.Fatalf("the menu leaves the brightness at %.2f", before)
	}
}

// relit makes a dark window light and a light one dark, and reports whether that
// shows. Where the item stands depends on those above it.
func (l *long) relit(before float64) bool {
	l.Helper()
	choice := 1 // light
	if before > 0.5 {
		choice = 2
	}
	for ; l.brightnessItem < mostItems; l.brightnessItem++ {
		l.menu(viewMenu, l.brightnessItem, choice)
		for range 30 {
			if after := brightness(l.shoot("")); after > before+0.2 || after < before-0.2 {
				return true
			}
			time.Sleep(50 * time.Millisecond)
		}
		for range 2 { // close what was opened instead
			l.press(Escape)
		}
	}
	return false
}

// open takes everything back and opens one of the sample cases.
func (l *long) open(sample int) {
	l.Helper()
	l.turn('e', "explore")
	for range 60 {
		l.try(l.w.Key('z', Control))
	}
	was := l.settled()
	l.menu(fileMenu, samplesItem, sample)
	if l.rounds%4 == 0 {
		l.settled() // the first sample is open at the start
		return
	}
	if _, err := l.p.Await("another sample", patience, func(s State) bool { return !bytes.Equal(s.Case, was.Case) }); err != nil {
		l.Fatal(err)
	}
}

// The menus, items of theirs that hold others, and where to look for one, from
// above.
const (
	fileMenu, samplesItem = 0, 4
	viewMenu, firstItem   = 2, 13
	mostItems             = 20
)

// menu chooses from a submenu by keys.
func (l *long) menu(which, item, choice int) {
	l.Helper()
	l.try(l.w.Click(Left, image.Pt(15, 12)))
	time.Sleep(200 * time.Millisecond)
	for range which {
		l.press(ArrowRight)
	}
	for range item {
		l.press(ArrowDown)
	}
	l.press(ArrowRight)
	for range choice {
		l.press(ArrowDown)
	}
	l.press(Return)
}

// brightness returns the mean green of a picture, 0 to 1.
func brightness(p *image.RGBA) float64 {
	sum := 0.0
	for i := 1; i < len(p.Pix); i += 4 {
		sum += float64(p.Pix[i])
	}
	return sum / 255 / float64(len(p.Pix)/4)
}
