// Package scene draws the joint in three dimensions, in software, into an
// image.RGBA. It knows shapes, light and a camera; it knows no implants and no
// toolkit. Everything is drawn as a right hip in the pelvis frame (X anterior,
// Y superior, Z to the patient's right, origin at the hip centre, lengths in
// mm); a left hip is the same scene seen through a mirroring Camera.
package scene
