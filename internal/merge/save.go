package merge

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/diff"

	"quern/internal/derive"
	"quern/schema"
)

// ErrChanged says that a file is no longer as it was when it was read, so
// that writing would undo what somebody else did to it. Nothing was written.
var ErrChanged = errors.New("the file was changed by someone else since it was read; nothing was written")

// MaxBytes is the largest document file read, in bytes.
const MaxBytes = 64 << 20

// File is a document file while it is being edited. Its zero value is of no
// use; get one from Open.
type File struct {
	path  string // with links followed, so that a link stays a link
	shown string // as the caller named it
	data  []byte
	kept  bool // the version found at Open is kept beside the file
}

// Open reads a document file to edit it.
func Open(path string) (*File, error) {
	real, err := filepath.EvalSymlinks(path)
	var named *fs.PathError
	if err != nil && !errors.As(err, &named) {
		return nil, fmt.Errorf("%s: the link leads nowhere: %w", path, err) // a ring of links, told without a name
	}
	if err != nil {
		return nil, err
	}
	data, err := readLimited(real)
	if err != nil {
		return nil, err
	}
	return &File{path: real, shown: path, data: data}, nil
}

// readLimited reads a file that is no link: paths come here with links
// followed, so that one met now was put there since.
func readLimited(path string) ([]byte, error) {
	if info, err := os.Lstat(path); err == nil && !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s: not a file; name a recipe document", path)
	}
	f, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer f.Close()
	data, err := io.ReadAll(io.LimitReader(f, MaxBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > MaxBytes {
		return nil, fmt.Errorf("%s: larger than %d MB; a recipe document is far smaller", path, MaxBytes>>20)
	}
	return data, nil
}

// Path is the file's name as it was opened.
func (f *File) Path() string { return f.shown }

// Data is the text last read or written. It must not be changed.
func (f *File) Data() []byte { return f.data }

// Version names the text: a hash of it, hexadecimal.
func (f *File) Version() string { return version(f.data) }

func version(data []byte) string {
	sum := sha256.Sum256(data)
	return hex.EncodeToString(sum[:])
}

// Refresh reads the file again and reports whether it had changed.
func (f *File) Refresh() (changed bool, err error) {
	data, err := readLimited(f.path)
	if err != nil {
		return false, err
	}
	changed = !bytes.Equal(data, f.data)
	f.data = data
	return changed, nil
}

// Write puts a new text in the place of the one last read, in one move: a
// reader, or a power cut, finds the old text or the new, never a part. The
// first Write keeps the text it replaces as NAME~ beside the file. A file that
// is no longer as last read is left alone and gives ErrChanged.
func (f *File) Write(data []byte) error {
	if bytes.Equal(data, f.data) {
		return nil
	}
	now, err := readLimited(f.path)
	if err != nil {
		return err
	}
	if !bytes.Equal(now, f.data) {
		return fmt.Errorf("%s: %w", f.shown, ErrChanged)
	}
	if !f.kept {
		if err := Put(Previous(f.path), f.data); err != nil {
			return fmt.Errorf("keep the version before this one: %w", err)
		}
		f.kept = true
	}
	if err := Put(f.path, data); err != nil {
		return err
	}
	f.data = data
	return nil
}

// Previous is where the version before the last change of a document is kept.
func Previous(path string) string { return path + "~" }

// Written is where the document is kept as the program last wrote it, before
// any edit: what Save compares with.
func Written(path string) string {
	return filepath.Join(filepath.Dir(path), "."+filepath.Base(path)+".quern")
}

// Result tells what Save did.
type Result struct {
	Diff    string   // what changed in the file: Changes, then the lines; "" when nothing did
	Changes []string // what changed in the recipes, in words, a fact each
	Clashes []Clash  // where hers was kept against the program's
	Created bool     // there was no file before
}

// Save writes what the program made of a recording to path. A file already
// there is merged with, not replaced: see Merge; what the program wrote last
// is kept beside it (Written), and so is the file as it was (Previous). It
// returns what changed in the file as a difference of lines, "" when nothing
// did; with dryRun that is all it does. A file there that is not a recipe
// document, or that changes while Save works, is left alone and is an error.
func Save(path string, machine []byte, dryRun bool) (difference string, err error) {
	res, err := SaveWith(path, machine, dryRun, derive.Options{})
	return res.Diff, err
}

// SaveWith is Save with the options by which what follows from the document
// is worked out again after merging, and with all there is to tell.
func SaveWith(path string, machine []byte, dryRun bool, opt derive.Options) (Result, error) {
	f, err := Open(path)
	if errors.Is(err, fs.ErrNotExist) {
		return create(path, machine, dryRun)
	}
	if err != nil {
		return Result{}, err
	}
	merged, clashes, err := f.merged(machine, opt)
	if err != nil {
		return Result{}, fmt.Errorf("%w (%s is left as it is)", err, path)
	}
	res := Result{Clashes: clashes}
	if !bytes.Equal(f.data, merged) {
		if res.Changes, err = f.changes(merged); err != nil {
			return res, err
		}
		res.Diff = strings.Join(append(slices.Clone(res.Changes), string(diff.Diff(path, f.data, path+" (new)", merged))), "\n")
	}
	if dryRun {
		return res, nil
	}
	// The document goes first: should the second write never happen, the next
	// Save finds hers and the program's changes alike in the document.
	if err := f.Write(merged); err != nil {
		return res, err
	}
	return res, Put(Written(f.path), machine)
}

func create(path string, machine []byte, dryRun bool) (Result, error) {
	res := Result{Created: true, Diff: string(diff.Diff("nothing", nil, path, machine))}
	if dryRun {
		return res, nil
	}
	if info, err := os.Lstat(path); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return res, fmt.Errorf("%s: a link to a file that is not there; name the file itself", path)
	}
	if err := Put(path, machine); err != nil {
		return res, err
	}
	return res, Put(Written(path), machine)
}

// changes tells in words what a new text of the file changes in its recipes.
func (f *File) changes(text []byte) ([]string, error) {
	before, err := schema.ReadAll(f.shown, f.data)
	if err != nil {
		return nil, err
	}
	after, err := schema.ReadAll(f.shown, text)
	if err != nil {
		return nil, err
	}
	return changes(before, after), nil
}

func (f *File) merged(machine []byte, opt derive.Options) ([]byte, []Clash, error) {
	written, err := readLimited(Written(f.path))
	if err != nil && !errors.Is(err, fs.ErrNotExist) {
		return nil, nil, err
	}
	if _, err := schema.ReadAll(f.shown, f.data); err != nil {
		return nil, nil, err
	}
	var texts [3][]byte
	for i, t := range []struct {
		name string
		data []byte
	}{{Written(f.path), written}, {f.shown, f.data}, {"the new document", machine}} {
		if texts[i], err = toYAML(t.name, t.data); err != nil {
			return nil, nil, err
		}
	}
	text, clashes, err := Merge(texts[0], texts[1], texts[2])
	if err != nil {
		return nil, nil, fmt.Errorf("%s: %w", f.shown, err)
	}
	text, err = Edit(f.shown, text, opt, nil)
	if err != nil {
		return nil, nil, err
	}
	if !isJSON(f.data) {
		return text, clashes, nil
	}
	if bytes.Equal(text, texts[1]) {
		return f.data, clashes, nil
	}
	docs, err := schema.ReadAll(f.shown, text)
	if err != nil {
		return nil, nil, err
	}
	text, err = jsonOf(docs)
	return text, clashes, err
}
