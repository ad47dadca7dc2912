package publish

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"sort"
	"strings"
	"testing"

	"quern/schema"
)

// missing skips a test whose outside tool isn't there, and fails it where CI
// says that it must be.
func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("%s is needed for this test", what)
	}
	t.Skipf("%s is needed for this test", what)
}

// modules is the folder of the npm packages that testdata/npm/package.json
// names; want are the ones a test needs.
func modules(t testing.TB, want ...string) string {
	t.Helper()
	dir, err := filepath.Abs("../../testdata/npm/node_modules")
	if err != nil {
		t.Fatal(err)
	}
	if _, err := exec.LookPath("node"); err != nil {
		missing(t, "node")
	}
	for _, name := range want {
		if _, err := os.Stat(filepath.Join(dir, name, "package.json")); err != nil {
			missing(t, "npm package "+name+" (npm install in testdata/npm)")
		}
	}
	return dir
}

// names are the keys of a map of documents in order.
func names(docs map[string]*schema.Document) []string {
	var out []string
	for name := range docs {
		out = append(out, name)
	}
	sort.Strings(out)
	return out
}

// workshop is a folder in which node finds the packages.
func workshop(t testing.TB, modules string) string {
	t.Helper()
	dir := t.TempDir()
	if err := os.Symlink(modules, filepath.Join(dir, "node_modules")); err != nil {
		t.Fatal(err)
	}
	return dir
}

func save(t testing.TB, dir, name string, data []byte) string {
	t.Helper()
	path := filepath.Join(dir, name)
	if err := os.WriteFile(path, data, 0o644); err != nil {
		t.Fatal(err)
	}
	return path
}

// TestStructuredDataVocabulary checks the JSON-LD of every document against the
// vocabulary of schema.org as the npm package schema-dts types it: the
// TypeScript compiler refuses a property or a kind of value that isn't in it.
func TestStructuredDataVocabulary(t *testing.T) {
	dir := workshop(t, modules(t, "schema-dts", "typescript"))
	compile := func(source string) (string, error) {
		save(t, dir, "check.ts", []byte(source))
		cmd := exec.Command("node", "node_modules/typescript/bin/tsc", "--noEmit", "--strict", "--moduleResolution", "bundler", "--module", "esnext",
			"--skipLibCheck", "--types", "", "check.ts")
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		return string(out), err
	}
	const head = "import type { Recipe, WithContext } from \"schema-dts\";\n"
	source := head
	docs := documents(t)
	for i, name := range names(docs) {
		for j, opt := range []Options{{}, {Recording: "https://example.org/film.mp4", Measures: "both", Factor: 1.5}} {
			var b bytes.Buffer
			if err := JSONLD(&b, docs[name], opt); err != nil {
				t.Fatal(err)
			}
			source += fmt.Sprintf("export const r%d_%d: WithContext<Recipe> = %s;\n", i, j, b.String())
		}
	}
	if out, err := compile(source); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	// The check itself must be one that can fail.
	if _, err := compile(head + `export const r: WithContext<Recipe> = {"@context": "https://schema.org", "@type": "Recipe", "cookingTime": "PT1H"};` + "\n"); err == nil {
		t.Error("a property that schema.org doesn't have was accepted")
	}
}

