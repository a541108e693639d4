package figure

// Entry is one line of a legend: a sample of an area, a line or a mark, and
// what it stands for.
type Entry struct {
	Label string
	Fill  Fill
	Line  Stroke
	Mark  func(s *Surface, at Point) // drawn at the middle of the sample; may be nil
}

// Legend says what colours, dashes, patterns and marks stand for.
type Legend struct {
	Entries []Entry
	Font    Font    // a size of zero means 9
	Row     bool    // side by side instead of one under the other
	Width   float64 // at which a row breaks; zero never
}

const (
	sampleWidth = 20 // points
	sampleGap   = 5  // between sample and label
	entryGap    = 12 // between entries of a row
)

func (l Legend) font() Font {
	if l.Font.Size == 0 {
		l.Font.Size = 9
	}
	return l.Font
}

// places returns the upper left corner of each entry and the size of the whole.
func (l Legend) places() ([]Point, Point) {
	f := l.font()
	at := make([]Point, len(l.Entries))
	var pen, size Point
	for i, e := range l.Entries {
		w := sampleWidth + sampleGap + f.Width(e.Label)
		if i > 0 && (!l.Row || l.Width > 0 && pen.X+w > l.Width) {
			pen = Point{0, pen.Y + f.LineHeight()}
		}
		at[i] = pen
		size.X = max(size.X, pen.X+w)
		pen.X += w + entryGap
	}
	if len(at) > 0 {
		size.Y = pen.Y + f.LineHeight()
	}
	return at, size
}

// Size returns the width and height that Draw fills.
func (l Legend) Size() Point {
	_, size := l.places()
	return size
}

// Draw draws the legend with its upper left corner at a point.
func (l Legend) Draw(s *Surface, at Point, p Palette) {
	f := l.font()
	style := TextStyle{Font: f, Colour: p.Ink, V: Middle}
	places, _ := l.places()
	for i, e := range l.Entries {
		q := at.Add(places[i])
		middle := q.Y + f.LineHeight()/2
		area := Box(q.X, middle-f.CapHeight()*0.65, sampleWidth, f.CapHeight()*1.3)
		s.Polygon(area.Ring(), e.Fill)
		if e.Fill.Colour.A > 0 || e.Fill.Pattern.Kind != Plain {
			s.Outline(area.Ring(), e.Line)
		} else {
			s.Line(Point{q.X, middle}, Point{q.X + sampleWidth, middle}, e.Line)
		}
		if e.Mark != nil {
			e.Mark(s, Point{q.X + sampleWidth/2, middle})
		}
		s.Text(Point{q.X + sampleWidth + sampleGap, middle}, e.Label, style)
	}
}
