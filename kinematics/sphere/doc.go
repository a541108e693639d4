// Package sphere holds geometry on the unit sphere of directions: angles
// between directions, arcs of circles, caps, and the smallest cap that encloses
// directions or arcs. It knows no anatomy.
package sphere
