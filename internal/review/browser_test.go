package review

import (
	"bytes"
	"context"
	"encoding/binary"
	"fmt"
	"net"
	"net/http"
	"net/url"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/chromedp/cdproto/cdp"
	"github.com/chromedp/cdproto/emulation"
	chrome "github.com/chromedp/cdproto/page"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"

	"quern/schema"
)

// missing skips a test for want of an outside thing, and fails it where
// everything is promised to be there.
func missing(t testing.TB, what string) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("wanted %s", what)
	}
	t.Skipf("wanted %s", what)
}

// browser starts headless Chromium with a profile of its own.
func browser(t testing.TB) context.Context {
	t.Helper()
	path, err := exec.LookPath("chromium")
	if err != nil {
		missing(t, "Chromium (Debian package chromium)")
	}
	alloc, stop := chromedp.NewExecAllocator(context.Background(), append(chromedp.DefaultExecAllocatorOptions[:],
		chromedp.ExecPath(path), chromedp.UserDataDir(t.TempDir()), chromedp.NoSandbox, chromedp.DisableGPU,
		// What scrolls smoothly moves away from under a click.
		chromedp.Flag("force-prefers-reduced-motion", true),
		chromedp.Flag("disable-quic", true), chromedp.Flag("disable-component-update", true), chromedp.Flag("mute-audio", true))...)
	ctx, cancel := chromedp.NewContext(alloc)
	t.Cleanup(func() { cancel(); stop() })
	if err := chromedp.Do(ctx); err != nil { // the browser lives as long as this context
		t.Fatal(err)
	}
	ctx, late := context.WithTimeout(ctx, 5*time.Minute)
	t.Cleanup(late)
	return ctx
}

func do(t testing.TB, ctx context.Context, steps ...chromedp.Action[chromedp.Void]) {
	t.Helper()
	if err := chromedp.Do(ctx, steps...); err != nil {
		t.Fatal(err)
	}
}

// value evaluates an expression in the page, and waits for its promise.
func value[T any](t testing.TB, ctx context.Context, expression string) T {
	t.Helper()
	v, err := chromedp.Run(ctx, chromedp.Evaluate[T](expression, chromedp.EvalAwaitPromise))
	if err != nil {
		t.Fatalf("%s: %v", expression, err)
	}
	return v
}

// until waits for an expression to hold.
func until(t testing.TB, ctx context.Context, expression string) {
	t.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(20 * time.Millisecond) {
		v, err := chromedp.Run(ctx, chromedp.Evaluate[bool](expression))
		if err == nil && v {
			return
		}
		if time.Now().After(end) {
			body, _ := chromedp.Run(ctx, chromedp.Evaluate[string](`document.body.innerText`)) // only for the message
			t.Fatalf("%s never held (%v); the page reads\n%s", expression, err, body)
		}
	}
}

// open shows a page and waits for its script.
func open(t testing.TB, ctx context.Context, address string) {
	t.Helper()
	do(t, ctx, chromedp.Navigate(address))
	until(t, ctx, `document.readyState === "complete"`)
}

// answers are what the two recipes of testdata/table are settled with, by the
// words of the question.
var answers = []struct{ asks, answer string }{
	{"butter", "225 g"}, {"honey", "3 tbsp"}, {"flower", "yes"}, {"oven", "170 C"}, {"cream", "100 ml"}, {"make", "8 helpings"},
}

func answerTo(t testing.TB, question string) string {
	t.Helper()
	for _, a := range answers {
		if strings.Contains(question, a.asks) {
			return a.answer
		}
	}
	// Questions that follow from the rest are left as they are.
	return "as said"
}

const (
	heading = `document.getElementById("asks-h").textContent`
	asked   = `document.activeElement.labels ? document.activeElement.labels[0].textContent : ""`
)

