package archive

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"golang.org/x/text/cases"
	"golang.org/x/text/unicode/norm"
)

// oneName gives what the names of one file have in common on systems that
// don't tell capitals from small letters, or an accented letter from a letter
// and its accent.
func oneName(p string) string { return norm.NFC.String(cases.Fold().String(norm.NFC.String(p))) }

// clashes finds the recordings whose document would be the same file as the
// document of an earlier one, though their names differ: "Plum.vtt" beside
// "plum.vtt", on a disk that doesn't tell them apart. One would be merged into
// the other. The disk is asked only where names are so alike. It gives the
// earlier recording by the path of the later.
func clashes(items []item, alike func(a, b string) (bool, error)) (map[string]string, error) {
	first := make(map[string]item, len(items))
	var out map[string]string
	for _, it := range items {
		if it.document == "" {
			continue
		}
		name := oneName(it.document)
		before, taken := first[name]
		if !taken {
			first[name] = it
			continue
		}
		one, err := alike(before.document, it.document)
		if err != nil {
			return nil, err
		}
		if one {
			if out == nil {
				out = map[string]string{}
			}
			out[it.path] = before.path
		}
	}
	return out, nil
}

// alike asks the disk of the state folder whether two paths are one file there:
// it makes the one, in a folder of its own, and looks for the other.
func (s *state) alike(a, b string) (one bool, err error) {
	dir, err := os.MkdirTemp(s.folder, freshPrefix)
	if err != nil {
		return false, fmt.Errorf("%s: cannot be written to: %w", s.folder, err)
	}
	defer func() { err = errors.Join(err, os.RemoveAll(dir)) }()
	made := filepath.Join(dir, filepath.FromSlash(a))
	if err := os.MkdirAll(filepath.Dir(made), 0o755); err != nil {
		return false, err
	}
	if err := os.WriteFile(made, nil, 0o644); err != nil {
		return false, err
	}
	_, err = os.Lstat(filepath.Join(dir, filepath.FromSlash(b)))
	if errors.Is(err, fs.ErrNotExist) {
		return false, nil
	}
	return err == nil, err
}
