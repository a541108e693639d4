package view

import (
	"math"

	"rimclear/app/present"
	"rimclear/app/scene"
	"rimclear/app/session"
	"rimclear/kinematics"
	"rimclear/kinematics/hip"
	"rimclear/kinematics/motion"
)

// explained is one activity as it is shown: the person, and one or two joints
// that make the same movement, each by that of its ways that comes closest to a
// touch. The person goes the first joint's way.
type explained struct {
	key    string
	stage  *scene.Stage
	camera scene.Camera
	cast   []*member
	stop   float64 // how far the person goes, a share of the movement
	left   bool
}

// member is one joint of the cast.
type member struct {
	design  int
	joint   *joint
	path    motion.Path
	tilts   hip.Tilts
	shown   session.Snapshot // at the moment on screen
	stop    float64          // share of the movement at which it touches; 1 if it does not
	touches bool
	contact kinematics.Contact // the touch, or where it is tightest
	told    present.Told
	camera  scene.Camera
}

// explain returns an activity with some of a case's designs; nil where no person
// is drawn in it.
func (c *Context) explain(s *session.Snapshot, key string, designs []int, joints map[int]*joint) *explained {
	act := scene.ActByKey(key)
	r, ok := c.Motions.Requirement(&s.Case, key)
	if act == nil || !ok || len(r.Paths) == 0 {
		return nil
	}
	x := &explained{key: key, left: s.Joint.Side() == hip.Left}
	for _, i := range designs {
		if joints[i] == nil {
			joints[i] = newJoint()
			joints[i].Glass = true
		}
		m := newMember(s, c.Session.Joint(i), i, r.Paths)
		m.joint = joints[i]
		m.camera = scene.JointCamera(m.shown.Joint.CupAxis(), m.contact.RimPoint)
		m.camera.Mirror = x.left
		x.cast = append(x.cast, m)
		x.stop = math.Max(x.stop, m.stop)
	}
	way := x.cast[0].path
	x.stage = act.Stage(way.ShaftAt(way.End()), c.palette().Dark)
	x.camera = x.stage.Camera()
	x.camera.Mirror = x.left
	return x
}

func newMember(s *session.Snapshot, j kinematics.Joint, design int, paths []motion.Path) *member {
	least := j.LeastOf(paths)
	m := &member{design: design, path: paths[least.Path], tilts: s.Case.Hip.Tilts, stop: 1}
	m.shown = session.Snapshot{Case: s.Case, Active: design, Joint: j}
	place := least.At
	if limit := j.Limit(m.path); limit.Status != kinematics.Free {
		m.touches, place = true, limit.At
		m.stop = m.share(limit.At)
	}
	m.contact = j.Contact(m.posture(place))
	m.told = present.ToldOf(&s.Case.Designs[design], m.touches, m.stop, least.Margin)
	return m
}

// share returns how far along its way a place is, and place which place a share
// is at; every leg counts alike.
func (m *member) share(p motion.Place) float64 {
	return (float64(p.Leg) + p.Fraction) / math.Max(float64(m.path.Legs()), 1)
}

func (m *member) place(share float64) motion.Place {
	n := m.path.Legs()
	if n == 0 {
		return motion.Place{}
	}
	at := share * float64(n)
	leg := min(int(at), n-1)
	return motion.Place{Leg: leg, Fraction: at - float64(leg)}
}

// posture returns the shaft's posture at a place, with its zero in the case's
// own plane.
func (m *member) posture(at motion.Place) hip.Posture {
	p := m.path.ShaftAt(at)
	p.Flexion += m.tilts.Of(m.path.Zero) - m.tilts.Of(m.shown.Case.Hip.PosturePlane)
	return p
}

// bonesSeen is the opacity of the bones: they are known for bones, and the joint
// is seen through them.
const bonesSeen = 0.5

// lit reports whether the joint touches when the movement has gone a share.
func (m *member) lit(share float64) bool { return m.touches && share >= m.stop-1e-6 }

// instances returns the joint's parts when the movement has gone a share.
func (m *member) instances(share float64) []scene.Instance {
	m.shown.Case.Posture = m.posture(m.place(math.Min(share, m.stop)))
	m.shown.Contact = kinematics.Contact{Margin: 1}
	if m.lit(share) {
		m.shown.Contact = m.contact
		m.shown.Contact.Margin = 0
	}
	list := m.joint.instances(&m.shown)
	for i := range list {
		if list[i].Material.Colour.A < 255 {
			list[i].Material = list[i].Material.Faded(bonesSeen)
		}
	}
	if m.lit(share) {
		list = append(list, scene.ContactBall(m.contact.RimPoint))
	}
	return list
}

// person returns the person and the things about when the movement has gone a
// share.
func (x *explained) person(list []scene.Instance, share float64) []scene.Instance {
	share = math.Min(share, x.stop)
	first := x.cast[0]
	lit := false
	for _, m := range x.cast {
		lit = lit || m.lit(share)
	}
	return x.stage.Instances(list, share, first.path.ShaftAt(first.place(share)), lit)
}
