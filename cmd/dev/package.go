package main

import (
	"archive/tar"
	"compress/gzip"
	"context"
	"embed"
	"errors"
	"flag"
	"fmt"
	"io"
	"os"
	"os/exec"
	"path"
	"path/filepath"
	"regexp"
	"runtime"
	"slices"
	"strings"
	"time"
)

//go:embed rimclear.desktop install.txt
var packaging embed.FS

// pack makes the Linux release in out/release: both programs with their version
// stamped, desktop file, icon and licences. It unpacks what it made into a clean
// folder and starts it there.
func pack(ctx context.Context, w *workshop, args []string) error {
	f := flag.NewFlagSet("dev package", flag.ContinueOnError)
	trim := f.Bool("trim", false, "leave the paths of this machine out of the programs; compiles everything anew")
	if err := f.Parse(args); err != nil {
		return exitCode(2)
	}
	if f.NArg() > 0 {
		return fmt.Errorf("package takes no arguments, not %q", f.Args())
	}
	if runtime.GOOS != "linux" {
		return errors.New("package makes the Linux release; on macOS and Windows see DEVELOPERS.md")
	}
	if err := w.install(ctx, append(append([]string{}, headers...), screen...), false); err != nil {
		return err
	}
	version, err := w.version(ctx)
	if err != nil {
		return err
	}
	r := release{w, "rimclear-" + version + "-linux-" + runtime.GOARCH, version, *trim}
	if err := r.fill(ctx); err != nil {
		return err
	}
	tarball := filepath.Join(w.root, "out", "release", r.name+".tar.gz")
	if err := r.archive(tarball); err != nil {
		return err
	}
	if err := r.tryOut(ctx, tarball); err != nil {
		return fmt.Errorf("%s: %w", filepath.Base(tarball), err)
	}
	fmt.Fprintln(w.out, "written to", filepath.Join("out", "release", r.name+".tar.gz"))
	return w.vulnerabilities(ctx)
}

var releaseConstant = regexp.MustCompile(`(?m)^const Release = "([^"]+)"$`)

// version is the release of assets/version.go and the commit, or the tag where
// the commit has one.
func (w *workshop) version(ctx context.Context) (string, error) {
	source, err := os.ReadFile(filepath.Join(w.root, "assets", "version.go"))
	if err != nil {
		return "", err
	}
	found := releaseConstant.FindSubmatch(source)
	if found == nil {
		return "", errors.New("assets/version.go names no release")
	}
	stamp, err := w.stamp(ctx)
	if err != nil {
		return "", err
	}
	return string(found[1]) + "+" + stamp, nil
}

// stamp is what git calls the commit.
func (w *workshop) stamp(ctx context.Context) (string, error) {
	c := exec.CommandContext(ctx, "git", "describe", "--always", "--dirty=.changed", "--abbrev=12", "--exclude=*")
	c.Dir = w.root
	out, err := c.Output()
	if err != nil {
		return "", fmt.Errorf("git describe: %w", err)
	}
	return strings.TrimSpace(string(out)), nil
}

// release is one tarball to be, filled in the cache folder.
type release struct {
	*workshop
	name, version string
	trim          bool
}

func (r release) folder() string { return filepath.Join(r.cache, "release", r.name) }

// fill puts everything into the folder.
func (r release) fill(ctx context.Context) error {
	if err := os.RemoveAll(filepath.Dir(r.folder())); err != nil {
		return err
	}
	_, stamp, _ := strings.Cut(r.version, "+")
	flags := "-s -w -X " + module + "/assets.stamp=" + stamp
	build := func(env, tags, name string) error {
		to := filepath.Join(r.folder(), "bin", name)
		return r.child(ctx, environment(env), "go", "build", fmt.Sprintf("-trimpath=%v", r.trim), "-tags", tags, "-ldflags", flags, "-o", to, "./cmd/"+name).Run()
	}
	if err := errors.Join(build(cgo, uiTags, "rimclear"), build(pure, "", "rimcalc")); err != nil {
		return err
	}
	licences, err := r.thirdParties(ctx)
	if err != nil {
		return err
	}
	desktop, _ := packaging.ReadFile("rimclear.desktop")
	notes, _ := packaging.ReadFile("install.txt")
	files := map[string][]byte{
		"share/applications/rimclear.desktop":         desktop,
		"share/doc/rimclear/LICENSES-THIRD-PARTY.txt": licences,
		"README.txt":                 notes,
		"share/doc/rimclear/LICENSE": nil,
		"share/icons/hicolor/512x512/apps/rimclear.png":  nil,
		"share/icons/hicolor/scalable/apps/rimclear.svg": nil,
		"share/doc/rimclear/evidence.md":                 nil,
	}
	from := map[string]string{
		"share/doc/rimclear/LICENSE":                     "LICENSE",
		"share/icons/hicolor/512x512/apps/rimclear.png":  "assets/icon/rimclear.png",
		"share/icons/hicolor/scalable/apps/rimclear.svg": "assets/icon/rimclear.svg",
		"share/doc/rimclear/evidence.md":                 evidencePage,
	}
	for name, data := range files {
		if source, ok := from[name]; ok {
			if data, err = os.ReadFile(filepath.Join(r.root, source)); err != nil {
				return err
			}
		}
		to := filepath.Join(r.folder(), filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
			return err
		}
		if err := os.WriteFile(to, data, 0o644); err != nil {
			return err
		}
	}
	return nil
}

// archive packs the folder. Owners and times are left out, so that the same
// files make the same tarball.
func (r release) archive(to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return err
	}
	f, err := os.Create(to)
	if err != nil {
		return err
	}
	defer f.Close()
	zipped := gzip.NewWriter(f)
	packed := tar.NewWriter(zipped)
	var names []string
	err = filepath.WalkDir(r.folder(), func(name string, e os.DirEntry, err error) error {
		if err == nil && !e.IsDir() {
			names = append(names, name)
		}
		return err
	})
	if err != nil {
		return err
	}
	slices.Sort(names)
	for _, name := range names {
		if err := r.put(packed, name); err != nil {
			return err
		}
	}
	return errors.Join(packed.Close(), zipped.Close(), f.Close())
}

func (r release) put(into *tar.Writer, name string) error {
	below, err := filepath.Rel(r.folder(), name)
	if err != nil {
		return err
	}
	f, err := os.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	info, err := f.Stat()
	if err != nil {
		return err
	}
	mode := int64(0o644)
	if strings.HasPrefix(filepath.ToSlash(below), "bin/") {
		mode = 0o755
	}
	h := &tar.Header{Name: path.Join(r.name, filepath.ToSlash(below)), Mode: mode, Size: info.Size(), ModTime: time.Unix(0, 0), Typeflag: tar.TypeReg}
	if err := into.WriteHeader(h); err != nil {
		return err
	}
	_, err = io.Copy(into, f)
	return err
}
