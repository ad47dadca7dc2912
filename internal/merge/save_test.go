package merge

import (
	"errors"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"quern/internal/derive"
	"quern/schema"
)

const written = `recipe: 1
title: Plum bake
yield: 12 slices
ingredients:
  - id: butter
    name: butter
    amount: null
    said:
      - {at: "00:00:12.000", quote: "then butter"}
  - id: sugar
    name: sugar
    amount: 100 g
    said:
      - {at: "00:00:20.000", quote: "a hundred grams of sugar"}
steps: []
`

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func put1(t *testing.T, path, text string) {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o640); err != nil {
		t.Fatal(err)
	}
}

func TestSave(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "plum.yaml")
	if d, err := Save(path, []byte(written), true); err != nil || !strings.Contains(d, "+title: Plum bake") {
		t.Fatalf("dry run: %v\n%s", err, d)
	}
	if _, err := os.Stat(path); err == nil {
		t.Fatal("a dry run wrote the file")
	}
	if _, err := Save(path, []byte(written), false); err != nil {
		t.Fatal(err)
	}
	if read(t, path) != written || read(t, Written(path)) != written {
		t.Error("the first save is not what was given")
	}
	hers := strings.Replace(written, "amount: null", "amount: 225 g # weighed twice", 1)
	put1(t, path, hers)
	if err := os.Chmod(path, 0o640); err != nil {
		t.Fatal(err)
	}
	newer := strings.Replace(written, "100 g", "120 g", 1)
	d, err := Save(path, []byte(newer), true)
	if err != nil || !strings.Contains(d, "-    amount: 100 g\n+    amount: 120 g") || strings.Contains(d, "weighed twice\n-") {
		t.Fatalf("dry run: %v\n%s", err, d)
	}
	if !strings.HasPrefix(d, "sugar: 100 g becomes 120 g\n") {
		t.Errorf("the difference does not begin with the facts:\n%s", d)
	}
	if read(t, path) != hers || read(t, Written(path)) != written {
		t.Fatal("a dry run changed a file")
	}
	if _, err := Save(path, []byte(newer), false); err != nil {
		t.Fatal(err)
	}
	got := read(t, path)
	if !strings.Contains(got, "amount: 225 g # weighed twice") || !strings.Contains(got, "amount: 120 g") {
		t.Errorf("merged:\n%s", got)
	}
	if read(t, Previous(path)) != hers {
		t.Error("the file before is not kept")
	}
	if read(t, Written(path)) != newer {
		t.Error("what the program wrote is not kept")
	}
	if info, err := os.Stat(path); err != nil || info.Mode().Perm() != 0o640 {
		t.Errorf("the file's permissions are %v (%v)", info.Mode(), err)
	}
	if d, err := Save(path, []byte(newer), false); err != nil || d != "" {
		t.Errorf("saving the same again: %v\n%s", err, d)
	}
	if read(t, Previous(path)) != hers {
		t.Error("saving nothing new lost the version before")
	}
	names, err := os.ReadDir(dir)
	if err != nil || len(names) != 3 {
		t.Errorf("the folder holds %v (%v)", names, err)
	}
}

func TestChanges(t *testing.T) {
	read := func(text string) []*schema.Document {
		docs, err := schema.ReadAll("test", []byte(text))
		if err != nil {
			t.Fatal(err)
		}
		return docs
	}
	newer := strings.NewReplacer("title: Plum bake", "title: Plum tart", "12 slices", "8 slices", "name: butter", "name: salted butter", "amount: null", "amount: 225 g",
		"  - id: sugar\n    name: sugar\n    amount: 100 g\n", "  - id: honey\n    name: honey\n    amount: null\n    preparation: warmed\n",
		"steps: []", "steps:\n  - {text: Bake it., temperature: [180 C], time: [1 hour]}\nflags:\n  - {kind: heard-unsure, subject: x, ask: \"Is it x?\"}").Replace(written)
	want := []string{"title: Plum bake becomes Plum tart", "yield: 12 slices becomes 8 slices", "name: butter becomes salted butter",
		"salted butter: not said becomes 225 g", "new ingredient: honey, not said", "ingredient gone: sugar", "new step: Bake it. (180 C, 1 hour)", "new question: Is it x?"}
	if got := changes(read(written), read(newer)); !slices.Equal(got, want) {
		t.Errorf("got %q", got)
	}
	back := changes(read(newer), read(written))
	if !slices.Contains(back, "step gone: Bake it. (180 C, 1 hour)") || !slices.Contains(back, "question gone: Is it x?") {
		t.Errorf("the way back: %q", back)
	}
	if got := changes(read(written), read(written)); len(got) > 0 {
		t.Errorf("no change gives %q", got)
	}
	other := strings.Replace(written, "Plum bake", "Other", 1)
	if got := changes(read(written), read(written+"---\n"+other)); !slices.Equal(got, []string{"new recipe: Other"}) {
		t.Errorf("a second recipe gives %q", got)
	}
	if got := changes(read(written+"---\n"+other), read(written)); !slices.Equal(got, []string{"recipe gone: Other"}) {
		t.Errorf("a recipe less gives %q", got)
	}
}