// checkSettled reads the two documents back.
func checkSettled(t *testing.T, dir string) {
	t.Helper()
	for name, want := range map[string]map[string]string{
		"oat-bars.yaml":  {"butter": "225 g", "honey": "3 tbsp", "": "8 helpings"},
		"leek-soup.yaml": {"cream": "100 ml", "": "8 helpings"},
	} {
		path := filepath.Join(dir, name)
		docs, err := schema.ReadAll(path, []byte(read(t, path)))
		if err != nil {
			t.Fatal(err)
		}
		if open := docs[0].Open(); len(open) > 0 {
			t.Errorf("%s: still open: %+v", name, open)
		}
		got := map[string]string{}
		if docs[0].Yield != nil {
			got[""] = docs[0].Yield.String()
		}
		for _, ing := range docs[0].Ingredients {
			if ing.Amount != nil {
				got[ing.ID] = ing.Amount.String()
			}
		}
		for id, amount := range want {
			if got[id] != amount {
				t.Errorf("%s: %q is %q, want %q", name, id, got[id], amount)
			}
		}
	}
	bars := read(t, filepath.Join(dir, "oat-bars.yaml"))
	for _, want := range []string{"# Oat bars for the fete.", "# weigh it next time", "temperature: [170 C]"} {
		if !strings.Contains(bars, want) {
			t.Errorf("oat-bars.yaml lacks %q", want)
		}
	}
}

func TestSettleByMouse(t *testing.T) {
	ctx := browser(t)
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	for _, recipe := range []string{"Leek soup", "Oat and plum bars"} {
		open(t, ctx, root)
		do(t, ctx, chromedp.Click(fmt.Sprintf(`//a[text()=%q]`, recipe)))
		until(t, ctx, `document.readyState === "complete" && document.querySelector("h1").textContent === "`+recipe+`"`)
		for n := value[int](t, ctx, `document.querySelectorAll(".questions > li").length`); n > 0; {
			before := value[string](t, ctx, heading)
			label := value[string](t, ctx, `document.querySelector("label[for=answer-0]").textContent`)
			do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent(answerTo(t, label)), chromedp.Click("#question-0 button:not(.quiet)"))
			until(t, ctx, heading+` !== "`+before+`"`)
			n = value[int](t, ctx, `document.querySelectorAll(".questions > li").length`)
		}
		if h := value[string](t, ctx, heading); h != "Nothing left to ask" {
			t.Errorf("%s: %q", recipe, h)
		}
	}
	checkSettled(t, dir)
}

// tab presses the Tab key until an element has the focus.
func tab(t testing.TB, ctx context.Context, where string) {
	t.Helper()
	for range 300 {
		if value[bool](t, ctx, where) {
			return
		}
		do(t, ctx, chromedp.KeyEvent(kb.Tab))
	}
	t.Fatalf("the Tab key never got to where %s", where)
}

func TestSettleByKeyboardAlone(t *testing.T) {
	ctx := browser(t)
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	for _, recipe := range []string{"Leek soup", "Oat and plum bars"} {
		open(t, ctx, root)
		tab(t, ctx, `document.activeElement.textContent === "`+recipe+`"`)
		do(t, ctx, chromedp.KeyEvent(kb.Enter))
		until(t, ctx, `document.readyState === "complete" && document.querySelector("h1").textContent === "`+recipe+`"`)
		// A moment of the talk and back.
		tab(t, ctx, `document.activeElement.matches(".moment")`)
		do(t, ctx, chromedp.KeyEvent(kb.Enter))
		until(t, ctx, `document.querySelectorAll(".talk .chosen").length > 0`)
		tab(t, ctx, `document.activeElement.matches(".talk a.word")`)
		do(t, ctx, chromedp.KeyEvent(kb.Enter))
		until(t, ctx, `document.querySelector("#asks .chosen, #reads .chosen") !== null`)
		do(t, ctx, chromedp.Reload())
		until(t, ctx, `document.readyState === "complete"`)
		tab(t, ctx, `document.activeElement.id === "answer-0"`)
		for value[string](t, ctx, heading) != "Nothing left to ask" {
			// After a save the focus stands in the next field by itself.
			label := value[string](t, ctx, asked)
			if label == "" {
				t.Fatalf("the focus is on %s", value[string](t, ctx, `document.activeElement.outerHTML`))
			}
			if strings.Contains(label, "flower") {
				// The other way: the button that leaves it as it was said.
				do(t, ctx, chromedp.KeyEvent(kb.Tab), chromedp.KeyEvent(kb.Tab))
				if on := value[string](t, ctx, `document.activeElement.textContent`); !strings.HasPrefix(on, "Leave as said") {
					t.Fatalf("two Tabs from the field is %q", on)
				}
				before := value[string](t, ctx, heading)
				do(t, ctx, chromedp.KeyEvent(kb.Enter))
				until(t, ctx, heading+` !== "`+before+`"`)
				continue
			}
			before := value[string](t, ctx, heading)
			do(t, ctx, chromedp.KeyEvent(answerTo(t, label)), chromedp.KeyEvent(kb.Enter))
			until(t, ctx, heading+` !== "`+before+`"`)
		}
	}
	checkSettled(t, dir)
}

