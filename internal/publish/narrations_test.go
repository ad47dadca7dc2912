package publish

import (
	"bytes"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"

	"quern/extract"
	"quern/internal/derive"
	"quern/internal/transcript"
	"quern/schema"
)

// told are the recipes told in a narration, with what follows from them.
func told(t testing.TB, path string) []*schema.Document {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	n, err := transcript.Parse(filepath.Base(path), data)
	if err != nil {
		t.Fatal(err)
	}
	docs := extract.Extract(n)
	for _, doc := range docs {
		derive.Apply(doc, derive.Options{})
	}
	return docs
}

// TestGoldenNarrations writes the recipes of the narrations under testdata in
// every form and compares them with the files in testdata/golden.
func TestGoldenNarrations(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/narrations/d*.md")
	if err != nil || len(paths) < 6 {
		t.Fatalf("%d narrations under testdata/narrations, %v", len(paths), err)
	}
	for _, path := range paths {
		for i, doc := range told(t, path) {
			name := strings.TrimSuffix(filepath.Base(path), ".md")
			if i > 0 {
				name = fmt.Sprintf("%s-%d", name, i+1)
			}
			for _, f := range forms() {
				ending := f.ending
				if f.name == "questions" {
					ending = ".questions.md"
				}
				t.Run(name+ending, func(t *testing.T) {
					golden(t, name+ending, []byte(written(t, f.name, doc, Options{Recording: "https://example.org/film.mp4", Measures: "both"})))
				})
			}
		}
	}
}

// shared are the narrations outside the repository, in order.
func shared(t testing.TB) []string {
	t.Helper()
	paths, err := filepath.Glob("../../../shared/narrations/d*/narration.md")
	if err != nil {
		t.Fatal(err)
	}
	if len(paths) == 0 {
		missing(t, "../shared/narrations (a folder of narrations, one folder a case)")
	}
	return paths
}

// TestNarrations writes every narration's recipes in every form: the structured
// data fits the vocabulary of schema.org (npm schema-dts), the chapters have no
// error for the W3C's webvtt-parser (npm), the pages are valid for
// html-validate (npm), and axe-core (npm) finds nothing in Chromium at three
// widths and on paper. It tells totals only, and of what failed the name.
func TestNarrations(t *testing.T) {
	if testing.Short() {
		t.Skip("takes minutes; left out by -short")
	}
	paths := shared(t)
	dir := workshop(t, modules(t, "schema-dts", "typescript", "webvtt-parser", "html-validate", "axe-core"))
	source := "import type { Recipe, WithContext } from \"schema-dts\";\n"
	var owners []string // the name each line of source belongs to
	pages := map[string][]byte{}
	var chapters []string
	for _, path := range paths {
		name := filepath.Base(filepath.Dir(path))
		for i, doc := range told(t, path) {
			key := fmt.Sprintf("%s_%d", name, i+1)
			out := map[string]string{}
			for _, form := range Forms() {
				var b bytes.Buffer
				if err := Write(&b, form, doc, Options{Recording: "https://example.org/film.mp4"}); err != nil {
					t.Errorf("%s can't be written as %s", key, form)
				}
				out[form] = b.String()
			}
			data := fmt.Sprintf("export const %s: WithContext<Recipe> = %s;\n", key, strings.ReplaceAll(strings.TrimSpace(out["jsonld"]), "\n", " "))
			source += data
			owners = append(owners, key)
			pages[key] = []byte(out["html"])
			save(t, dir, key+".html", []byte(out["html"]))
			save(t, dir, key+".vtt", []byte(out["chapters"]))
			chapters = append(chapters, key+".vtt")
		}
	}
	node := func(args ...string) (string, error) {
		cmd := exec.Command("node", args...)
		cmd.Dir = dir
		out, err := cmd.CombinedOutput()
		return string(out), err
	}

	save(t, dir, "check.ts", []byte(source))
	if out, err := node("node_modules/typescript/bin/tsc", "--noEmit", "--strict", "--moduleResolution", "bundler", "--module", "esnext", "--skipLibCheck",
		"--types", "", "check.ts"); err != nil {
		for _, m := range regexp.MustCompile(`check\.ts\((\d+),`).FindAllStringSubmatch(out, -1) {
			var line int
			if _, err := fmt.Sscan(m[1], &line); err == nil && line-2 < len(owners) {
				t.Errorf("structured data of %s doesn't fit the vocabulary", owners[line-2])
			}
		}
		if !t.Failed() {
			t.Errorf("the compiler failed: %v", err)
		}
	}

	save(t, dir, "check.mjs", []byte(`
import { readFileSync } from "node:fs";
import * as vtt from "webvtt-parser";
const Parser = vtt.WebVTTParser ?? vtt.default.WebVTTParser;
for (const name of process.argv.slice(2)) {
  const tree = new Parser().parse(readFileSync(name, "utf8"), "chapters");
  if (tree.errors.length > 0 || tree.cues.length === 0) console.log(name);
}
`))
	if out, err := node(append([]string{"check.mjs"}, chapters...)...); err != nil || out != "" {
		t.Errorf("chapters with errors, or none: %s (%v)", strings.Fields(out), err)
	}

	save(t, dir, ".htmlvalidate.json", []byte(`{"root": true, "extends": ["html-validate:recommended"]}`))
	for _, key := range owners {
		if _, err := node("node_modules/html-validate/bin/html-validate.mjs", key+".html"); err != nil {
			t.Errorf("the page of %s isn't valid", key)
		}
	}

	axe, err := os.ReadFile(filepath.Join(dir, "node_modules", "axe-core", "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	ctx := browser(t)
	s := serve(t, pages)
	sheets := 0
	for _, key := range owners {
		for _, view := range views {
			if view.media == "screen" && view.scheme == "dark" && view.width != 360 {
				continue
			}
			do(t, ctx, look(view.media, view.scheme, view.width), chromedp.Navigate(s.URL+"/"+key))
			do(t, ctx, chromedp.Evaluate[chromedp.Void](string(axe)))
			if list := value[[]string](t, ctx, violations); len(list) > 0 {
				t.Errorf("%s: %d violations, %s at %d px", key, len(list), view.media, view.width)
			}
			if over := value[float64](t, ctx, sideways); over > 0 {
				t.Errorf("%s runs %g px out of the side at %d px", key, over, view.width)
			}
		}
		n := len(printedPages(printed(t, ctx, s.URL+"/"+key)))
		if n < 1 || n > 2 {
			t.Errorf("%s prints on %d sheets", key, n)
		}
		sheets += n
	}
	for _, path := range s.asked {
		if pages[strings.TrimPrefix(path, "/")] == nil {
			t.Errorf("a page asked for %s", path)
		}
	}
	t.Logf("%d narrations, %d recipes, %d printed sheets", len(paths), len(owners), sheets)
}
