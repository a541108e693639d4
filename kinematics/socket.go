package kinematics

// Socket is the acetabulum that all designs of a case share: the outer cup
// size it takes, and what of it shell and liner need, in mm.
type Socket struct {
	Rule       SocketRule
	Outer      float64
	Shell      float64 // thickness of the metal shell
	LeastLiner float64 // least thickness of a liner
}

// SocketRule says whether designs are held to the socket.
type SocketRule int

const (
	SocketUntied SocketRule = iota // free: designs are compared whatever their size, and that is said
	SocketTied
)

// A resurfacing cup is its head plus 6 to 10 mm: means of 54 and 48 mm (Patel
// NK, Ann R Coll Surg Engl 2014;96:67-72); 5 and 3.5 mm walls (CORR 2014,
// PMC3971251).
const (
	leastCupOverHead    = 6
	greatestCupOverHead = 10
)

// Holds returns the least and greatest head that the socket can hold with a
// kind of bearing; for dual mobility the liner is the head.
func (s Socket) Holds(k BearingKind) (least, greatest float64) {
	switch k {
	case Resurfacing:
		return s.Outer - greatestCupOverHead, s.Outer - leastCupOverHead
	case DualMobility:
		return 0, s.Outer - 2*s.Shell
	}
	return 0, s.Outer - 2*(s.Shell+s.LeastLiner)
}

// faults returns what the socket cannot hold of a design.
func (s Socket) faults(d Design) []Fault {
	if s.Rule != SocketTied {
		return nil
	}
	var list []Fault
	least, greatest := s.Holds(d.Bearing)
	if h := d.Rim.HeadDiameter; h < least || h > greatest {
		list = append(list, Fault{Key: "head_diameter_mm", Value: h, Min: least, Max: greatest, Reason: NotThisSocket})
	}
	if d.Bearing == Resurfacing {
		if wall := (s.Outer - d.Rim.HeadDiameter) / 2; d.Rim.Wall < wall-0.05 || d.Rim.Wall > wall+0.05 {
			list = append(list, Fault{Key: "wall_mm", Value: d.Rim.Wall, Min: wall, Max: wall, Reason: NotThisSocket})
		}
	}
	if m := d.Rim.Mobile; d.Bearing == DualMobility && m.Present() {
		if most := d.Rim.HeadDiameter - 2*s.LeastLiner; m.Head > most {
			list = append(list, Fault{Key: "mobile_head_mm", Value: m.Head, Max: most, Reason: NotThisSocket})
		}
	}
	return list
}
