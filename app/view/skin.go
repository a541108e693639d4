package view

import (
	"math"

	"gonum.org/v1/gonum/spatial/r3"

	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/aperture"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/implant"
	"rimclear/kinematics/unit"
)

// skin is the free area of the neck's axis painted on the sphere of the
// bearing, and the way of the axis over it in the motion that is played. Both
// are in the cup's frame.
type skin struct {
	rim      implant.Rim
	neck     implant.Neck
	pose     aperture.Pose // for which the area holds, if the neck is not round
	area     *scene.Mesh
	edge     *scene.Mesh
	followed tracing
	free     *scene.Mesh // the way up to contact
	past     *scene.Mesh // and beyond it
}

// How far the parts stand off the sphere and how thick the lines are, in mm.
const (
	skinOff, edgeOff, wayOff = 0.35, 0.5, 0.8
	edgeThick, wayThick      = 0.35, 0.55
)

// paint makes the area for a snapshot, where it is not at hand.
func (k *skin) paint(s *session.Snapshot) {
	d := s.Design()
	j := s.Joint.APPFromCup().Inverse().Mul(s.Joint.APPFromNeck(s.Case.Posture, s.Case.Hip.PosturePlane))
	now := aperture.Pose{Superior: j.Column(0), Anterior: j.Column(1), Axis: j.Column(2)}
	if d.Neck.Round() {
		now = aperture.Pose{Superior: r3.Vec{X: 1}, Anterior: r3.Vec{Y: 1}, Axis: r3.Vec{Z: 1}}
	}
	if k.area != nil && d.Rim == k.rim && d.Neck == k.neck && now == k.pose {
		return
	}
	k.rim, k.neck, k.pose = d.Rim, d.Neck, now
	edge := boundary(s.Joint.Aperture, now)
	r := d.Rim.HeadDiameter / 2
	k.area = scene.Skin(r+skinOff, r3.Vec{Z: 1}, edge)
	line := make([]r3.Vec, len(edge))
	for i, u := range edge {
		line[i] = r3.Scale(r+edgeOff, u)
	}
	k.edge = scene.Thread(edgeThick, true, line...)
}

// boundary returns the directions, in the cup's frame, at which the neck first
// meets the rim when its axis leans away from the cup's, without rolling.
func boundary(ap *aperture.Aperture, now aperture.Pose) []r3.Vec {
	const around, halvings, least = 72, 11, 0.2 * math.Pi / 180
	edge := make([]r3.Vec, around)
	for i := range edge {
		s, c := math.Sincos(2 * math.Pi * float64(i) / around)
		lo, hi := least, math.Pi
		for range halvings {
			middle := (lo + hi) / 2
			if ap.Free(leaned(now, lean(middle, s, c))) {
				lo = middle
			} else {
				hi = middle
			}
		}
		edge[i] = lean(lo, s, c)
	}
	return edge
}

func lean(polar, s, c float64) r3.Vec {
	sp, cp := math.Sincos(polar)
	return r3.Vec{X: sp * c, Y: sp * s, Z: cp}
}

// leaned returns a pose whose axis is turned to u by the least rotation.
func leaned(p aperture.Pose, u r3.Vec) aperture.Pose {
	c, k := r3.Dot(p.Axis, u), r3.Cross(p.Axis, u)
	if c < -1+1e-9 {
		return aperture.Pose{Superior: p.Superior, Anterior: r3.Scale(-1, p.Anterior), Axis: u}
	}
	turn := func(v r3.Vec) r3.Vec { // Rodrigues
		return r3.Add(r3.Add(r3.Scale(c, v), r3.Cross(k, v)), r3.Scale(r3.Dot(k, v)/(1+c), k))
	}
	return aperture.Pose{Superior: turn(p.Superior), Anterior: turn(p.Anterior), Axis: u}
}

// follow makes the way of the motion that is played, where it is not at hand.
func (k *skin) follow(s *session.Snapshot, t *Transport) {
	if t == nil || !t.loaded {
		k.free, k.past, k.followed = nil, nil, tracing{}
		return
	}
	now := t.tracing(s)
	if now == k.followed || now != t.traced {
		return // the same, or the motion is still to be followed
	}
	k.followed, k.free, k.past = now, nil, nil
	clip := t.player.Clip()
	if clip.Empty() || clip.Duration() <= 0 {
		return
	}
	on, seconds := s.Joint.On(clip.Path), clip.Duration()
	stop := 1.0
	if t.trace.Stops {
		stop = t.trace.Contact / seconds
	}
	r := s.Design().Rim.HeadDiameter/2 + wayOff
	way := func(from, to float64) *scene.Mesh {
		const most, apart = 90, 0.4 * unit.Degree
		var line []r3.Vec
		for i := range most + 1 {
			p := clip.Path.At(clip.Place(seconds * (from + (to-from)*float64(i)/most)))
			u := r3.Scale(r, axisInCup(on, p))
			if n := len(line); n == 0 || r3.Norm(r3.Sub(u, line[n-1])) > r*float64(apart) {
				line = append(line, u)
			}
		}
		if len(line) < 2 {
			return nil
		}
		return scene.Thread(wayThick, false, line...)
	}
	if stop > 0 {
		k.free = way(0, stop)
	}
	if stop < 1 {
		k.past = way(stop, 1)
	}
}

// axisInCup returns the neck's axis in the cup's frame.
func axisInCup(j kinematics.Joint, p hip.Posture) r3.Vec {
	return j.APPFromCup().Inverse().Mul(j.APPFromNeck(p, j.Zero())).Column(2)
}
