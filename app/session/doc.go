// Package session holds what the user is doing: the case with its history of
// changes, the design looked at, and the answers that belong to what is on
// screen.
//
// What watchers get is a Snapshot, which never changes after it was made. All
// methods of Session belong to one goroutine, the one that draws; work that
// takes longer than a picture is done elsewhere and comes back through the
// post function it was made with.
package session
