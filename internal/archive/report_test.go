package archive

import (
	"context"
	"encoding/csv"
	"encoding/json"
	"flag"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/chromedp"
	"github.com/google/go-cmp/cmp"
)

var pictures = flag.String("pictures", "", "a folder to keep screenshots of the report in, to be looked at")

// missing skips a test for want of a tool; where everything must be there it
// fails.
func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("this test wants %s", what)
	}
	t.Skipf("this test wants %s", what)
}

// drawn runs a batch over an archive that has something of everything, and
// gives its folder with the three reports in it.
func drawn(t testing.TB) string {
	t.Helper()
	files := map[string]string{
		"bars.md": "# Ginger oat bars\n\nMakes 20 bars\n\n## Ingredients\n\n- 2 cups rolled oats\n- 1/2 cup plain flour\n- 1/3 cup honey\n- 1 tsp salt\n\n## Method\n\n" +
			"1. Stir the oats, flour, honey and salt together.\n2. Bake at 375 F for 25 minutes.\n",
		"again.vtt":              strings.Replace(talks["bars.vtt"], "350", "400", 1),
		"empty.txt":              "",
		"<b>odd & \"name\".vtt":  talks["bars.vtt"],
		"cakes/another plum.txt": strings.ReplaceAll(talks["cakes/plum.txt"], "Cream one cup", "Cream two cups"),
	}
	for name, text := range talks {
		files[name] = text
	}
	in, out := folder(t, files), t.TempDir()
	opt := Options{Folder: in, Out: out}
	for _, name := range []string{"report.html", "report.csv", "report.json"} {
		opt.Reports = append(opt.Reports, filepath.Join(out, name))
	}
	batch(t, opt)
	return out
}

