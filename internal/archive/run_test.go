package archive

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"quern/internal/merge"
)

// talks are invented recordings of a small archive.
var talks = map[string]string{
	"bars.vtt": "WEBVTT\n\n00:00.000 --> 00:06.000\nToday I'm making ginger oat bars.\n\n00:06.000 --> 00:14.000\nPut two cups of rolled oats and half a cup of plain flour in a bowl.\n\n" +
		"00:14.000 --> 00:22.000\nAdd the honey and a teaspoon of salt and stir it well.\n\n00:22.000 --> 00:30.000\nBake it at 350 degrees for 25 minutes. It makes sixteen bars.\n",
	"cakes/plum.txt":    "[0:00] Plum cake today.\n\n[0:05] Cream one cup of sugar with two sticks of butter. Beat in three eggs.\n\n[0:20] Fold in two cups of all-purpose flour and a pinch of salt.\n\n[0:40] Bake it at 400 degrees for forty minutes.\n",
	"cakes/rhubarb.srt": "1\n00:00:00,000 --> 00:00:05,000\nA rhubarb loaf.\n\n2\n00:00:05,000 --> 00:00:15,000\nMix two cups of plain flour with half a teaspoon of salt and a cup of sugar.\n\n3\n00:00:15,000 --> 00:00:22,000\nBake it for fifty minutes until a skewer comes out clean.\n",
	"soups/broth.md":    "# Ginger broth\n\n[0:02] Simmer two quarts of stock with a knob of ginger for twenty minutes.\n\n[0:20] Season it with salt and serve it hot.\n",
}

// folder makes a folder of files.
func folder(t testing.TB, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		write(t, filepath.Join(dir, filepath.FromSlash(name)), text)
	}
	return dir
}

func write(t testing.TB, name, text string) {
	t.Helper()
	if err := os.MkdirAll(filepath.Dir(name), 0o755); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(name, []byte(text), 0o644); err != nil {
		t.Fatal(err)
	}
}

