package extract_test

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quern/schema"
)

// conflictPasses and lookAlikePasses are how many of the talks that contradict
// themselves are asked about, and how many of those that only look so are left
// alone. Raise them when more pass, never lower them.
const (
	conflictPasses  = 253
	lookAlikePasses = 258
)

// The least number of talks of each sort.
const (
	conflictCases  = 160
	lookAlikeCases = 160
)

// conflictCase is one invented talk and the contradictions a careful recipe
// editor would ask about.
type conflictCase struct {
	Name string   `yaml:"name"`
	Row  string   `yaml:"row"`
	Talk string   `yaml:"talk"` // plain text, or rows with times in brackets
	Want []string `yaml:"want"` // kinds of flags, all that there are; none for a look-alike
	Both []string `yaml:"both"` // words that the quotes of these flags must show
}

func TestConflicts(t *testing.T) {
	cases := readCases[conflictCase](t, filepath.Join("testdata", "conflicts.yaml"))
	var score tally
	var rows []string
	seen := map[string]bool{}
	var conflicts, lookAlikes struct{ passed, of int }
	for _, c := range cases {
		if key := c.Row + ": " + c.Name; seen[key] {
			t.Errorf("two cases are called %q", key)
		} else {
			seen[key] = true
		}
		if !slices.Contains(rows, c.Row) {
			rows = append(rows, c.Row)
		}
		for _, kind := range c.Want {
			if !schema.KnownFlagKind(kind) {
				t.Errorf("%s: no flag is of kind %q", c.Name, kind)
			}
		}
		misses := c.misses(readTalk(t, c.Name, c.Talk))
		group := &conflicts
		if len(c.Want) == 0 {
			group = &lookAlikes
		}
		group.of++
		if len(misses) == 0 {
			group.passed++
		} else {
			t.Logf("%s: %s\n    talk: %s\n    %s", c.Row, c.Name, strings.ReplaceAll(c.Talk, "\n", " / "), strings.Join(misses, "\n    "))
		}
		score.add(c.Row, len(misses) == 0)
	}
	for _, row := range rows {
		t.Logf("%-34s %s", row, score.row(row))
	}
	t.Logf("%-34s %d of %d", "all conflicts", conflicts.passed, conflicts.of)
	t.Logf("%-34s %d of %d", "all look-alikes", lookAlikes.passed, lookAlikes.of)
	if conflicts.of < conflictCases || lookAlikes.of < lookAlikeCases {
		t.Errorf("there are %d conflicts and %d look-alikes; %d and %d are needed", conflicts.of, lookAlikes.of, conflictCases, lookAlikeCases)
	}
	if conflicts.passed < conflictPasses {
		t.Errorf("%d conflicts are found; it was %d before", conflicts.passed, conflictPasses)
	}
	if lookAlikes.passed < lookAlikePasses {
		t.Errorf("%d look-alikes are left alone; it was %d before", lookAlikes.passed, lookAlikePasses)
	}
}

// misses says which contradictions weren't asked about, which questions ask
// about none, and which evidence is not shown.
func (c *conflictCase) misses(docs []*schema.Document) []string {
	var out, kinds, quotes []string
	for _, d := range docs {
		for _, f := range d.Flags {
			if !strings.HasPrefix(f.Kind, "conflict-") {
				continue
			}
			if !slices.Contains(kinds, f.Kind) {
				kinds = append(kinds, f.Kind)
			}
			if !slices.Contains(c.Want, f.Kind) {
				out = append(out, f.Kind+" asks about nothing: "+f.Ask)
				continue
			}
			for _, s := range f.Said {
				quotes = append(quotes, strings.ToLower(s.Quote))
			}
		}
	}
	for _, want := range c.Want {
		if !slices.Contains(kinds, want) {
			out = append(out, "no "+want)
		}
	}
	if len(out) > 0 {
		return out
	}
	for _, words := range c.Both {
		if !slices.ContainsFunc(quotes, func(q string) bool { return strings.Contains(q, words) }) {
			out = append(out, "the evidence doesn't show "+words+": "+strings.Join(quotes, " / "))
		}
	}
	return out
}