func TestUndo(t *testing.T) {
	ctx := browser(t)
	dir := table(t)
	path := filepath.Join(dir, "oat-bars.yaml")
	before := read(t, path)
	_, root := serve(t, Options{}, path)
	open(t, ctx, root+"recipe/0/0")
	put := func(field, answer string) {
		t.Helper()
		h := value[string](t, ctx, heading)
		do(t, ctx, chromedp.Click(field), chromedp.KeyEvent(answer+kb.Enter))
		until(t, ctx, heading+` !== "`+h+`"`)
	}
	put("#answer-0", "225 g")
	once := read(t, path)
	put("#answer-0", "3 tbsp")
	if read(t, path) == once || once == before {
		t.Fatal("the saves wrote nothing")
	}
	do(t, ctx, chromedp.KeyEvent("z", chromedp.KeyModifiers(kb.ModifierCtrl)))
	until(t, ctx, `document.querySelector("#note")?.textContent === "The last save is taken back." && document.querySelector("label[for=answer-0]").textContent.includes("honey")`)
	if read(t, path) != once {
		t.Errorf("after one undo the file is\n%s", read(t, path))
	}
	do(t, ctx, chromedp.Click("#undo button"))
	until(t, ctx, `document.querySelector("label[for=answer-0]").textContent.includes("butter")`)
	if read(t, path) != before {
		t.Errorf("after two the file is\n%s", read(t, path))
	}
	if value[bool](t, ctx, `document.getElementById("undo") !== null`) {
		t.Error("there is still something to take back")
	}
	// In a field with words the keys undo the typing, not the save.
	put("#answer-0", "225 g")
	do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent("3 t"), chromedp.KeyEvent("z", chromedp.KeyModifiers(kb.ModifierCtrl)))
	time.Sleep(200 * time.Millisecond)
	if read(t, path) != once {
		t.Error("undoing typing took a save back")
	}
}

func TestTwoWindows(t *testing.T) {
	one := browser(t)
	dir := table(t)
	path := filepath.Join(dir, "oat-bars.yaml")
	_, root := serve(t, Options{}, path)
	two, closeTab := chromedp.NewContext(one)
	t.Cleanup(closeTab)
	open(t, one, root+"recipe/0/0")
	open(t, two, root+"recipe/0/0")
	do(t, one, chromedp.Click("#answer-0"), chromedp.KeyEvent("225 g"+kb.Enter))
	until(t, one, `document.querySelector("#note")?.textContent === "1 answer saved."`)
	first := read(t, path)
	do(t, two, chromedp.Click("#answer-1"), chromedp.KeyEvent("3 tbsp"+kb.Enter))
	until(t, two, `document.querySelector("#alert") !== null`)
	if a := value[string](t, two, `document.getElementById("alert").textContent`); !strings.HasPrefix(a, "Nothing was written: ") {
		t.Errorf("the second window is told %q", a)
	}
	if read(t, path) != first {
		t.Error("the second window wrote over the first")
	}
	if v := value[string](t, two, `[...document.querySelectorAll(".questions > li")].find(l => l.textContent.includes("honey")).querySelector("input[type=text]").value`); v != "3 tbsp" {
		t.Errorf("what was typed is now %q", v)
	}
	if !value[bool](t, two, `document.activeElement.id === "alert" && document.getElementById("reads").innerText.includes("225 g")`) {
		t.Error("the second window does not show the recipe as it is now")
	}
	do(t, two, chromedp.Click("#answer-0"), chromedp.KeyEvent(kb.Enter))
	until(t, two, `document.querySelector("#note")?.textContent === "1 answer saved."`)
	got := read(t, path)
	if !strings.Contains(got, "225 g") || !strings.Contains(got, "3 tbsp") {
		t.Errorf("the file is\n%s", got)
	}
}

