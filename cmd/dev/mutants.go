package main

// mutant is a deliberate fault: in one file, one text for another. A test of
// its rooms must notice. If the text is not there exactly once, the list is
// out of date and the command says so.
type mutant struct {
	name     string
	file     string
	from, to string
	rooms    []string // whose tests are run; all of kinematics if empty
}

// mutants are the faults one would least like to ship: signs, orders, mirrors,
// clocks, halves, units, dropped features.
var mutants = []mutant{
	{"adduction has the wrong sign", "kinematics/hip/posture.go", "sx, cx := p.Adduction.Sincos()", "sx, cx := (-p.Adduction).Sincos()", nil},
	{"rotation has the wrong sign", "kinematics/hip/posture.go", "sy, cy := p.InternalRotation.Sincos()", "sy, cy := (-p.InternalRotation).Sincos()", nil},
	{"flexion has the wrong sign", "kinematics/hip/posture.go", "sz, cz := p.Flexion.Sincos()", "sz, cz := (-p.Flexion).Sincos()", nil},
	{"the order of rotations is X-Z-Y", "kinematics/hip/posture.go", "{cz*cy - sz*sx*sy, -sz * cx, cz*sy + sz*sx*cy},", "{cz * cy, -sz, cz * sy},", nil},
	{"degrees are taken for gradians", "kinematics/unit/angle.go", "(math.Pi / 180) * Radian", "(math.Pi / 200) * Radian", nil},
	{"radians are shown as degrees", "kinematics/unit/angle.go", "float64(a) * (180 / math.Pi) }", "float64(a) }", nil},
	{"the left hip is mirrored in X", "kinematics/hip/side.go", "v.Z = -v.Z", "v.X = -v.X", nil},
	{"radiographic anteversion points backwards", "kinematics/hip/orientation.go", "return r3.Vec{X: sa, Y: -ca * ci, Z: ca * si}", "return r3.Vec{X: -sa, Y: -ca * ci, Z: ca * si}", nil},
	{"operative is taken for anatomic", "kinematics/hip/orientation.go", "return r3.Vec{X: ci * sa, Y: -ci * ca, Z: si}", "return r3.Vec{X: si * sa, Y: -ci, Z: si * ca}", nil},
	{"anatomic angles are read off as operative", "kinematics/hip/orientation.go", "Inclination: atan2(math.Hypot(n.X, n.Z), -n.Y),", "Inclination: atan2(n.Z, math.Hypot(n.X, n.Y)),", nil},
	{"the ellipse gives the cosine", "kinematics/hip/orientation.go", "math.Asin(minor / major)", "math.Acos(minor / major)", nil},
	{"pelvic tilt turns the other way", "kinematics/hip/plane.go", "return RotationZ(t.Of(p))", "return RotationZ(-t.Of(p))", nil},
	{"standing takes the supine tilt", "kinematics/hip/plane.go", "return t.Standing", "return t.Supine", nil},
	{"the neck-shaft angle is not subtracted from 180°", "kinematics/hip/stem.go", "(180*unit.Degree - s.NeckShaft + s.ComponentToNeck)", "(s.NeckShaft + s.ComponentToNeck)", nil},
	{"stem anteversion is retroversion", "kinematics/hip/stem.go", "return r3.Vec{X: -sv * sa, Y: -ca, Z: cv * sa}", "return r3.Vec{X: sv * sa, Y: -ca, Z: cv * sa}", nil},
	{"varus is valgus", "kinematics/hip/stem.go", "RotationX(-s.Varus)", "RotationX(s.Varus)", nil},
	{"the component's angle to the neck is added", "kinematics/hip/stem.go", "- s.NeckShaft + s.ComponentToNeck", "- s.NeckShaft - s.ComponentToNeck", nil},
	{"the cup's arc is halved", "kinematics/implant/rim.go", "return 180*unit.Degree - r.Arc/2", "return 180*unit.Degree - r.Arc/4", nil},
	{"the head's diameter is taken for its radius", "kinematics/implant/rim.go", "inner, offset := r.HeadDiameter/2, r.Offset()", "inner, offset := r.HeadDiameter, r.Offset()", nil},
	{"inset moves the liner inwards", "kinematics/implant/rim.go", "return r.Inset + r.Extension", "return r.Extension - r.Inset", nil},
	{"a lip lowers the rim", "kinematics/implant/rim.go", "p - max(r.Lips[0].rise(phi), r.Lips[1].rise(phi))", "p + max(r.Lips[0].rise(phi), r.Lips[1].rise(phi))", nil},
	{"the second lip is forgotten", "kinematics/implant/rim.go", "max(r.Lips[0].rise(phi), r.Lips[1].rise(phi))", "r.Lips[0].rise(phi)", nil},
	{"a notch raises the rim", "kinematics/implant/rim.go", "+ r.Notch.rise(phi)", "- r.Notch.rise(phi)", nil},
	{"a lip's clock runs the other way", "kinematics/implant/lip.go", "x := (at - centre).Wrapped()", "x := (at + centre).Wrapped()", nil},
	{"a plateau's full width is taken for its half", "kinematics/implant/lip.go", ".Abs() - width/2", ".Abs() - width", nil},
	{"a neck's diameter is taken for its radius", "kinematics/implant/neck.go", "return n.Diameter / 2", "return n.Diameter", nil},
	{"the skirt is dropped", "kinematics/implant/neck.go", "b = max(b, n.Skirt.beta(rho))", "b = max(b, 0*n.Skirt.beta(rho))", nil},
	{"a taper does not taper", "kinematics/implant/taper.go", "best = max(best, far)", "best = max(best, near)", nil},
	{"an oval is rolled the other way", "kinematics/implant/oval.go", "(psi - o.Roll).Sincos()", "(psi + o.Roll).Sincos()", nil},
	{"an oval's centre is not shifted", "kinematics/implant/oval.go", "c, s, x, y = c/a, s/b, x/a, y/b", "c, s, x, y = c/a, s/b, 0*x/a, 0*y/b", nil},
	{"the wall's outer edge is not looked at", "kinematics/aperture/cone.go", "cuts := []float64{0, 1}", "cuts := []float64{0, 0.9}", nil},
	{"an edge of the neck is taken to be as far off all round", "kinematics/aperture/seat.go", "s.band.Breaks(psi)", "s.band.Breaks(0)", nil},
	{"an edge of the neck is followed without its roll", "kinematics/aperture/level.go", "o.width.edge(l.edge, rollOf(p, direction(l.reached(f, rho), phi)), within)", "o.width.edge(l.edge, 0*rollOf(p, direction(l.reached(f, rho), phi)), within)", nil},
	{"an edge of the neck under the face is not looked at", "kinematics/aperture/under.go", "if lo == hi ||", "if lo <= hi ||", nil},
	{"an overhang of the neck is not looked at", "kinematics/aperture/cliff.go", "return max(-d, min(d, gap))", "return max(-d, min(9*d, gap))", nil},
	{"the rim beside a stop is that a little way on", "kinematics/aperture/outline.go", "return 2*o.rim.Polar(phi+nudge) - o.rim.Polar(phi+2*nudge)", "return o.rim.Polar(phi + nudge)", nil},
	{"a touch is no contact", "kinematics/contact.go", "const Touch = 1e-9 * unit.Degree", "const Touch = -1e-3 * unit.Degree", nil},
	{"the contact is told on the other side of the rim", "kinematics/aperture/aperture.go", "Azimuth: azimuth(p.Axis),", "Azimuth: azimuth(p.Axis) + 180*unit.Degree,", nil},
	{"the head is levered towards the contact", "kinematics/contact.go", "r3.Vec{X: -c, Y: -s}", "r3.Vec{X: c, Y: s}", nil},
	{"the clock runs anticlockwise", "kinematics/contact.go", "math.Mod(azimuth.Degrees()/30, 12)", "math.Mod(-azimuth.Degrees()/30, 12)", nil},
	{"3 o'clock is posterior", "kinematics/hip/stem.go", "return Columns(up, r3.Cross(up, axis), axis)", "return Columns(up, r3.Cross(axis, up), axis)", nil},
	{"a search's steps are four times too long", "kinematics/solve/crossing.go", "step := (v - c.bound.Zero) / c.bound.Slope", "step := 4 * (v - c.bound.Zero) / c.bound.Slope", nil},
	{"the second contact of a path is not listed", "kinematics/limit.go", "		at = math.Max(to, from+leastContact)\n", "		return\n", nil},
	{"extension is counted as flexion", "kinematics/sweep.go", "if m%2 == 1 {", "if m%2 == 2 {", nil},
	{"an earlier leg's stop is not told", "kinematics/questions.go", "Reached: l.At.Leg == p.Legs()-1 &&", "Reached: l.At.Leg <= p.Legs()-1 &&", nil},
	{"the socket holds any head", "kinematics/socket.go", "if h := d.Rim.HeadDiameter; h < least || h > greatest {", "if h := d.Rim.HeadDiameter; h < least && h > greatest {", nil},
	{"the liner is dragged ahead of the neck", "kinematics/liner.go", "s, c := behind.Sincos()", "s, c := (2 * behind).Sincos()", nil},
}
