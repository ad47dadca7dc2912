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
