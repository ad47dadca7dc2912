package extract_test

import (
	"path/filepath"
	"slices"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// cautionPasses is how many of the talks of cautions.yaml get all of their
// cautions and no other. Raise it when more do, never lower it.
const cautionPasses = 397

// cautionCase is one invented talk and the kinds of caution an editor would print.
type cautionCase struct {
	Name string   `yaml:"name"`
	Row  string   `yaml:"row"` // the kind that the talk calls for, or only seems to
	Talk string   `yaml:"talk"`
	Want []string `yaml:"want"`
}

// TestCautionsOfTalks reads whole talks, so that what is lost between the words
// and the document's cautions shows.
func TestCautionsOfTalks(t *testing.T) {
	cases := readCases[cautionCase](t, filepath.Join("testdata", "cautions.yaml"))
	passed := 0
	called, alike := map[string]bool{}, map[string]bool{}
	for _, c := range cases {
		if slices.Contains(c.Want, c.Row) {
			called[c.Row] = true
		} else {
			alike[c.Row] = true
		}
		got := []string{}
		for _, doc := range readTalk(t, c.Name, c.Talk) {
			for _, x := range doc.Cautions {
				if !slices.Contains(got, x.Kind) {
					got = append(got, x.Kind)
				}
			}
		}
		want := append([]string{}, c.Want...)
		slices.Sort(got)
		slices.Sort(want)
		if d := cmp.Diff(want, got); d != "" {
			t.Logf("%s, %s (-want +got):\n%s", c.Row, c.Name, d)
			continue
		}
		passed++
	}
	for kind := range called {
		if !alike[kind] {
			t.Errorf("%s has no talk that only looks like it", kind)
		}
	}
	if len(called) != 19 {
		t.Errorf("%d kinds of caution are called for, want all 19", len(called))
	}
	if passed < cautionPasses {
		t.Errorf("%d of %d talks get their cautions, want %d", passed, len(cases), cautionPasses)
	}
}
