package main

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// storeys are the packages of the house from the ground up. A package imports
// only from storeys below its own; a command stands on top of them all.
var storeys = [][]string{
	{"quern/schema", "quern/testdata"},
	{"quern/internal/transcript"},
	{"quern/internal/language"},
	{"quern/internal/lexicon"},
	{"quern/internal/marking"},
	{"quern/extract", "quern/internal/nutrition", "quern/internal/safety"},
	{"quern/internal/derive", "quern/internal/written"},
	{"quern/internal/merge", "quern/internal/publish"},
	{"quern/internal/settle"},
	{"quern/internal/review", "quern/internal/archive"},
}

// readers may import extract, beside the commands: all else works on documents,
// and doesn't know where they come from.
var readers = []string{"quern/internal/archive", "quern/internal/written"}

// onlyIn are the outside packages that are no longer maintained, and where in
// the program they may be used, so that each can be replaced in an hour.
var onlyIn = map[string][]string{
	"github.com/jdkato/prose/v2":      {"internal/language/tagger.go", "bench/yardstick/main.go"},
	"github.com/xeipuuv/gojsonschema": {"schema/validate.go"},
	"gopkg.in/yaml.v3":                {"schema/yaml.go"},
}

// TestImportsRunDownward reads the imports of every file that is no test.
func TestImportsRunDownward(t *testing.T) {
	storey := map[string]int{}
	for i, packages := range storeys {
		for _, p := range packages {
			storey[p] = i
		}
	}
	files := 0
	err := filepath.WalkDir(home, func(file string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		switch name := d.Name(); {
		case d.IsDir() && (name == "node_modules" || name == ".git" || name == "script"):
			return filepath.SkipDir
		case d.IsDir() && slices.Contains([]string{"util", "utils", "common", "helper", "helpers"}, name):
			t.Errorf("%s: a package is named after what it is for", file)
			return nil
		case d.IsDir(), !strings.HasSuffix(name, ".go"), strings.HasSuffix(name, "_test.go"):
			return nil
		}
		files++
		rel, err := filepath.Rel(home, file)
		if err != nil {
			return err
		}
		rel = filepath.ToSlash(rel)
		from := path.Join("quern", path.Dir(rel))
		parsed, err := parser.ParseFile(token.NewFileSet(), file, nil, parser.ImportsOnly)
		if err != nil {
			return err
		}
		level, ok := storey[from]
		command := parsed.Name.Name == "main"
		switch {
		case command:
			level = len(storeys)
		case !ok:
			t.Errorf("%s: package %s has no storey in this test", rel, from)
			return nil
		}
		for _, spec := range parsed.Imports {
			to, err := strconv.Unquote(spec.Path.Value)
			if err != nil {
				return err
			}
			places, ok := onlyIn[to]
			if ok && !slices.ContainsFunc(places, func(place string) bool { return strings.HasPrefix(rel, place) }) {
				t.Errorf("%s imports %s; all use of it belongs in %s", rel, to, strings.Join(places, " and "))
			}
			if !strings.HasPrefix(to, "quern/") {
				continue
			}
			if below, ok := storey[to]; !ok || below >= level {
				t.Errorf("%s imports %s, which is not below %s", rel, to, from)
			}
			if to == "quern/extract" && !command && !slices.Contains(readers, from) {
				t.Errorf("%s imports %s; only commands and %s may", rel, to, strings.Join(readers, ", "))
			}
		}
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	if files == 0 {
		t.Error("no Go files found")
	}
	for p := range storey {
		if _, err := os.Stat(filepath.Join(home, strings.TrimPrefix(p, "quern"))); err != nil {
			t.Errorf("%s has a storey in this test and isn't there", p)
		}
	}
}

// TestPassesAreDescribed wants the passes of the list in DEVELOPERS.md, in
// order.
func TestPassesAreDescribed(t *testing.T) {
	code, err := os.ReadFile(filepath.Join(home, "extract", "talk.go"))
	if err != nil {
		t.Fatal(err)
	}
	var want, got []string
	for _, m := range regexp.MustCompile(`(?m)^\t\{"(\w+)", \(\*talk\)\.`).FindAllStringSubmatch(string(code), -1) {
		want = append(want, m[1])
	}
	if len(want) == 0 {
		t.Fatal("no passes found in extract/talk.go")
	}
	text, err := os.ReadFile(filepath.Join(home, "DEVELOPERS.md"))
	if err != nil {
		t.Fatal(err)
	}
	_, table, _ := strings.Cut(string(text), "| pass | marks |\n| --- | --- |\n")
	table, _, _ = strings.Cut(table, "\n\n")
	for _, row := range strings.Split(table, "\n") {
		names, _, _ := strings.Cut(strings.TrimPrefix(row, "| "), " |")
		got = append(got, strings.Split(names, ", ")...)
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("DEVELOPERS.md lists other passes than extract/talk.go (-code +document):\n%s", d)
	}
}
