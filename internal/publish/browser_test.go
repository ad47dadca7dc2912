package publish

import (
	"context"
	"flag"
	"fmt"
	"net/http"
	"net/http/httptest"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"sort"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	chrome "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
)

var pictures = flag.String("pictures", "", "a folder to keep screenshots and prints of the pages in, to be looked at")

// browser starts headless Chromium, with a profile of its own, and ends it with
// the test.
func browser(t testing.TB) context.Context {
	t.Helper()
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
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.NoSandbox, chromedp.DisableGPU,
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true))...)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(func() { cancel(); stop() })
	if err := chromedp.Do(ctx); err != nil { // the browser lives as long as this context
		t.Fatal(err)
	}
	ctx, late := context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(late)
	return ctx
}

// look makes the browser show a page as on screen or paper, light or dark, at
// a width in px.
func look(media, scheme string, width int64) chromedp.Action[chromedp.Void] {
	return func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Media: media, Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		if err != nil {
			return chromedp.Void{}, err
		}
		return chromedp.EmulateViewport(width, 800)(ctx, tab)
	}
}

// value evaluates an expression in the page, and waits for its promise.
func value[T any](t testing.TB, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatal(err)
	}
	return v
}

func do(t testing.TB, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// shop serves pages and notes every request.
type shop struct {
	sync.Mutex
	asked []string
	*httptest.Server
}

func serve(t testing.TB, pages map[string][]byte) *shop {
	t.Helper()
	s := &shop{}
	s.Server = httptest.NewServer(http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		s.Lock()
		s.asked = append(s.asked, r.URL.Path)
		s.Unlock()
		data, ok := pages[strings.TrimPrefix(r.URL.Path, "/")]
		if !ok {
			http.NotFound(w, r)
			return
		}
		w.Header().Set("Content-Type", "text/html; charset=utf-8")
		_, _ = w.Write(data) // a browser that went away is no concern of the test
	}))
	t.Cleanup(s.Close)
	return s
}

// views are the ways a page is looked at.
var views = []struct {
	media, scheme string
	width         int64 // px
}{
	{"screen", "light", 360}, {"screen", "dark", 360}, {"screen", "light", 768}, {"screen", "dark", 768},
	{"screen", "light", 1280}, {"screen", "dark", 1280}, {"print", "light", 720},
}

// What is asked of a page: what axe-core has against it, and how far it runs
// out of the side, in px.
const (
	violations = `axe.run(document, {resultTypes: ["violations"]}).then(r =>
		r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 200) + " " + n.failureSummary).join("; ")))`
	sideways = `document.documentElement.scrollWidth - window.innerWidth`
)

// printed is a page as a PDF of A4 sheets.
func printed(t testing.TB, ctx context.Context, address string) []byte {
	t.Helper()
	do(t, ctx, look("", "light", 720), chromedp.Navigate(address))
	pdf, err := chromedp.Run(ctx, chromedp.PrintToPDF(chromedp.PDFPaper(chromedp.PaperA4), chromedp.PDFPreferCSSPageSize()))
	if err != nil {
		t.Fatalf("%s: %v", address, err)
	}
	return pdf
}

// printedPages are the marks of the pages in a PDF.
func printedPages(pdf []byte) [][]byte { return regexp.MustCompile(`/Type\s*/Page\b`).FindAll(pdf, -1) }

// TestPagesInBrowser opens every page in Chromium: nothing is asked of the
// network but the page, axe-core (npm) finds nothing against its
// accessibility, and nothing runs out of the side, at three widths, light and
// dark, and in print; on paper it fits two sheets.
func TestPagesInBrowser(t *testing.T) {
	dir := modules(t, "axe-core")
	axe, err := os.ReadFile(filepath.Join(dir, "axe-core", "axe.min.js"))
	if err != nil {
		t.Fatal(err)
	}
	if *pictures != "" {
		if err := os.MkdirAll(*pictures, 0o755); err != nil {
			t.Fatal(err)
		}
	}
	ctx := browser(t)
	all := pages(t)
	s := serve(t, all)
	for _, name := range sortedKeys(all) {
		s.Lock()
		s.asked = nil
		s.Unlock()
		for i, view := range views {
			if testing.Short() && i > 0 {
				break
			}
			where := fmt.Sprintf("%s-%s-%s-%d", name, view.media, view.scheme, view.width)
			do(t, ctx, look(view.media, view.scheme, view.width), chromedp.Navigate(s.URL+"/"+name))
			do(t, ctx, chromedp.Evaluate[chromedp.Void](string(axe)))
			for _, v := range value[[]string](t, ctx, violations) {
				t.Errorf("%s: %s", where, v)
			}
			if over := value[float64](t, ctx, sideways); over > 0 {
				t.Errorf("%s: the page runs %g px out of the side", where, over)
			}
			if *pictures != "" {
				shot, err := chromedp.Run(ctx, chromedp.FullScreenshot(100))
				if err != nil {
					t.Fatal(err)
				}
				save(t, *pictures, where+".png", shot)
			}
		}
		pdf := printed(t, ctx, s.URL+"/"+name)
		if sheets := len(printedPages(pdf)); sheets < 1 || sheets > 2 {
			t.Errorf("%s prints on %d sheets", name, sheets)
		}
		if *pictures != "" {
			save(t, *pictures, name+".pdf", pdf)
		}
		s.Lock()
		for _, path := range s.asked {
			if path != "/"+name {
				t.Errorf("%s asked for %s", name, path)
			}
		}
		s.Unlock()
	}
}