// TestTypedWordsOutliveTheServer ends the server under an open page.
func TestTypedWordsOutliveTheServer(t *testing.T) {
	ctx := browser(t)
	s, err := New([]string{filepath.Join(table(t), "oat-bars.yaml")}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, root, err := s.Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	stop, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(stop, l) }()
	open(t, ctx, root+"recipe/0/0")
	do(t, ctx, chromedp.Click("#answer-1"), chromedp.KeyEvent("3 tbsp"), chromedp.Click("#answer-0"), chromedp.KeyEvent("225 g"))
	cancel()
	if err := <-ended; err != nil {
		t.Fatal(err)
	}
	do(t, ctx, chromedp.KeyEvent(kb.Enter))
	until(t, ctx, `document.getElementById("alert")?.textContent.startsWith("Not saved")`)
	if v := value[string](t, ctx, `document.getElementById("answer-0").value + "|" + document.getElementById("answer-1").value`); v != "225 g|3 tbsp" {
		t.Errorf("the fields hold %q", v)
	}
}

// tone is a WAV file of silence, two and a half minutes long.
func tone(t *testing.T, path string) {
	t.Helper()
	const rate, length = 8000, 150
	var b bytes.Buffer
	b.WriteString("RIFF")
	for _, part := range []any{uint32(36 + rate*length), []byte("WAVEfmt "), uint32(16), uint16(1), uint16(1), uint32(rate), uint32(rate), uint16(1), uint16(8),
		[]byte("data"), uint32(rate * length), bytes.Repeat([]byte{128}, rate*length)} {
		if err := binary.Write(&b, binary.LittleEndian, part); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(path, b.Bytes(), 0o644); err != nil {
		t.Fatal(err)
	}
}

func TestPlayFromAMoment(t *testing.T) {
	ctx := browser(t)
	dir := table(t)
	wav := filepath.Join(dir, "oat-bars.wav")
	tone(t, wav)
	_, root := serve(t, Options{Recording: wav}, dir)
	if _, page, _ := get(t, root+"recipe/0/0"); strings.Contains(page, `id="player"`) {
		t.Error("the soup has the bars' recording")
	}
	if code, body, h := ask(t, http.MethodGet, root+"recording", nil, map[string]string{"Range": "bytes=0-3"}); code != http.StatusPartialContent || body != "RIFF" || h.Get("Content-Type") != "audio/wav" {
		t.Errorf("a part of the recording gives %d %q", code, body)
	}
	open(t, ctx, root+"recipe/1/0")
	const playing = `(p => !p.paused && p.currentTime >= %d && p.currentTime < %d)(document.getElementById("recording"))`
	// A fact plays from its moment and shows its words.
	do(t, ctx, chromedp.Click(`//li[contains(., "rolled oats")]//a[starts-with(., "0:26")]`))
	until(t, ctx, fmt.Sprintf(playing, 26, 40))
	if w := value[string](t, ctx, `[...document.querySelectorAll(".talk .chosen")].map(w => w.textContent).join(" ")`); w != "two and a quarter cups of rolled oats," {
		t.Errorf("the words shown are %q", w)
	}
	// Words play from theirs and show what became of them.
	do(t, ctx, chromedp.Click(`//a[contains(@class, "word") and starts-with(., "six plums")]`))
	until(t, ctx, fmt.Sprintf(playing, 65, 95))
	if w := value[string](t, ctx, `document.querySelector("#reads .chosen").innerText`); !strings.Contains(w, "plums, halved") {
		t.Errorf("the fact shown is %q", w)
	}
	if h := value[string](t, ctx, `location.hash`); !strings.HasPrefix(h, "#fact-") {
		t.Errorf("the place on the page is %q", h)
	}
	// A save does not stop it.
	do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent("225 g"+kb.Enter))
	until(t, ctx, `document.querySelector("#note")?.textContent === "1 answer saved."`)
	until(t, ctx, fmt.Sprintf(playing, 65, 110))
	// A question's moment too.
	do(t, ctx, chromedp.Click(`//li[contains(., "oven")]//a[starts-with(., "1:35")]`))
	until(t, ctx, fmt.Sprintf(playing, 95, 110))
}

// look makes the browser show a page light or dark, at a width in px.
func look(scheme string, width int64) chromedp.Action[chromedp.Void] {
	return func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, tab, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{
			Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		if err != nil {
			return chromedp.Void{}, err
		}
		return chromedp.EmulateViewport(width, 800)(ctx, tab)
	}
}

