// Package app wires the window: its session, its view, its menus and its files.
package app