func TestSaveReportsClashes(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plum.yaml")
	if _, err := Save(path, []byte(written), false); err != nil {
		t.Fatal(err)
	}
	put1(t, path, strings.Replace(written, "100 g", "90 g", 1))
	res, err := SaveWith(path, []byte(strings.Replace(written, "100 g", "120 g", 1)), false, derive.Options{})
	if err != nil || len(res.Clashes) != 1 || res.Created {
		t.Fatalf("%+v, %v", res, err)
	}
	docs, err := schema.ReadAll(path, []byte(read(t, path)))
	if err != nil {
		t.Fatal(err)
	}
	if a := docs[0].Ingredients[1].Amount; a == nil || a.String() != "90 g" {
		t.Errorf("sugar is %v", a)
	}
	if !slices.ContainsFunc(docs[0].Open(), func(f schema.Flag) bool {
		return f.Kind == schema.ConflictAmount && f.Subject == "sugar" && slices.Equal(f.Evidence, []string{"yours: 90 g", "the recording: 120 g"})
	}) {
		t.Errorf("open flags: %+v", docs[0].Open())
	}
}

func TestSaveJSON(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plum.json")
	docs, err := schema.ReadAll("written", []byte(written))
	if err != nil {
		t.Fatal(err)
	}
	machine, err := jsonOf(docs)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Save(path, machine, false); err != nil {
		t.Fatal(err)
	}
	if d, err := Save(path, machine, false); err != nil || d != "" {
		// The flags that follow from the document may come in, once.
		if _, err := Save(path, machine, false); err != nil {
			t.Fatal(err)
		}
	}
	docs[0].Ingredients[0].Amount = quantity(t, "225 g")
	hers, err := jsonOf(docs)
	if err != nil {
		t.Fatal(err)
	}
	put1(t, path, string(hers))
	docs[0].Ingredients[0].Amount = nil
	docs[0].Ingredients[1].Amount = quantity(t, "120 g")
	newer, err := jsonOf(docs)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Save(path, newer, false); err != nil {
		t.Fatal(err)
	}
	text := read(t, path)
	if !isJSON([]byte(text)) {
		t.Fatalf("no longer JSON:\n%s", text)
	}
	back, err := schema.ReadAll(path, []byte(text))
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []string{"225 g", "120 g"} {
		if a := back[0].Ingredients[i].Amount; a == nil || a.String() != want {
			t.Errorf("%s is %v, not %s", back[0].Ingredients[i].Name, a, want)
		}
	}
}

func TestSaveLeavesWhatItCannotRead(t *testing.T) {
	for name, text := range map[string]string{
		"not YAML":       "title: [unclosed\n",
		"another file":   "a shopping list\n",
		"a wrong field":  strings.Replace(written, "yield:", "yeild:", 1),
		"a wrong amount": strings.Replace(written, "100 g", "a hundredish", 1),
		"a bomb":         "a: &a [1,1,1,1,1,1,1,1,1]\nb: &b [*a,*a,*a,*a,*a,*a,*a,*a,*a]\nc: &c [*b,*b,*b,*b,*b,*b,*b,*b,*b]\nd: &d [*c,*c,*c,*c,*c,*c,*c,*c,*c]\ne: [*d,*d,*d,*d,*d,*d,*d,*d,*d]\n",
	} {
		path := filepath.Join(t.TempDir(), "plum.yaml")
		put1(t, path, text)
		if _, err := Save(path, []byte(written), false); err == nil || !strings.Contains(err.Error(), "left as it is") {
			t.Errorf("%s: error %v", name, err)
		}
		if read(t, path) != text {
			t.Errorf("%s: the file was changed", name)
		}
	}
}