// TestAccessible has axe-core (npm) look at every state of the pages, at three
// widths, light and dark; and nothing may run out of the side.
func TestAccessible(t *testing.T) {
	axe, err := os.ReadFile(filepath.FromSlash("../../testdata/npm/node_modules/axe-core/axe.min.js"))
	if err != nil {
		missing(t, "npm package axe-core (npm install in testdata/npm)")
	}
	ctx := browser(t)
	dir := table(t)
	for _, n := range []string{"hostile.yaml", "hostile.vtt"} {
		if err := os.WriteFile(filepath.Join(dir, n), []byte(read(t, filepath.Join("testdata", n))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	wav := filepath.Join(dir, "oat-bars.wav")
	tone(t, wav)
	_, root := serve(t, Options{Recording: wav}, dir)
	check := func(state string) {
		t.Helper()
		for _, scheme := range []string{"light", "dark"} {
			for _, width := range []int64{320, 768, 1280} {
				do(t, ctx, look(scheme, width), chromedp.Evaluate[chromedp.Void](string(axe)))
				for _, v := range value[[]string](t, ctx, `axe.run(document, {resultTypes: ["violations"]}).then(r =>
					r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 200) + " " + n.failureSummary).join("; ")))`) {
					t.Errorf("%s, %s, %d px: %s", state, scheme, width, v)
				}
				if over := value[float64](t, ctx, `document.documentElement.scrollWidth - window.innerWidth`); over > 0 {
					t.Errorf("%s, %s, %d px: the page runs %g px out of the side", state, scheme, width, over)
				}
			}
		}
	}
	open(t, ctx, root)
	check("the list")
	open(t, ctx, root+"recipe/0/0")
	check("a hostile talk")
	open(t, ctx, root+"recipe/2/0")
	check("questions open")
	do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent("a lump"+kb.Enter))
	until(t, ctx, `document.querySelector("[aria-invalid]") !== null`)
	check("an answer refused")
	do(t, ctx, chromedp.Evaluate[chromedp.Void](`document.querySelector("#answer-0").value = ""`))
	do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent("225 g"+kb.Enter))
	until(t, ctx, `document.querySelector("#note") !== null`)
	do(t, ctx, chromedp.Click("a.moment"))
	check("an answer saved, a moment chosen")
	// Targets that are not in a sentence are at least 24 px (WCAG 2.2, 2.5.8).
	if small := value[[]string](t, ctx, `[...document.querySelectorAll("button, input[type=text], nav a, .back a, summary")].filter(e => {
		const r = e.getBoundingClientRect(); return r.width < 24 || r.height < 24; }).map(e => e.outerHTML)`); len(small) > 0 {
		t.Errorf("too small to hit: %q", small)
	}
}

// TestHostileTalk opens a recipe whose every text tries to be more than text.
func TestHostileTalk(t *testing.T) {
	ctx := browser(t)
	dir := t.TempDir()
	for _, n := range []string{"hostile.yaml", "hostile.vtt"} {
		if err := os.WriteFile(filepath.Join(dir, n), []byte(read(t, filepath.Join("testdata", n))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	_, root := serve(t, Options{}, dir)
	do(t, ctx, func(ctx context.Context, tab *chromedp.Target) (chromedp.Void, error) {
		_, err := cdp.Call(ctx, tab, chrome.AddScriptToEvaluateOnNewDocument, chrome.AddScriptToEvaluateOnNewDocumentParams{
			Source: `window.rang = []; window.alert = (m) => window.rang.push(String(m));
				document.addEventListener("securitypolicyviolation", (e) => window.rang.push(e.violatedDirective + " " + e.blockedURI));`})
		return chromedp.Void{}, err
	})
	check := func(state string) {
		t.Helper()
		if title := value[string](t, ctx, `document.title`); !strings.Contains(title, "script>") {
			t.Errorf("%s: the title is %q", state, title)
		}
		if rang := value[[]string](t, ctx, `window.rang`); len(rang) > 0 {
			t.Errorf("%s: ran or was stopped: %q", state, rang)
		}
		if n := value[int](t, ctx, `document.querySelectorAll("script:not([src$='/page.js']), img, iframe, style, svg, [onload], [onerror], [onfocus], [onmouseover], [autofocus]").length`); n > 0 {
			t.Errorf("%s: %d stray elements", state, n)
		}
		if n := value[int](t, ctx, `[...document.links].filter(a => a.origin !== location.origin).length`); n > 0 {
			t.Errorf("%s: %d links lead away", state, n)
		}
		if value[bool](t, ctx, `/[\u202a-\u202e\u2066-\u2069]/.test(document.documentElement.outerHTML)`) {
			t.Errorf("%s: a mark that turns the writing is in the page", state)
		}
		if over := value[float64](t, ctx, `document.documentElement.scrollWidth - window.innerWidth`); over > 0 {
			t.Errorf("%s: the page runs %g px out of the side", state, over)
		}
	}
	do(t, ctx, look("light", 360))
	open(t, ctx, root)
	if n := value[int](t, ctx, `document.querySelectorAll("script, img").length`); n > 0 {
		t.Errorf("the list holds %d stray elements", n)
	}
	open(t, ctx, root+"recipe/0/0")
	check("opened")
	do(t, ctx, chromedp.Click("#answer-0"), chromedp.KeyEvent(`<script>alert(1)</script>`+kb.Enter))
	until(t, ctx, `document.querySelector("#alert, #note") !== null`)
	check("answered")
	for n := value[int](t, ctx, `document.querySelectorAll(".questions > li").length`); n > 0; n-- {
		h := value[string](t, ctx, heading)
		do(t, ctx, chromedp.Evaluate[chromedp.Void](`document.querySelector("input[type=text]").value = ""`))
		do(t, ctx, chromedp.Click("#question-0 button.quiet"))
		until(t, ctx, heading+` !== "`+h+`"`)
	}
	check("settled")
}

// TestOtherSitesAreShutOut lets a page of another origin try to read, write
// and frame the review, in a real browser.
func TestOtherSitesAreShutOut(t *testing.T) {
	ctx := browser(t)
	dir := table(t)
	path := filepath.Join(dir, "oat-bars.yaml")
	_, root := serve(t, Options{}, path)
	before := read(t, path)
	bars := root + "recipe/0/0"
	_, page, _ := get(t, bars)
	form := answer(t, page, map[string]string{"amount-unstated:butter": "225 g"})
	other := otherSite(t)
	open(t, ctx, other)
	got := value[string](t, ctx, fmt.Sprintf(`fetch(%q).then(r => r.text()).catch(e => "shut out")`, bars))
	if got != "shut out" {
		t.Errorf("another site reads %q", got)
	}
	got = value[string](t, ctx, fmt.Sprintf(`fetch(%q, {method: "POST", mode: "no-cors", headers: {"Content-Type": "application/x-www-form-urlencoded"}, body: %q}).then(r => r.type).catch(e => "shut out")`, bars, form.Encode()))
	if got != "opaque" && got != "shut out" {
		t.Errorf("another site's write gives %q", got)
	}
	do(t, ctx, chromedp.Evaluate[chromedp.Void](fmt.Sprintf(`(() => {
		const f = document.createElement("form"); f.method = "post"; f.action = %q;
		for (const [k, v] of new URLSearchParams(%q)) { const i = document.createElement("input"); i.name = k; i.value = v; f.append(i); }
		document.body.append(f); f.submit();
	})()`, bars, form.Encode())))
	until(t, ctx, `document.readyState === "complete" && document.body.innerText.includes("answers to itself only")`)
	if read(t, path) != before {
		t.Error("another site wrote the file")
	}
}

// otherSite is a page of another origin.
func otherSite(t *testing.T) string {
	t.Helper()
	mux := http.NewServeMux()
	mux.HandleFunc("/", func(w http.ResponseWriter, r *http.Request) {
		w.Header().Set("Content-Type", "text/html")
		_, _ = w.Write([]byte("<!doctype html><title>Other</title><body>")) // a browser that went away needs none
	})
	s := &http.Server{Handler: mux, ReadHeaderTimeout: 5 * time.Second}
	l, err := net.Listen("tcp4", "127.0.0.1:0")
	if err != nil {
		t.Fatal(err)
	}
	go func() { _ = s.Serve(l) }() // ends with the test
	t.Cleanup(func() { _ = s.Close() })
	return (&url.URL{Scheme: "http", Host: l.Addr().String(), Path: "/"}).String()
}
