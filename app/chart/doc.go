// Package chart draws the plots of the program, one file each: what a joint
// can reach and where it stops. Each chart is a [figure.Figure] whose static
// layer holds for a case and a part of the posture ([Chart.Still]) and whose
// marker layer shows the posture itself.
//
// Joint angles keep their clinical sign on both sides of the body, so slices
// and rulers of a left hip look like those of a right one. Pictures of space
// (the globe, the rim) are mirrored for a left hip.
package chart