// TestPageScales chooses another number of servings in the page: the amounts
// are the ones the page written for that number has.
func TestPageScales(t *testing.T) {
	ctx := browser(t)
	doc := document(t, "plum-slice")
	all := map[string][]byte{}
	for name, opt := range map[string]Options{"as-said": {}, "double": {Servings: 32}} {
		var b strings.Builder
		if err := HTML(&b, doc, opt); err != nil {
			t.Fatal(err)
		}
		all[name] = []byte(b.String())
	}
	s := serve(t, all)
	const text = `document.querySelector(".need").innerText + document.querySelector(".do").innerText + document.querySelector(".makes").innerText +
		document.querySelector(".scaled").innerText`
	do(t, ctx, chromedp.Navigate(s.URL+"/as-said"))
	before := value[string](t, ctx, text)
	labels := value[[]string](t, ctx, `[...document.querySelectorAll("#scale option")].map(o => o.text)`)
	do(t, ctx, chromedp.Evaluate[chromedp.Void](`(() => {
		const s = document.getElementById("scale");
		s.selectedIndex = [...s.options].findIndex(o => o.text === "32 squares");
		s.dispatchEvent(new Event("change"));
	})()`))
	chosen := value[string](t, ctx, text)
	do(t, ctx, chromedp.Navigate(s.URL+"/double"))
	want := value[string](t, ctx, text)
	if before == chosen {
		t.Error("choosing another number changed nothing")
	}
	if !strings.Contains(strings.Join(labels, "|"), "32 squares") {
		t.Fatalf("no choice of 32 squares among %q", labels)
	}
	if chosen != want {
		t.Errorf("the page chosen for 32 reads\n%s\nthe page written for 32\n%s", chosen, want)
	}
}

// TestHostilePage opens the page made of a hostile transcript: none of its
// words runs as script or becomes an element.
func TestHostilePage(t *testing.T) {
	ctx := browser(t)
	doc := *document(t, "hostile")
	y := *doc.Yield
	y.Unit = `"><svg onload=alert(3)>`
	doc.Yield = &y
	all := map[string][]byte{}
	for name, form := range map[string]string{"page": "html", "sheet": "questions"} {
		var b strings.Builder
		if err := Write(&b, form, &doc, Options{Format: "html", Recording: `https://example.org/"><script>alert(14)</script>{t}`}); err != nil {
			t.Fatal(err)
		}
		all[name] = []byte(b.String())
	}
	s := serve(t, all)
	do(t, ctx, func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, tab, chrome.AddScriptToEvaluateOnNewDocument, chrome.AddScriptToEvaluateOnNewDocumentParams{
			Source: "window.rang = []; window.alert = (m) => window.rang.push(String(m));"})
		return chromedp.Void{}, err
	})
	for _, name := range sortedKeys(all) {
		do(t, ctx, chromedp.Navigate(s.URL+"/"+name))
		alerts := value[[]string](t, ctx, `window.rang`)
		strays := value[int](t, ctx, `document.querySelectorAll("img, svg, iframe, body style, i, script[src]").length`)
		dangerous := value[int](t, ctx, `[...document.links].filter(a => !/^(#|https:)/.test(a.getAttribute("href"))).length`)
		scripts := value[int](t, ctx, `document.querySelectorAll("script").length`)
		if len(alerts) > 0 || strays > 0 || dangerous > 0 {
			t.Errorf("%s: alerts %q, %d stray elements, %d dangerous links", name, alerts, strays, dangerous)
		}
		if want := map[string]int{"page": 2, "sheet": 0}[name]; scripts != want {
			t.Errorf("%s holds %d scripts, want %d", name, scripts, want)
		}
	}
}

func sortedKeys(m map[string][]byte) []string {
	var out []string
	for k := range m {
		out = append(out, k)
	}
	sort.Strings(out)
	return out
}