// TestChaptersParse reads the chapters of every document with the W3C's
// webvtt-parser (npm), which must find no error, at least one cue, and the same
// titles as the plain lines.
func TestChaptersParse(t *testing.T) {
	dir := workshop(t, modules(t, "webvtt-parser"))
	save(t, dir, "check.mjs", []byte(`
import { readFileSync } from "node:fs";
import * as vtt from "webvtt-parser";
const Parser = vtt.WebVTTParser ?? vtt.default.WebVTTParser;
const named = JSON.parse(readFileSync("node_modules/webvtt-parser/html-entities.json", "utf8"));
const entities = Object.fromEntries(Object.entries(named).map(([name, e]) => [name, e.characters ?? e]));
const tree = new Parser(entities).parse(readFileSync(process.argv[2], "utf8"), "chapters");
const words = (node) => node.type === "text" ? node.value : (node.children ?? []).map(words).join("");
console.log(JSON.stringify({
  errors: tree.errors.map((e) => e.line + ": " + e.message),
  cues: tree.cues.map((c) => ({ from: c.startTime, to: c.endTime, title: words(c.tree) })),
}));
`))
	docs := documents(t)
	for _, name := range names(docs) {
		var vtt, lines bytes.Buffer
		if err := Chapters(&vtt, docs[name], Options{}); err != nil {
			continue // a transcript without times has none; see TestChaptersWithoutTimes
		}
		if err := Chapters(&lines, docs[name], Options{Format: "lines"}); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("node", "check.mjs", save(t, dir, name+".vtt", vtt.Bytes()))
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
		var got struct {
			Errors []string
			Cues   []struct {
				From, To float64
				Title    string
			}
		}
		if err := json.Unmarshal(out, &got); err != nil {
			t.Fatalf("%s: %v\n%s", name, err, out)
		}
		if len(got.Errors) > 0 {
			t.Errorf("%s: %s\n%s", name, strings.Join(got.Errors, "\n"), vtt.String())
		}
		want := strings.Split(strings.TrimSpace(lines.String()), "\n")
		if len(got.Cues) != len(want) {
			t.Fatalf("%s: %d cues, %d lines", name, len(got.Cues), len(want))
		}
		for i, c := range got.Cues {
			if _, title, _ := strings.Cut(want[i], " "); c.Title != title {
				t.Errorf("%s: cue %d is %q, line is %q", name, i+1, c.Title, title)
			}
			if c.To-c.From < shortest {
				t.Errorf("%s: chapter %q lasts %g s", name, c.Title, c.To-c.From)
			}
		}
		if got.Cues[0].From != 0 {
			t.Errorf("%s: the first chapter begins at %g s", name, got.Cues[0].From)
		}
	}
}

// TestValidHTML checks the pages with html-validate (npm), its recommended
// rules.
func TestValidHTML(t *testing.T) {
	dir := workshop(t, modules(t, "html-validate"))
	save(t, dir, ".htmlvalidate.json", []byte(`{"root": true, "extends": ["html-validate:recommended"]}`))
	args := []string{"node_modules/html-validate/bin/html-validate.mjs"}
	for name, data := range pages(t) {
		save(t, dir, name+".html", data)
		args = append(args, name+".html")
	}
	cmd := exec.Command("node", args...)
	cmd.Dir = dir
	if out, err := cmd.CombinedOutput(); err != nil {
		t.Fatalf("%v\n%s", err, out)
	}
	save(t, dir, "bad.html", []byte("<!DOCTYPE html><html><body><p><div></p></body></html>"))
	cmd = exec.Command("node", args[0], "bad.html")
	cmd.Dir = dir
	if err := cmd.Run(); err == nil {
		t.Error("a page that isn't valid was accepted")
	}
}

// pages are the HTML pages the tests look at, by name.
func pages(t testing.TB) map[string][]byte {
	t.Helper()
	out := map[string][]byte{}
	docs := documents(t)
	for _, name := range names(docs) {
		add := func(kind, form string, opt Options) {
			var b bytes.Buffer
			if err := Write(&b, form, docs[name], opt); err != nil {
				t.Fatal(err)
			}
			out[name+kind] = b.Bytes()
		}
		add("", "html", Options{})
		add("-film", "html", Options{Recording: "https://example.org/film.mp4", Measures: "both", Factor: 2})
		add("-questions", "questions", Options{Format: "html", Recording: "https://example.org/film.mp4"})
	}
	return out
}

// TestMarkdownReads reads the Markdown of the hostile document with the
// reference reader of CommonMark (npm commonmark): nothing of its words may
// have become markup.
func TestMarkdownReads(t *testing.T) {
	dir := workshop(t, modules(t, "commonmark"))
	save(t, dir, "check.cjs", []byte(`
const { Parser } = require("commonmark");
const walker = new Parser().parse(require("fs").readFileSync(0, "utf8")).walker();
const found = {};
let event;
while ((event = walker.next())) {
  if (!event.entering) continue;
  found[event.node.type] = (found[event.node.type] ?? 0) + 1;
}
console.log(JSON.stringify(found));
`))
	doc := document(t, "hostile")
	for _, form := range []string{"markdown", "questions"} {
		var b bytes.Buffer
		if err := Write(&b, form, doc, Options{}); err != nil {
			t.Fatal(err)
		}
		cmd := exec.Command("node", "check.cjs")
		cmd.Dir = dir
		cmd.Stdin = &b
		out, err := cmd.CombinedOutput()
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		var found map[string]int
		if err := json.Unmarshal(out, &found); err != nil {
			t.Fatal(err)
		}
		for _, kind := range []string{"html_inline", "html_block", "link", "image", "code", "code_block"} {
			if found[kind] > 0 {
				t.Errorf("%s: the words became %d of %s", form, found[kind], kind)
			}
		}
		if found["heading"] == 0 {
			t.Errorf("%s: no heading was found", form)
		}
	}
}
