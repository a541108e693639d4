package view

import "time"

// pacer does something at once where it was not done lately, and otherwise as
// soon as it may be done again: what costs too much for every picture, such as
// drawing new words, is kept to so many times a second.
type pacer struct {
	*Context
	every   time.Duration
	do      func()
	last    time.Time
	waiting bool
}

// A new text takes a new texture; fifteen a second can be read and cost little.
const wordsEvery = time.Second / 15

func (p *pacer) wish() {
	if p.waiting {
		return
	}
	if wait := p.every - p.Now().Sub(p.last); wait > 0 {
		p.waiting = true
		p.After(wait, p.run)
		return
	}
	p.run()
}

func (p *pacer) run() {
	p.waiting, p.last = false, p.Now()
	p.do()
}
