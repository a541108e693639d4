// Package e2e drives the built program in a real window: it starts a private
// display (Xvfb), speaks the X11 protocol to it for mouse, keys and pictures,
// and follows the program through the state file the program writes. Every
// exchange has a deadline, so that a hung window fails a test and does not
// hang it.
//
// The tests run where RIMCLEAR_E2E=1 is set and RIMCLEAR_BINARY names the
// program (go run ./cmd/dev test does both); pictures go to the folder that
// RIMCLEAR_E2E_OUT names.
//
// # The state file
//
// With RIMCLEAR_STATE_FILE set the program writes this JSON object to that
// file, whole each time (by rename), after each change and at least twice a
// second while pictures are drawn. See State.
package e2e
