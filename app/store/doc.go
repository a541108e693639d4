// Package store keeps files whole. A file it writes is either the old one or
// the new one, never a part of either: the bytes go to a temporary file in the
// same folder, are brought to the disk, and take the old file's name in one
// rename.
//
// The settings and the recent cases are two small JSON files of their own in
// the user's configuration folder (see Home).
package store
