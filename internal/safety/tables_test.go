package safety

import (
	"encoding/csv"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var classNames = []string{
	"poultry", "ground meat", "whole meat", "meat", "fish", "preserved fish", "shellfish", "animal fat", "meat stock", "unsure stock",
	"gelatine", "rennet", "honey", "honey bought", "bee", "egg", "flour", "sugar", "refined sugar", "sweet", "starch", "grain", "oats", "legume",
	"rice", "kidney bean", "garlic", "herb", "oil", "spirit", "alcohol", "trace alcohol", "glucomannan", "soft dairy",
}

// TestCarrierRows reads every row of carriers.tsv: each name must be found, by
// the longest match, and bring what its row says unless a row of the same name
// is surer.
func TestCarrierRows(t *testing.T) {
	tb := table()
	names := 0
	for i, r := range tb.carriers {
		if len(r.foods) == 0 || r.reason == "" || r.source == "" {
			t.Errorf("row %d (%s): a name, a reason or a source is missing", i+1, strings.Join(r.foods, "|"))
		}
		if !slices.Contains([]certainty{sure, label, none}, r.certainty) {
			t.Errorf("row %d: unknown certainty %q", i+1, r.certainty)
		}
		if (len(r.brings) == 0) != (r.certainty == none) {
			t.Errorf("row %d (%s): a row brings something unless its certainty is none", i+1, r.foods[0])
		}
		for _, a := range r.brings {
			if !slices.Contains(Names, a) {
				t.Errorf("row %d: unknown allergen %q", i+1, a)
			}
		}
		for _, f := range r.foods {
			names++
			if f != strings.ToLower(f) {
				t.Errorf("row %d: %q is not in lower case", i+1, f)
			}
			if !slices.Contains(tb.carrierOf.find(fold(f)), i) {
				t.Errorf("row %d: %q isn't found by its own row", i+1, f)
				continue
			}
			certain, depends := Carries(f)
			for _, a := range r.brings {
				named := slices.Contains(certain, a)
				perLabel := slices.ContainsFunc(depends, func(d Depends) bool { return d.Allergen == a })
				if r.certainty == sure && !named && !perLabel || r.certainty == label && !named && !perLabel {
					t.Errorf("row %d: %q should bring %s (%s)", i+1, f, a, r.certainty)
				}
				if r.certainty == sure && !named && tb.leftOut(fold(f)) == nil {
					t.Errorf("row %d: %q should bring %s for certain", i+1, f, a)
				}
			}
		}
	}
	t.Logf("%d names in %d rows", names, len(tb.carriers))
	if names < 1500 {
		t.Errorf("%d names, want at least 1500", names)
	}
}

// TestCarrierNamesAreConsistent tells that no name is in two rows about the
// same allergen, nor in a row of exceptions and another.
func TestCarrierNamesAreConsistent(t *testing.T) {
	tb := table()
	for key, found := range tb.carrierOf.rows {
		seen := map[string]bool{}
		for _, i := range found {
			r := tb.carriers[i]
			if r.certainty == none && len(found) > 1 {
				t.Errorf("%q is an exception and in another row as well", key)
			}
			for _, a := range r.brings {
				if seen[a] {
					t.Errorf("%q brings %s in two rows", key, a)
				}
				seen[a] = true
			}
		}
	}
}

func TestClassRows(t *testing.T) {
	tb := table()
	for i, r := range tb.classes {
		for _, c := range r.classes {
			if !slices.Contains(classNames, c) {
				t.Errorf("row %d (%s): unknown class %q", i+1, r.foods[0], c)
			}
		}
		for _, f := range r.foods {
			if !slices.Contains(tb.classOf.find(fold(f)), i) {
				t.Errorf("row %d: %q isn't found by its own row", i+1, f)
			}
		}
	}
}

func TestClaimRows(t *testing.T) {
	for i, r := range table().claims {
		if r.claim == "" || r.reason == "" || r.source == "" {
			t.Errorf("row %d: a claim, a reason or a source is missing", i+1)
		}
		for _, w := range r.what {
			switch r.by {
			case "allergen":
				if !slices.Contains(Names, w) {
					t.Errorf("row %d (%s): unknown allergen %q", i+1, r.claim, w)
				}
			case "class":
				if !slices.Contains(classNames, w) {
					t.Errorf("row %d (%s): unknown class %q", i+1, r.claim, w)
				}
			}
		}
		if !slices.Contains([]string{"allergen", "class", "net carbohydrate", "nothing"}, r.by) {
			t.Errorf("row %d (%s): unknown ground %q", i+1, r.claim, r.by)
		}
		if (r.by == "nothing") != (r.certainty == none) {
			t.Errorf("row %d (%s): nothing is judged by certainty none", i+1, r.claim)
		}
	}
}

func TestCautionRows(t *testing.T) {
	kinds := map[string]bool{}
	for i, r := range table().cautions {
		if r.say == "" || r.source == "" || r.applies == "" {
			t.Errorf("row %d (%s): the words, the source or the case is missing", i+1, r.kind)
		}
		if rules[r.kind] == nil {
			t.Errorf("row %d: %q has no rule", i+1, r.kind)
		}
		if kinds[r.kind] {
			t.Errorf("row %d: %q twice", i+1, r.kind)
		}
		kinds[r.kind] = true
	}
	for kind := range rules {
		if !kinds[kind] {
			t.Errorf("the rule for %q has no row", kind)
		}
	}
}

func TestChartAndNameRows(t *testing.T) {
	for i, r := range table().chart {
		if len(r.what) == 0 || r.days <= 0 || r.figure == "" || r.source == "" {
			t.Errorf("chart row %d is incomplete: %+v", i+1, r)
		}
		for _, w := range r.what {
			w = strings.TrimPrefix(w, "raw:")
			if class, ok := strings.CutPrefix(w, "class:"); ok && !slices.Contains(classNames, class) {
				t.Errorf("chart row %d: unknown class %q", i+1, class)
			}
		}
	}
	for i, r := range table().names {
		if len(r.words.phrases) == 0 || len(r.leavesOut) == 0 || r.reasonText == "" {
			t.Errorf("names row %d is incomplete: %+v", i+1, r)
		}
		for _, w := range r.leavesOut {
			if !slices.Contains(Names, w) && !slices.Contains(classNames, w) {
				t.Errorf("names row %d: %q is no allergen and no class", i+1, w)
			}
		}
	}
}

// TestCautionsAreTheReference compares the cautions with the published list
// they were taken from.
func TestCautionsAreTheReference(t *testing.T) {
	name := filepath.Join("..", "..", "..", "shared", "reference", "cautions.csv")
	f, err := os.Open(name)
	if err != nil {
		if os.Getenv("CI") == "true" {
			t.Fatalf("want ../shared/reference/cautions.csv: %v", err)
		}
		t.Skipf("want ../shared/reference/cautions.csv: %v", err)
	}
	defer f.Close()
	want, err := csv.NewReader(f).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var got [][]string
	for _, r := range table().cautions {
		got = append(got, []string{r.kind, r.applies, r.say, r.source})
	}
	if d := cmp.Diff(want[1:], got); d != "" {
		t.Errorf("cautions.tsv differs from the reference (-want +got):\n%s", d)
	}
}

// TestNothingIsCalledSafe reads every sentence the tables can print.
func TestNothingIsCalledSafe(t *testing.T) {
	tb := table()
	var said []string
	for _, r := range tb.carriers {
		said = append(said, r.reason)
	}
	for _, r := range tb.claims {
		said = append(said, r.reason)
	}
	for _, r := range tb.cautions {
		said = append(said, r.say)
	}
	for _, r := range tb.names {
		said = append(said, r.reasonText)
	}
	for _, s := range append(said, Notice) {
		for _, banned := range []string{" safe ", "safely", "free of", "suitable for", "free from"} {
			if strings.Contains(" "+strings.ToLower(s)+" ", banned) {
				t.Errorf("%q says %q on our own authority", s, banned)
			}
		}
	}
}

// TestFoodsTheLexiconKnows tells that a food of a kind that mostly carries an
// allergen is in the table, as a carrier or as an exception.
func TestFoodsTheLexiconKnows(t *testing.T) {
	data, err := os.ReadFile("../lexicon/foods.tsv")
	if err != nil {
		t.Fatal(err)
	}
	kinds := []string{"dairy", "egg", "fish", "shellfish", "nut", "pasta", "bread", "flour"}
	checked, unknown := 0, []string(nil)
	for line := range strings.Lines(string(data)) {
		cells := strings.Split(strings.TrimRight(line, "\n"), "\t")
		if strings.HasPrefix(line, "#") || len(cells) < 3 || !slices.Contains(kinds, cells[2]) {
			continue
		}
		checked++
		if !Known(cells[0]) {
			unknown = append(unknown, cells[0])
		}
	}
	t.Logf("%d foods of the kinds %s, %d not in the table: %s", checked, strings.Join(kinds, ", "), len(unknown), strings.Join(unknown, ", "))
	if checked == 0 || len(unknown) > checked/100 {
		t.Errorf("%d of %d foods are in no row of carriers.tsv: %q", len(unknown), checked, unknown)
	}
}