func read(t testing.TB, name string) string {
	t.Helper()
	data, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

// tree gives every file of a folder with its text.
func tree(t testing.TB, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	err := filepath.WalkDir(dir, func(p string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() {
			return err
		}
		rel, err := filepath.Rel(dir, p)
		out[filepath.ToSlash(rel)] = read(t, p)
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	return out
}

// batch runs and gives the states by path.
func batch(t testing.TB, opt Options) (*Summary, map[string]State) {
	t.Helper()
	states := map[string]State{}
	opt.Progress = func(e Event) { states[e.Path] = e.State }
	sum, err := Run(context.Background(), opt)
	if err != nil {
		t.Fatal(err)
	}
	return sum, states
}

func TestRunMirrorsTheFolder(t *testing.T) {
	in, out := folder(t, talks), filepath.Join(t.TempDir(), "recipes")
	opt := Options{Folder: in, Out: out, Version: "1"}
	sum, _ := batch(t, opt)
	if sum.Recordings != 4 || sum.ByState[Written] != 4 || len(sum.Failures) != 0 {
		t.Errorf("summary %+v, want four written", sum)
	}
	for _, name := range []string{"bars.yaml", "cakes/plum.yaml", "cakes/rhubarb.yaml", "soups/broth.yaml"} {
		if !strings.HasPrefix(read(t, filepath.Join(out, name)), "recipe: 1\n") {
			t.Errorf("%s is no recipe document", name)
		}
	}
	before := tree(t, out)
	sum, states := batch(t, opt)
	if sum.ByState[Unchanged] != 4 {
		t.Errorf("second run: %v, want all unchanged", states)
	}
	if diff := cmp.Diff(before, tree(t, out)); diff != "" {
		t.Errorf("a second run changed files (-before +after):\n%s", diff)
	}
	if sum.Open == 0 || sum.Recipes != 4 {
		t.Errorf("second run counts %d open flags in %d recipes, want those of the first", sum.Open, sum.Recipes)
	}
}

func TestWhatMakesARecordingNew(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	opt := Options{Folder: in, Out: out, Version: "1"}
	batch(t, opt)
	only := func(what string, want map[string]State) {
		t.Helper()
		_, states := batch(t, opt)
		for p, s := range states {
			if s == Unchanged {
				delete(states, p)
			}
		}
		if diff := cmp.Diff(want, states); diff != "" {
			t.Errorf("%s (-want +got):\n%s", what, diff)
		}
	}
	write(t, filepath.Join(in, "bars.vtt"), strings.Replace(talks["bars.vtt"], "two cups", "three cups", 1))
	only("other words", map[string]State{"bars.vtt": Merged})
	if !strings.Contains(read(t, filepath.Join(out, "bars.yaml")), "amount: 3 cups") {
		t.Error("the new amount is not in the document")
	}

	plum := filepath.Join(out, "cakes", "plum.yaml")
	write(t, plum, strings.Replace(read(t, plum), "title: ", "# from the garden\ntitle: Late ", 1))
	only("an edit", map[string]State{"cakes/plum.txt": Kept})
	if text := read(t, plum); !strings.Contains(text, "# from the garden\ntitle: Late ") {
		t.Errorf("the edit is gone:\n%s", text)
	}
	only("nothing after an edit", map[string]State{})

	if err := os.Remove(filepath.Join(out, "soups", "broth.yaml")); err != nil {
		t.Fatal(err)
	}
	only("a document taken away", map[string]State{"soups/broth.md": Written})

	write(t, filepath.Join(out, "cakes", "foods.yaml"), "- {name: plain flour, per: 100 g, kcal: 350, protein_g: 10, fat_g: 1, carbs_g: 72}\n")
	_, states := batch(t, opt)
	if states["cakes/plum.txt"] == Unchanged || states["cakes/rhubarb.srt"] == Unchanged || states["bars.vtt"] != Unchanged {
		t.Errorf("with foods of the cakes' own: %v, want the cakes looked at and nothing else", states)
	}

	opt.Version = "2"
	_, states = batch(t, opt)
	for p, s := range states {
		if s == Unchanged {
			t.Errorf("%s is passed over by another program", p)
		}
	}
}

func TestAFileThatFailsStopsNothing(t *testing.T) {
	files := map[string]string{"empty.txt": "", "broken.vtt": "WEBVTT\n\n00:00.000 --> \nhello there\n"}
	for name, text := range talks {
		files[name] = text
	}
	in, out := folder(t, files), t.TempDir()
	sum, states := batch(t, Options{Folder: in, Out: out, Reports: []string{filepath.Join(out, "report.json")}})
	if states["empty.txt"] != Failed || sum.ByState[Written] < 4 {
		t.Errorf("states %v, want the empty file failed and the rest written", states)
	}
	if len(sum.Failures) == 0 || !strings.HasPrefix(sum.Failures[len(sum.Failures)-1], "empty.txt") {
		t.Errorf("failures %q, want empty.txt with its reason", sum.Failures)
	}
	if !strings.Contains(read(t, filepath.Join(out, "report.json")), "empty.txt") {
		t.Error("the report doesn't tell of the failure")
	}
	// A document that is no recipe is left alone and told of.
	write(t, filepath.Join(out, "bars.yaml"), "shopping: list\n")
	sum, states = batch(t, Options{Folder: in, Out: out})
	if states["bars.vtt"] != Failed || read(t, filepath.Join(out, "bars.yaml")) != "shopping: list\n" {
		t.Errorf("states %v, failures %q; want bars.yaml left alone", states, sum.Failures)
	}
}

func TestDryRunChangesNothing(t *testing.T) {
	in, out := folder(t, talks), filepath.Join(t.TempDir(), "recipes")
	_, states := batch(t, Options{Folder: in, Out: out, DryRun: true})
	if states["bars.vtt"] != Written {
		t.Errorf("states %v, want bars.vtt to be written", states)
	}
	if _, err := os.Stat(out); !errors.Is(err, fs.ErrNotExist) {
		t.Errorf("a dry run made %s", out)
	}
	batch(t, Options{Folder: in, Out: out})
	write(t, filepath.Join(in, "bars.vtt"), strings.Replace(talks["bars.vtt"], "two cups", "three cups", 1))
	before := tree(t, out)
	_, states = batch(t, Options{Folder: in, Out: out, DryRun: true})
	if states["bars.vtt"] != Merged || states["soups/broth.md"] != Unchanged {
		t.Errorf("states %v, want only bars.vtt to be merged", states)
	}
	if diff := cmp.Diff(before, tree(t, out)); diff != "" {
		t.Errorf("a dry run changed files:\n%s", diff)
	}
}

func TestOneRunAtATime(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	s, err := openState(out, false)
	if err != nil {
		t.Fatal(err)
	}
	if _, err := Run(context.Background(), Options{Folder: in, Out: out}); !errors.Is(err, ErrBusy) {
		t.Errorf("a second run gives %v, want ErrBusy", err)
	}
	s.close()
	if _, err := Run(context.Background(), Options{Folder: in, Out: out}); err != nil {
		t.Errorf("after the first has ended: %v", err)
	}
}

func TestWrongCalls(t *testing.T) {
	in := folder(t, talks)
	file := filepath.Join(in, "bars.vtt")
	for _, tt := range []struct {
		name string
		opt  Options
		want string
	}{
		{"no folder", Options{Folder: filepath.Join(in, "nowhere"), Out: t.TempDir()}, "check the name of the folder"},
		{"nothing in it", Options{Folder: t.TempDir(), Out: t.TempDir()}, "no transcript found"},
		{"out is a file", Options{Folder: in, Out: file}, "it is a file"},
		{"a form unknown", Options{Folder: in, Out: t.TempDir(), Reports: []string{"report.pdf"}}, ".html, .csv or .json"},
		{"a pattern unclosed", Options{Folder: in, Out: t.TempDir(), Only: []string{"[a"}}, "pattern"},
		{"foods that aren't there", Options{Folder: in, Out: t.TempDir(), Foods: filepath.Join(in, "no.yaml")}, "no.yaml"},
	} {
		if _, err := Run(context.Background(), tt.opt); err == nil || !strings.Contains(err.Error(), tt.want) {
			t.Errorf("%s: %v, want %q in it", tt.name, err, tt.want)
		}
	}
}

func TestFind(t *testing.T) {
	written := "# Bars\n\n## Ingredients\n\n- 2 cups rolled oats\n- 1/2 cup honey\n\n## Method\n\n1. Mix and bake.\n"
	in := folder(t, map[string]string{
		"a.vtt": talks["bars.vtt"], "a.srt": talks["cakes/rhubarb.srt"], "a.md": written,
		"b.md": talks["soups/broth.md"], "b.html": "<html><p>x</p></html>",
		"c.md":          written, // alone, so it is a transcript
		".hidden/d.vtt": talks["bars.vtt"], ".e.vtt": talks["bars.vtt"], "notes.pdf": "x", "f/G.VTT": talks["bars.vtt"],
		"out/old.txt": "was written here",
	})
	items, err := find(Options{Folder: in, Out: filepath.Join(in, "out")}, MostFiles)
	if err != nil {
		t.Fatal(err)
	}
	want := []item{
		{path: "a.vtt", document: "a.yaml", written: "a.md"},
		{path: "a.srt", taken: "a.vtt"},
		{path: "b.md", document: "b.yaml", written: "b.html"},
		{path: "c.md", document: "c.yaml"},
		{path: "f/G.VTT", document: "f/G.yaml"},
	}
	if diff := cmp.Diff(want, items, cmp.AllowUnexported(item{})); diff != "" {
		t.Errorf("find (-want +got):\n%s", diff)
	}
	items, err = find(Options{Folder: in, Out: t.TempDir(), Only: []string{"f/*", "*.srt"}}, MostFiles)
	if err != nil {
		t.Fatal(err)
	}
	want = []item{{path: "a.srt", document: "a.yaml", written: "a.md"}, {path: "f/G.VTT", document: "f/G.yaml"}}
	if diff := cmp.Diff(want, items, cmp.AllowUnexported(item{})); diff != "" {
		t.Errorf("find with patterns (-want +got):\n%s", diff)
	}
}

func TestAStoppedRunGoesOn(t *testing.T) {
	files := map[string]string{}
	for i := range 40 {
		files[fmt.Sprintf("talk%02d.vtt", i)] = strings.Replace(talks["bars.vtt"], "two cups", fmt.Sprintf("%d cups", i+2), 1)
	}
	in, whole, out := folder(t, files), t.TempDir(), t.TempDir()
	batch(t, Options{Folder: in, Out: whole})
	ctx, cancel := context.WithCancel(context.Background())
	_, err := Run(ctx, Options{Folder: in, Out: out, Jobs: 1, Progress: func(e Event) {
		if e.Number == 5 {
			cancel()
		}
	}})
	if !errors.Is(err, ErrStopped) {
		t.Fatalf("a stopped run gives %v, want ErrStopped", err)
	}
	if _, err := os.Stat(filepath.Join(out, stateFolder, partFile)); err != nil {
		t.Fatalf("what was done is not kept: %v", err)
	}
	_, states := batch(t, Options{Folder: in, Out: out})
	if states["talk00.vtt"] != Unchanged || states["talk39.vtt"] != Written {
		t.Errorf("states %v, want the first passed over and the last written", states)
	}
	if diff := cmp.Diff(tree(t, whole), tree(t, out)); diff != "" {
		t.Errorf("stopped and resumed differs from a run in one go:\n%s", diff)
	}
}

func TestHalfWrittenFilesAreSweptAway(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	batch(t, Options{Folder: in, Out: out})
	before := tree(t, out)
	write(t, filepath.Join(out, stateFolder, partFile), "torn li")
	for _, name := range []string{".bars.yaml1234567890", "cakes/..plum.yaml.quern99999999999", "cakes/.plum.yaml~12345678901", ".quern/new-77"} {
		write(t, filepath.Join(out, name), "half")
	}
	mine := map[string]string{".notes.yaml1234567890": "hers", ".bars.yaml12": "hers"}
	for name, text := range mine {
		write(t, filepath.Join(out, name), text)
		before[name] = text
	}
	batch(t, Options{Folder: in, Out: out})
	if diff := cmp.Diff(before, tree(t, out)); diff != "" {
		t.Errorf("after a killed run (-want +got):\n%s", diff)
	}
}

func TestADamagedState(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	batch(t, Options{Folder: in, Out: out})
	write(t, filepath.Join(out, stateFolder, stateFile), "no state\n")
	_, err := Run(context.Background(), Options{Folder: in, Out: out})
	if err == nil || !regexp.MustCompile(`batch\.tsv:1: .* take the folder .* away`).MatchString(err.Error()) {
		t.Errorf("a damaged state gives %v, want the line and what to do", err)
	}
}

func TestOrphansAreLeftAlone(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	batch(t, Options{Folder: in, Out: out})
	if err := os.Remove(filepath.Join(in, "bars.vtt")); err != nil {
		t.Fatal(err)
	}
	sum, _ := batch(t, Options{Folder: in, Out: out})
	if diff := cmp.Diff([]string{"bars.yaml"}, sum.Orphans); diff != "" {
		t.Errorf("orphans (-want +got):\n%s", diff)
	}
	if _, err := os.Stat(filepath.Join(out, "bars.yaml")); err != nil {
		t.Errorf("the document of a transcript that is gone: %v", err)
	}
}

func TestReportsAreDrawnWhenDue(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	report := filepath.Join(out, "report.json")
	opt := Options{Folder: in, Out: out, Reports: []string{report}}
	batch(t, opt)
	first := read(t, report)
	long := time.Now().Add(-time.Hour)
	if err := os.Chtimes(report, long, long); err != nil {
		t.Fatal(err)
	}
	drawn := func() bool {
		t.Helper()
		info, err := os.Stat(report)
		if err != nil {
			t.Fatal(err)
		}
		return time.Since(info.ModTime()) < time.Minute
	}
	batch(t, opt)
	if drawn() {
		t.Error("a report was drawn again though nothing changed")
	}
	write(t, report, "spoilt")
	batch(t, opt)
	if read(t, report) != first {
		t.Error("a report that was changed is not as it was drawn")
	}
	bars := filepath.Join(out, "bars.yaml")
	write(t, bars, strings.Replace(read(t, bars), "amount: null", "amount: 1/3 cup", 1))
	batch(t, opt)
	var got struct{ Totals Totals }
	if err := json.Unmarshal([]byte(read(t, report)), &got); err != nil {
		t.Fatal(err)
	}
	var was struct{ Totals Totals }
	if err := json.Unmarshal([]byte(first), &was); err != nil {
		t.Fatal(err)
	}
	if got.Totals.Open != was.Totals.Open-1 {
		t.Errorf("after an amount was filled in %d flags are open, want one less than %d", got.Totals.Open, was.Totals.Open)
	}
}

func TestOneTranscriptOfSeveral(t *testing.T) {
	in, out := folder(t, map[string]string{"a.vtt": talks["bars.vtt"], "a.srt": talks["cakes/rhubarb.srt"]}), t.TempDir()
	sum, states := batch(t, Options{Folder: in, Out: out})
	if states["a.srt"] != LeftOut || states["a.vtt"] != Written || len(sum.Failures) != 0 {
		t.Errorf("states %v, want the finer transcript taken", states)
	}
}

func TestOrderedKeepsOrderAndBounds(t *testing.T) {
	const items, workers, window = 500, 4, 8
	var begun, ended atomic.Int64
	i, last := 0, -1
	err := ordered(context.Background(), workers, window, func() (int, bool) { i++; return i - 1, i <= items },
		func(n int) int {
			begun.Add(1)
			if n%7 == 0 {
				time.Sleep(time.Millisecond)
			}
			return n
		},
		func(n int) error {
			if n != last+1 {
				t.Errorf("%d came after %d", n, last)
			}
			last = n
			if open := begun.Load() - ended.Load(); open > workers+window+1 {
				t.Errorf("%d items are under way, want at most %d", open, workers+window+1)
			}
			ended.Add(1)
			return nil
		})
	if err != nil || last != items-1 {
		t.Errorf("ended at %d with %v, want %d and no error", last, err, items-1)
	}
}

func TestOrderedStopsAtAnError(t *testing.T) {
	broken := errors.New("no space left")
	emitted := 0
	err := ordered(context.Background(), 3, 6, func() (int, bool) { return 0, true }, func(n int) int { return n },
		func(int) error {
			emitted++
			if emitted == 10 {
				return broken
			}
			return nil
		})
	if !errors.Is(err, broken) || emitted != 10 {
		t.Errorf("%d emitted, %v; want 10 and the error", emitted, err)
	}
}

func TestKeptCopyAfterACrashBetweenTheTwo(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	batch(t, Options{Folder: in, Out: out})
	want := tree(t, out)
	// As if the program had been killed after the document and before its copy.
	if err := os.Remove(merge.Written(filepath.Join(out, "bars.yaml"))); err != nil {
		t.Fatal(err)
	}
	if err := os.RemoveAll(filepath.Join(out, stateFolder)); err != nil {
		t.Fatal(err)
	}
	batch(t, Options{Folder: in, Out: out})
	if diff := cmp.Diff(want, tree(t, out)); diff != "" {
		t.Errorf("(-want +got):\n%s", diff)
	}
}

func TestPatternsKeepTheRest(t *testing.T) {
	in, out := folder(t, talks), t.TempDir()
	batch(t, Options{Folder: in, Out: out})
	report := filepath.Join(out, "new", "report.json")
	_, states := batch(t, Options{Folder: in, Out: out, Only: []string{"*.vtt"}, Reports: []string{report}})
	if diff := cmp.Diff(map[string]State{"bars.vtt": Unchanged}, states); diff != "" {
		t.Errorf("with a pattern (-want +got):\n%s", diff)
	}
	var got struct{ Totals Totals }
	if err := json.Unmarshal([]byte(read(t, report)), &got); err != nil {
		t.Fatal(err)
	}
	if got.Totals.Recordings != 4 {
		t.Errorf("the report tells of %d recordings, want all four", got.Totals.Recordings)
	}
	_, states = batch(t, Options{Folder: in, Out: out})
	for p, s := range states {
		if s != Unchanged {
			t.Errorf("%s is %s after a run with a pattern, want unchanged", p, s)
		}
	}
}

func TestOddTranscriptsAreToldOf(t *testing.T) {
	in := folder(t, map[string]string{"a.vtt": "WEBVTT\n\n00:09.000 --> 00:02.000\nPut two cups of oats in a bowl.\n\n00:05.000 --> 00:08.000\nBake it for ten minutes.\n"})
	note := ""
	_, err := Run(context.Background(), Options{Folder: in, Out: t.TempDir(), Progress: func(e Event) { note = e.Note }})
	if err != nil || !strings.HasPrefix(note, "line 3: ") {
		t.Errorf("note %q, %v; want the line of the cue that ends before it begins", note, err)
	}
}
