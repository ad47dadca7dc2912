package main

import (
	"encoding/json"
	"flag"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"testing"
)

var updateScores = flag.Bool("update-scores", false, "store the present scores in testdata/score.json")

// scoreRuns are the measured sets: narrations with gold answers, in the style
// of a careful transcriber and of a recogniser.
var scoreRuns = []struct {
	name string
	args []string
}{
	{"d01-d16 brackets", []string{"--cases", "d01-d16", "../shared/narrations"}},
	{"d01-d16 asr", []string{"--cases", "d01-d16", "--style", "asr", "../shared/narrations"}},
	{"d17-d24 brackets", []string{"--cases", "d17-d24", "../shared/narrations"}},
	{"d17-d24 asr", []string{"--cases", "d17-d24", "--style", "asr", "../shared/narrations"}},
	{"talks brackets", []string{"testdata/talks"}},
	{"real recordings", []string{"../shared/real-asr/gold"}},
}

// TestScores keeps what was reached: no row of the scores against gold
// answers may fall more than 0.01 under the stored figure.
func TestScores(t *testing.T) {
	if testing.Short() {
		t.Skip("the scores take half a minute")
	}
	root, err := filepath.Abs(filepath.Join("..", ".."))
	if err != nil {
		t.Fatal(err)
	}
	script := filepath.Join("..", "shared", "score", "score.py")
	if _, err := os.Stat(filepath.Join(root, script)); err != nil {
		missingScore(t, "../shared/score/score.py")
	}
	python, err := exec.LookPath("python3")
	if err != nil {
		missingScore(t, "python3")
	}
	tool := filepath.Join(t.TempDir(), "quern")
	build := exec.Command("go", "build", "-o", tool, "./cmd/quern")
	build.Dir = root
	if out, err := build.CombinedOutput(); err != nil {
		t.Fatalf("building quern: %v\n%s", err, out)
	}
	store := filepath.Join(root, "testdata", "score.json")
	stored := map[string]map[string]float64{}
	if data, err := os.ReadFile(store); err == nil {
		if err := json.Unmarshal(data, &stored); err != nil {
			t.Fatal(err)
		}
	}
	now := map[string]map[string]float64{}
	for _, run := range scoreRuns {
		result := filepath.Join(t.TempDir(), "score.json")
		args := append([]string{script, "--tool", tool + " extract --format json {file}", "--json", result}, run.args...)
		cmd := exec.Command(python, args...)
		cmd.Dir = root
		if out, err := cmd.CombinedOutput(); err != nil {
			t.Fatalf("%s: %v\n%s", run.name, err, out)
		}
		now[run.name] = readScores(t, result)
	}
	if *updateScores {
		data, err := json.MarshalIndent(now, "", "  ")
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(store, append(data, '\n'), 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if len(stored) == 0 {
		t.Fatal("testdata/score.json is missing; run with -update-scores")
	}
	for name, rows := range stored {
		keys := make([]string, 0, len(rows))
		for row := range rows {
			keys = append(keys, row)
		}
		sort.Strings(keys)
		for _, row := range keys {
			if got := now[name][row]; got < rows[row]-0.01 {
				t.Errorf("%s: %s is %.3f, %.3f was reached", name, row, got, rows[row])
			}
		}
	}
}

// readScores gives each row's F1 or rate; an invented row counts against
// itself, so that more of them is a lower score.
func readScores(t *testing.T, path string) map[string]float64 {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	var r struct {
		Overall float64
		Failed  [][]string
		Rows    map[string]map[string]*float64
	}
	if err := json.Unmarshal(data, &r); err != nil {
		t.Fatal(err)
	}
	if len(r.Failed) > 0 {
		t.Errorf("cases without a document: %v", r.Failed)
	}
	out := map[string]float64{"OVERALL": r.Overall}
	for row, v := range r.Rows {
		for _, key := range []string{"f1", "acc"} {
			if x := v[key]; x != nil {
				out[row] = *x
			}
		}
		if x := v["count"]; x != nil {
			out[row] = -*x
		}
	}
	return out
}

func missingScore(t *testing.T, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is missing", what)
	}
	t.Skipf("%s is missing", what)
}
