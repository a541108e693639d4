// Package view holds what the window shows. Explore is the joint in three
// dimensions between what one may change, on its left, and the answers, on its
// right.
//
// A view watches a session and draws its snapshots; it changes nothing but
// through the session's own acts.
package view