func TestWriteTellsOfOtherHands(t *testing.T) {
	path := filepath.Join(t.TempDir(), "plum.yaml")
	put1(t, path, written)
	a, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	b, err := Open(path)
	if err != nil {
		t.Fatal(err)
	}
	if err := a.Write([]byte(written + "# first\n")); err != nil {
		t.Fatal(err)
	}
	if err := b.Write([]byte(written + "# second\n")); !errors.Is(err, ErrChanged) {
		t.Errorf("the second write gave %v", err)
	}
	if read(t, path) != written+"# first\n" {
		t.Error("the second write changed the file")
	}
	if changed, err := b.Refresh(); err != nil || !changed {
		t.Errorf("refresh: %v, %v", changed, err)
	}
	if err := b.Write([]byte(written + "# second\n")); err != nil {
		t.Error(err)
	}
	if a.Version() == b.Version() {
		t.Error("two texts have one version")
	}
}

func TestWriteThroughALink(t *testing.T) {
	dir := t.TempDir()
	real, link := filepath.Join(dir, "real.yaml"), filepath.Join(dir, "link.yaml")
	put1(t, real, written)
	if err := os.Symlink(real, link); err != nil {
		t.Skip("no links here: ", err)
	}
	if _, err := Save(link, []byte(strings.Replace(written, "title: Plum bake", "title: Plum tart", 1)), false); err != nil {
		t.Fatal(err)
	}
	info, err := os.Lstat(link)
	if err != nil || info.Mode()&os.ModeSymlink == 0 {
		t.Errorf("the link is gone: %v %v", info, err)
	}
}

func TestEditTouchesOnlyWhatChanged(t *testing.T) {
	text := "# My plums\n\n" + strings.Replace(written, "amount: null", "amount:   # not said", 1)
	first, err := Edit("plum.yaml", []byte(text), derive.Options{}, nil)
	if err != nil {
		t.Fatal(err)
	}
	got, err := Edit("plum.yaml", first, derive.Options{}, func(docs []*schema.Document) error {
		docs[0].Ingredients[0].Amount = quantity(t, "225 g")
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	for _, want := range []string{"# My plums\n\nrecipe: 1\n", "    amount: 225 g # not said\n"} {
		if !strings.Contains(string(got), want) {
			t.Errorf("%q is missing in\n%s", want, got)
		}
	}
	again, err := Edit("plum.yaml", got, derive.Options{}, nil)
	if err != nil || string(again) != string(got) {
		t.Errorf("editing nothing changed it (%v):\n%s", err, again)
	}
	refuse := errors.New("no")
	if _, err := Edit("plum.yaml", got, derive.Options{}, func([]*schema.Document) error { return refuse }); !errors.Is(err, refuse) {
		t.Errorf("error %v", err)
	}
}

// FuzzMerge looks for texts that make Merge panic, or lose a remark.
func FuzzMerge(f *testing.F) {
	f.Add(written, strings.Replace(written, "null", "3 # mine", 1), strings.Replace(written, "100 g", "1 cup", 1))
	f.Add("", "a: {b: [1, 2]} # c\n", "a: {b: [1, 3]}\n")
	f.Add("a: 1\n", "- x\n", "a: |\n  # t\n")
	f.Add("title: 'x\n\n  # y'\n", "title: 'x\n\n  # y' # z\nsteps:\n- text: >\n    a\n\n    b\n  # q\n", "title: z\n---\ntitle: y\n")
	f.Add("ingredients: &a\n- {id: x}\n", "ingredients: &a\n- {id: x}\nsteps: *a\n", "ingredients: []\nsteps: []\n")
	f.Fuzz(func(t *testing.T, base, mine, theirs string) {
		got, _, err := Merge([]byte(base), []byte(mine), []byte(theirs))
		if err != nil {
			return
		}
		if _, err := split("merged", got); err != nil {
			t.Fatalf("the merged text does not read: %v\n%s", err, got)
		}
	})
}

func BenchmarkMerge(b *testing.B) {
	var s strings.Builder
	s.WriteString("title: Many\ningredients:\n")
	for i := range 2000 {
		s.WriteString("  - id: i" + strings.Repeat("x", i%7) + string(rune('a'+i%26)) + "\n    name: thing\n    amount: 3 cups\n")
	}
	text := []byte(s.String())
	theirs := []byte(strings.ReplaceAll(s.String(), "3 cups", "4 cups"))
	b.SetBytes(int64(len(text)))
	for b.Loop() {
		if _, _, err := Merge(text, text, theirs); err != nil {
			b.Fatal(err)
		}
	}
}
