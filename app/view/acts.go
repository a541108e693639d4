package view

import (
	"rimclear/app/scene"
	"rimclear/kinematics/hip"
)

// LookFromFront looks from the front.
func (e *Explore) LookFromFront() { e.centre.look(scene.Front()) }

// LookFromSide looks from the side of the hip.
func (e *Explore) LookFromSide() { e.centre.look(scene.Side()) }

// LookIntoCup looks into the cup's opening.
func (e *Explore) LookIntoCup() { e.centre.lookIntoCup() }

// TogglePelvis shows or hides the half pelvis.
func (e *Explore) TogglePelvis() { e.centre.pelvis.Tapped(nil) }

// ToggleFemur shows or hides the femur.
func (e *Explore) ToggleFemur() { e.centre.femur.Tapped(nil) }

// ToggleGlass makes the bones glass, or solid again.
func (e *Explore) ToggleGlass() { e.centre.glass.Tapped(nil) }

// ToggleCut cuts shell, liner and bones open, or makes them whole again.
func (e *Explore) ToggleCut() { e.centre.cut.Tapped(nil) }

// ToggleFree paints the free area on the bearing's sphere, or takes it away.
func (e *Explore) ToggleFree() { e.centre.free.Tapped(nil) }

// TogglePast lets the posture go past contact, or holds it there.
func (e *Explore) TogglePast() { e.centre.past.Tapped(nil) }

// Neutral takes the hip to neutral.
func (e *Explore) Neutral() { goTo(e.Session, hip.Neutral) }
