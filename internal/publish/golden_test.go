package publish

import (
	"bytes"
	"flag"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"quern/schema"
)

var update = flag.Bool("update", false, "write the expected outputs anew")

// documents are the recipe documents under testdata, by name.
func documents(t testing.TB) map[string]*schema.Document {
	t.Helper()
	paths, err := filepath.Glob("../../testdata/documents/*.yaml")
	if err != nil || len(paths) == 0 {
		t.Fatalf("no documents under testdata/documents: %v", err)
	}
	out := map[string]*schema.Document{}
	for _, p := range paths {
		data, err := os.ReadFile(p)
		if err != nil {
			t.Fatal(err)
		}
		docs, err := schema.ReadAll(p, data)
		if err != nil {
			t.Fatal(err)
		}
		for i, doc := range docs {
			name := strings.TrimSuffix(filepath.Base(p), ".yaml")
			if i > 0 {
				name += "-" + string(rune('1'+i))
			}
			out[name] = doc
		}
	}
	return out
}

func document(t testing.TB, name string) *schema.Document {
	t.Helper()
	doc := documents(t)[name]
	if doc == nil {
		t.Fatalf("no document %q", name)
	}
	return doc
}

// outputs are the forms and choices every document is written in.
var outputs = []struct {
	name string // of the golden file, after the document's
	form string
	opt  Options
}{
	{"md", "markdown", Options{}},
	{"both.md", "markdown", Options{Measures: "both", Recording: "https://example.org/film.mp4"}},
	{"double.md", "markdown", Options{Factor: 2, Measures: "metric"}},
	{"txt", "text", Options{}},
	{"us.txt", "text", Options{Measures: "us", Factor: 0.5}},
	{"html", "html", Options{Measures: "both", Recording: "https://example.org/watch?v=1&t={t}"}},
	{"jsonld", "jsonld", Options{Recording: "https://example.org/film.mp4"}},
	{"vtt", "chapters", Options{}},
	{"chapters.txt", "chapters", Options{Format: "lines"}},
	{"questions.md", "questions", Options{}},
	{"questions.html", "questions", Options{Format: "html", Recording: "film.mp4"}},
	{"questions.csv", "questions", Options{Format: "csv"}},
	{"csv", "csv", Options{}},
}

// TestGolden writes every document in every form and compares it with the
// files in testdata/golden. A document that can't be written in a form has the
// error there.
func TestGolden(t *testing.T) {
	for name, doc := range documents(t) {
		for _, out := range outputs {
			t.Run(name+"."+out.name, func(t *testing.T) {
				var b bytes.Buffer
				if err := Write(&b, out.form, doc, out.opt); err != nil {
					b.WriteString("error: " + err.Error() + "\n")
				}
				golden(t, name+"."+out.name, b.Bytes())
			})
		}
	}
}

// TestGoldenWays writes each way by itself.
func TestGoldenWays(t *testing.T) {
	for name, doc := range documents(t) {
		for _, w := range doc.Ways {
			file := name + "." + strings.ReplaceAll(w.Name, " ", "-") + ".md"
			t.Run(file, func(t *testing.T) {
				var b bytes.Buffer
				if err := Markdown(&b, doc, Options{Way: w.Name}); err != nil {
					t.Fatal(err)
				}
				golden(t, file, b.Bytes())
			})
		}
	}
}

func golden(t *testing.T, name string, got []byte) {
	t.Helper()
	path := filepath.Join("testdata", "golden", name)
	if *update {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, got, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatalf("%v (run the test with -update to write it)", err)
	}
	if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(string(got), "\n")); diff != "" {
		t.Errorf("%s changed (-want +got); run the test with -update if it's meant:\n%s", path, diff)
	}
}
