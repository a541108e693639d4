package present

import (
	"strings"

	"rimclear/kinematics"
)

// SocketNote says whether the designs of a case are tied to one socket; where
// they are not, which of them this socket could not hold.
func (w *Words) SocketNote(c *kinematics.Case) string {
	size := w.Shortest(c.Hip.Socket.Outer, 1) + w.Unit(kinematics.Millimetre)
	if c.Hip.Socket.Rule == kinematics.SocketTied {
		return w.Phrase("compare_tied", "size", size)
	}
	tied := *c
	tied.Hip.Socket.Rule = kinematics.SocketTied
	var out []string
	for _, f := range kinematics.Validate(&tied) {
		if f.Reason == kinematics.NotThisSocket {
			out = append(out, w.Phrase("compare_not_held", "design", Letter(f.Design), "fault", w.FaultText(f)))
		}
	}
	if len(out) == 0 {
		return w.Phrase("compare_free_fits", "size", size)
	}
	return w.Phrase("compare_free", "size", size, "list", strings.Join(out, " "))
}

// Refused says why a bearing cannot be taken, from the faults it would have.
func (w *Words) Refused(c *kinematics.Case, b kinematics.Bearing, faults []kinematics.Fault) string {
	if len(faults) == 0 {
		return ""
	}
	if faults[0].Reason == kinematics.NotThisSocket {
		return w.Phrase("compare_refused_socket", "bearing", w.Bearing(b), "fault", w.FaultText(faults[0]))
	}
	return w.Phrase("compare_refused", "bearing", w.Bearing(b), "fault", w.FaultText(faults[0]))
}
