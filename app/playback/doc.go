// Package playback plays motions of the hip: which posture belongs to which
// moment, forwards at a pace, with pause and scrub. It draws nothing and has no
// clock of its own.
package playback
