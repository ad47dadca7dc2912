package merge

import (
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

var update = flag.Bool("update", false, "write what the tests got as what they want")

// TestMerge reads testdata/merge: each file holds what was written last
// ("base"), what the person has ("mine"), what is written now ("theirs"), and
// what must come of it ("want" and "clashes").
func TestMerge(t *testing.T) {
	files, err := filepath.Glob("testdata/merge/*.txtar")
	if err != nil || len(files) < 10 {
		t.Fatalf("found %d cases (%v)", len(files), err)
	}
	for _, f := range files {
		t.Run(strings.TrimSuffix(filepath.Base(f), ".txtar"), func(t *testing.T) {
			data, err := os.ReadFile(f)
			if err != nil {
				t.Fatal(err)
			}
			part := sections(string(data))
			got, clashes, err := Merge([]byte(part["base"]), []byte(part["mine"]), []byte(part["theirs"]))
			if err != nil {
				t.Fatal(err)
			}
			var lines strings.Builder
			for _, c := range clashes {
				lines.WriteString(c.Kind + " | " + c.String() + "\n")
			}
			if *update {
				var b strings.Builder
				part["want"], part["clashes"] = string(got), lines.String()
				for _, name := range []string{"base", "mine", "theirs", "want", "clashes"} {
					b.WriteString("-- " + name + " --\n" + part[name])
				}
				if err := os.WriteFile(f, []byte(b.String()), 0o644); err != nil {
					t.Fatal(err)
				}
				return
			}
			if d := cmp.Diff(part["want"], string(got)); d != "" {
				t.Errorf("merged (-want +got):\n%s", d)
			}
			if d := cmp.Diff(part["clashes"], lines.String()); d != "" {
				t.Errorf("clashes (-want +got):\n%s", d)
			}
			again, more, err := Merge([]byte(part["theirs"]), got, []byte(part["theirs"]))
			if err != nil || string(again) != string(got) || len(more) != 0 {
				t.Errorf("merging the same again changed it (%v, %v):\n%s", err, more, cmp.Diff(string(got), string(again)))
			}
		})
	}
}

// TestRemarksInOddLayouts changes a document whose layout leaves no line to
// itself: it may be written afresh, but every remark is still there.
func TestRemarksInOddLayouts(t *testing.T) {
	base := "title: Soup\ningredients:\n  - id: leek\n    name: leek\n    amount: 1\nsteps:\n  - text: Chop it.\n"
	theirs := strings.Replace(base, "amount: 1", "amount: 2\n    preparation: sliced", 1) + "yield: 2 bowls\n"
	for _, mine := range []string{
		"{title: Soup, # r1\n # r2\n ingredients: [{id: leek, # r3\n name: leek, amount: 1}], # r4\n steps: [{text: Chop it.}]} # r5\n# r6\n",
		"title: Soup # r1\ningredients: [ # r2\n  {id: leek, name: leek, amount: 1}, # r3\n  # r4\n]\nsteps: # r5\n  - text: Chop it. # r6\n",
		"# r1\n\n# r2\ntitle: Soup\ningredients:\n  - # r3\n    id: leek\n    # r4\n    name: leek # not # two\n    amount: 1\n    # r5\n\nsteps:\n  - text: \"Chop it.\"\n# r6\n",
		"---\n# r1\ntitle: Soup\ningredients:\n- {id: leek, name: leek, amount: 1} # r2\n# r3\nsteps:\n- text: >-\n    Chop it.\n  # r4\n  # r5\n...\n# r6\n",
		"? title # r1\n: Soup # r2\n? ingredients # r3\n: - id: leek # r4\n    name: leek\n    amount: 1 # r5\nsteps: [{text: Chop it.}] # r6\n",
	} {
		got, clashes, err := Merge([]byte(base), []byte(mine), []byte(theirs))
		if err != nil {
			t.Errorf("%v in\n%s", err, mine)
			continue
		}
		for _, r := range []string{"# r1", "# r2", "# r3", "# r4", "# r5", "# r6"} {
			if strings.Count(string(got), r) != 1 {
				t.Errorf("%q is there %d times in\n%sfrom\n%s", r, strings.Count(string(got), r), got, mine)
			}
		}
		docs, err := split("merged", got)
		if err != nil || len(docs.sheets) != 1 || len(clashes) > 0 {
			t.Errorf("%v %v\n%s", err, clashes, got)
			continue
		}
		leek := items(docs.sheets[0].root, "ingredients")[0]
		if valueOf(leek, "amount") != "2" || valueOf(leek, "preparation") != "sliced" || valueOf(docs.sheets[0].root, "yield") != "2 bowls" {
			t.Errorf("the new facts are not in\n%s", got)
		}
	}
}

// sections cuts a case file at its "-- name --" lines.
func sections(text string) map[string]string {
	part := map[string]string{}
	name := ""
	for _, l := range strings.SplitAfter(text, "\n") {
		if n, ok := strings.CutPrefix(strings.TrimRight(l, "\n"), "-- "); ok && strings.HasSuffix(n, " --") {
			name = strings.TrimSuffix(n, " --")
			continue
		}
		part[name] += l
	}
	return part
}
