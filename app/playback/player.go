package playback

import "time"

// Player is where a clip is at, and whether it goes on. It goes by a clock that
// it is given.
type Player struct {
	clip    Clip
	clock   func() time.Time
	at      float64 // s, at since
	since   time.Time
	playing bool
	speed   float64
}

// NewPlayer returns a player without a clip.
func NewPlayer(clock func() time.Time) *Player { return &Player{clock: clock, speed: 1} }

// Load puts another clip in, at its start.
func (p *Player) Load(c Clip) { p.clip, p.at, p.playing = c, 0, false }

// Replace puts in a clip of the same motion, as for another patient, and stays
// at the same share of it.
func (p *Player) Replace(c Clip) {
	share := 0.0
	if d := p.clip.Duration(); d > 0 {
		share = p.Time() / d
	}
	p.clip = c
	p.at, p.since = share*c.Duration(), p.clock()
}

// Clip returns what is in it.
func (p *Player) Clip() Clip { return p.clip }

// Time returns where it is at, s.
func (p *Player) Time() float64 {
	if !p.playing {
		return p.at
	}
	return min(p.at+p.speed*p.clock().Sub(p.since).Seconds(), p.clip.Duration())
}

// Playing reports whether it goes on. At the end it stops by itself.
func (p *Player) Playing() bool {
	if p.playing && p.Time() >= p.clip.Duration() {
		p.at, p.playing = p.clip.Duration(), false
	}
	return p.playing
}

// Play goes on, from the start where it was at the end.
func (p *Player) Play() {
	if p.clip.Empty() {
		return
	}
	if p.at = p.Time(); p.at >= p.clip.Duration() {
		p.at = 0
	}
	p.since, p.playing = p.clock(), true
}

// Pause stays where it is at.
func (p *Player) Pause() { p.at, p.playing = p.Time(), false }

// Seek goes to a time, held to the clip.
func (p *Player) Seek(t float64) {
	p.at, p.since = min(max(t, 0), p.clip.Duration()), p.clock()
}

// Speed returns how many seconds of the clip go by in one.
func (p *Player) Speed() float64 { return p.speed }

// SetSpeed changes that, from where it is at.
func (p *Player) SetSpeed(s float64) {
	p.at, p.since = p.Time(), p.clock()
	p.speed = s
}