func TestReportForms(t *testing.T) {
	out := drawn(t)
	var data struct {
		Rows     []Row
		Totals   Totals
		Across   Across
		Failures []string
		Notice   string
	}
	if err := json.Unmarshal([]byte(read(t, filepath.Join(out, "report.json"))), &data); err != nil {
		t.Fatal(err)
	}
	var bars *Row
	for i := range data.Rows {
		if data.Rows[i].Path == "bars.vtt" {
			bars = &data.Rows[i]
		}
	}
	if bars == nil || bars.Written != "bars.md" || len(bars.Differs) == 0 || bars.Yield != "16 bars" || bars.Length != 30 {
		t.Fatalf("row of bars.vtt %+v, want it compared with bars.md, 16 bars, 30 s", bars)
	}
	if len(data.Rows) != 7 || data.Totals.Recordings != 7 || data.Totals.Compared != 1 || len(data.Failures) != 1 || data.Notice == "" {
		t.Errorf("%d rows, totals %+v, failures %q; want 7, one compared, one failure", len(data.Rows), data.Totals, data.Failures)
	}
	if len(data.Across.Twins) == 0 || len(data.Across.Heats) == 0 || len(data.Across.Index) == 0 || len(data.Across.Synonyms) == 0 {
		t.Errorf("across the archive %+v, want twins, temperatures, names and an index", data.Across)
	}
	spread := 0
	for _, n := range data.Totals.Complete {
		spread += n
	}
	if spread != data.Totals.Recipes {
		t.Errorf("the spread counts %d recipes of %d", spread, data.Totals.Recipes)
	}

	table, err := csv.NewReader(strings.NewReader(read(t, filepath.Join(out, "report.csv")))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	if len(table) != 8 {
		t.Errorf("the table has %d lines, want a head and 7", len(table))
	}
	open := slices.Index(table[0], "open flags")
	for i, row := range data.Rows {
		if got := table[i+1][open]; got != number(row.open()) {
			t.Errorf("line %d of the table counts %s open flags, the data %d", i+2, got, row.open())
		}
	}

	page := read(t, filepath.Join(out, "report.html"))
	if strings.Contains(page, "<b>odd") {
		t.Error("a file's name is markup in the page")
	}
	for _, want := range []string{"Could not be read", "empty.txt", "lacks ", "Ginger", "href=\"./bars.yaml\"", "differences"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	if found := regexp.MustCompile(`(?i)\b(https?:)?//|url\(|<link|<img|@import`).FindString(page); found != "" {
		t.Errorf("the page asks for something outside: %s", found)
	}
}

func TestSafeCells(t *testing.T) {
	for in, want := range map[string]string{"": "", "Bars": "Bars", "=1+1": "'=1+1", "-3": "'-3", "@x": "'@x", "+1": "'+1"} {
		if got := cell(in); got != want {
			t.Errorf("cell(%q) = %q, want %q", in, got, want)
		}
	}
}

// TestReportInBrowser opens the page in Chromium: nothing is asked of the
// network, axe-core (npm) finds nothing against its accessibility at three
// widths, light and dark, nothing runs out of the side, and the heads put the
// lines in order.
func TestReportInBrowser(t *testing.T) {
	axe, err := os.ReadFile(filepath.FromSlash("../../testdata/npm/node_modules/axe-core/axe.min.js"))
	if err != nil {
		missing(t, "axe-core (npm install in testdata/npm)")
	}
	path := ""
	for _, name := range []string{"chromium", "chromium-browser", "google-chrome"} {
		if found, err := exec.LookPath(name); err == nil {
			path = found
			break
		}
	}
	if path == "" {
		missing(t, "Chromium (Debian package chromium)")
	}
	page := []byte(read(t, filepath.Join(drawn(t), "report.html")))
	var asked []string
	server := httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		asked = append(asked, r.URL.Path)
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = w.Write(page) // a browser that went away is no concern of the test
	}))
	defer server.Close()
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))...)
	defer stop()
	ctx, cancel := chromedp.NewContext(alloc)
	defer cancel()
	if err := chromedp.Do(ctx); err != nil { // the browser lives as long as this context
		t.Fatal(err)
	}
	ctx, late := context.WithTimeout(ctx, 2*time.Minute)
	defer late()
	for _, width := range []int64{360, 768, 1280} {
		for _, scheme := range []string{"light", "dark"} {
			_, err := chromedp.Run(ctx, func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
				_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
					Media: "screen", Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
				if err != nil {
					return chromedp.Void{}, err
				}
				return chromedp.EmulateViewport(width, 900)(ctx, tab)
			})
			if err != nil {
				t.Fatal(err)
			}
			if err := chromedp.Do(ctx, chromedp.Navigate(server.URL+"/"), chromedp.Evaluate[chromedp.Void](`document.querySelectorAll("details").forEach(d => d.open = true)`),
				chromedp.Evaluate[chromedp.Void](string(axe))); err != nil {
				t.Fatal(err)
			}
			found, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`axe.run(document, {resultTypes: ["violations"], rules: {"target-size": {enabled: true}}}).then(r =>
				r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 200) + " " + n.failureSummary).join("; ")))`, chromedp.EvalAwaitPromise))
			if err != nil {
				t.Fatal(err)
			}
			for _, v := range found {
				t.Errorf("%d %s: %s", width, scheme, v)
			}
			over, err := chromedp.Run(ctx, chromedp.Evaluate[float64](`document.documentElement.scrollWidth - window.innerWidth`))
			if err != nil || over > 0 {
				t.Errorf("%d %s: the page runs %g px out of the side (%v)", width, scheme, over, err)
			}
			if *pictures != "" {
				shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
				if err != nil {
					t.Fatal(err)
				}
				write(t, filepath.Join(*pictures, scheme+number(int(width))+".png"), string(shot))
			}
		}
	}
	order := func(column int) []string {
		t.Helper()
		got, err := chromedp.Run(ctx, chromedp.Evaluate[[]string](`(() => {
			document.querySelectorAll("table[data-sorts] thead button")[`+number(column)+`].click();
			return [...document.querySelectorAll("table[data-sorts] tbody tr")].map(r => r.cells[`+number(column)+`].dataset.v);
		})()`))
		if err != nil {
			t.Fatal(err)
		}
		return got
	}
	up := order(4)
	down := order(4)
	slices.Reverse(down)
	if len(up) != 7 || !slices.IsSortedFunc(up, func(a, b string) int { return len(a) - len(b) }) || cmp.Diff(up, down) != "" && len(slices.Compact(slices.Clone(up))) == len(up) {
		t.Errorf("by completeness the lines are %v, and turned around %v", up, down)
	}
	for _, p := range asked {
		if p != "/" {
			t.Errorf("the page asked for %s", p)
		}
	}
}
