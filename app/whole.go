package app

import (
	"bytes"
	"errors"

	"fyne.io/fyne/v2"
	"fyne.io/fyne/v2/storage"
	"fyne.io/fyne/v2/storage/repository"

	"rimclear/app/store"
)

// whole is the toolkit's own storage of files, but for writing: nothing is
// opened until something was written and the writer is closed, and then the
// file is replaced whole. The toolkit's dialog empties the file it asks about
// before anything is known to follow; with this it does not touch it.
type whole struct{ files }

// files is what the toolkit's storage of files can do.
type files interface {
	repository.AppendableRepository
	repository.CopyableRepository
	repository.DeleteAllRepository
	repository.HierarchicalRepository
	repository.ListableRepository
	repository.MovableRepository
}

// writeWhole puts whole in the place of the toolkit's own storage.
func writeWhole() error {
	own, err := repository.ForURI(storage.NewFileURI("/"))
	if err != nil {
		return err
	}
	if _, already := own.(whole); already {
		return nil
	}
	f, ok := own.(files)
	if !ok {
		return errors.New("the toolkit's storage of files has changed")
	}
	repository.Register("file", whole{f})
	return nil
}

// Writer implements repository.WritableRepository.
func (whole) Writer(u fyne.URI) (fyne.URIWriteCloser, error) { return &wholeFile{uri: u}, nil }

// wholeFile gathers what is written until it is closed.
type wholeFile struct {
	uri  fyne.URI
	data bytes.Buffer
}

// URI implements fyne.URIWriteCloser.
func (f *wholeFile) URI() fyne.URI { return f.uri }

// Write implements io.Writer.
func (f *wholeFile) Write(p []byte) (int, error) { return f.data.Write(p) }

// Close writes the file whole; a file nothing was written to is left alone.
func (f *wholeFile) Close() error {
	if f.data.Len() == 0 {
		return nil
	}
	err := store.Write(f.uri.Path(), f.data.Bytes())
	f.data.Reset()
	return err
}
