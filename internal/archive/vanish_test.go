package archive

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// Files that vanish, or become something else, while a run is at work fail one
// by one, each by its name, and the rest goes on.
func TestFilesThatVanishMeanwhile(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	items, err := find(Options{Folder: in, Out: out}, MostFiles)
	if err != nil {
		t.Fatal(err)
	}
	at := func(p string) string { return filepath.Join(in, filepath.FromSlash(p)) }
	for _, p := range []string{"bars.vtt", "cakes/plum.txt"} {
		if err := os.Remove(at(p)); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.Mkdir(at("cakes/plum.txt"), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(at("soups")); err != nil {
		t.Fatal(err)
	}
	r := &run{opt: Options{Folder: in, Out: out, Jobs: 1, Progress: func(Event) {}}, sum: &Summary{ByState: map[State]int{}}}
	if err := r.all(context.Background(), items); err != nil {
		t.Fatal(err)
	}
	if r.sum.ByState[Written] != 1 || r.sum.ByState[Failed] != 3 {
		t.Errorf("states %v, want 1 written and 3 failed", r.sum.ByState)
	}
	for i, want := range []string{"bars.vtt: cannot read it", "cakes/plum.txt: cannot read it", "soups/broth.md: cannot read it"} {
		if i >= len(r.sum.Failures) || !strings.HasPrefix(r.sum.Failures[i], want) {
			t.Errorf("failures %q, want the %d. to begin %q", r.sum.Failures, i+1, want)
		}
	}
	left := tree(t, out)
	if _, ok := left["cakes/rhubarb.yaml"]; !ok {
		t.Error("the recording that was there has no document")
	}
	for name := range left {
		if strings.HasSuffix(name, "bars.yaml") || strings.HasSuffix(name, "plum.yaml") || strings.Contains(name, "/"+freshPrefix) {
			t.Errorf("%s was left behind", name)
		}
	}
}

// The folder of the documents may be taken away while a run is at work: it is
// told of, and made again by the next call.
func TestOutputThatVanishes(t *testing.T) {
	in, out := folder(t, talks), filepath.Join(t.TempDir(), "out")
	taken := false
	_, err := Run(context.Background(), Options{Folder: in, Out: out, Jobs: 1, Progress: func(Event) {
		if !taken {
			taken = true
			// moved, not emptied: another recording may be written meanwhile
			if err := os.Rename(out, out+".gone"); err != nil {
				t.Error(err)
			}
		}
	}})
	if err == nil || !strings.Contains(err.Error(), out) {
		t.Errorf("the error is %v, want one that names %s", err, out)
	}
	if _, states := batch(t, Options{Folder: in, Out: out}); len(states) != len(talks) {
		t.Errorf("states of the next call: %v", states)
	}
	if _, err := os.Stat(filepath.Join(out, "cakes", "plum.yaml")); err != nil {
		t.Error(err)
	}
}

func TestTooManyFiles(t *testing.T) {
	in := folder(t, talks) // four files and two folders
	if _, err := find(Options{Folder: in}, 6); err != nil {
		t.Error(err)
	}
	_, err := find(Options{Folder: in}, 5)
	if !errors.Is(err, ErrTooMany) || !strings.Contains(err.Error(), "more than 5 files and folders") {
		t.Errorf("beyond the limit: %v", err)
	}
}
