package review

import (
	"context"
	"fmt"
	"io"
	"net"
	"net/http"
	"net/url"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"
	"time"
)

// table lays the documents of testdata/table out in a folder of their own.
func table(t *testing.T) string {
	t.Helper()
	dir := t.TempDir()
	names, err := filepath.Glob("testdata/table/*")
	if err != nil || len(names) == 0 {
		t.Fatal("no documents in testdata/table")
	}
	for _, n := range names {
		data, err := os.ReadFile(n)
		if err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(filepath.Join(dir, filepath.Base(n)), data, 0o644); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

// serve starts a review and gives its address.
func serve(t *testing.T, opt Options, paths ...string) (*Server, string) {
	t.Helper()
	s, err := New(paths, opt)
	if err != nil {
		t.Fatal(err)
	}
	l, address, err := s.Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	t.Cleanup(func() {
		cancel()
		if err := <-ended; err != nil {
			t.Errorf("the server ended with %v", err)
		}
	})
	return s, address
}

func get(t *testing.T, address string) (int, string, http.Header) {
	t.Helper()
	return ask(t, http.MethodGet, address, nil, nil)
}

func ask(t *testing.T, method, address string, form url.Values, head map[string]string) (int, string, http.Header) {
	t.Helper()
	var body io.Reader
	if form != nil {
		body = strings.NewReader(form.Encode())
	}
	r, err := http.NewRequest(method, address, body)
	if err != nil {
		t.Fatal(err)
	}
	u, err := url.Parse(address)
	if err != nil {
		t.Fatal(err)
	}
	if form != nil {
		r.Header.Set("Content-Type", "application/x-www-form-urlencoded")
		r.Header.Set("Origin", "http://"+u.Host)
	}
	for k, v := range head {
		switch {
		case k == "Host":
			r.Host = v
		case v == "":
			r.Header.Del(k)
		default:
			r.Header.Set(k, v)
		}
	}
	c := &http.Client{CheckRedirect: func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }}
	resp, err := c.Do(r)
	if err != nil {
		t.Fatal(err)
	}
	defer resp.Body.Close()
	data, err := io.ReadAll(resp.Body)
	if err != nil {
		t.Fatal(err)
	}
	return resp.StatusCode, string(data), resp.Header
}

var (
	versionField = regexp.MustCompile(`name="version" value="([0-9a-f]+)"`)
	keyField     = regexp.MustCompile(`name="key-(\d+)" value="([^"]+)"`)
)

// answer makes the form of a page with some answers, by the flag's kind and subject.
func answer(t *testing.T, page string, answers map[string]string) url.Values {
	t.Helper()
	v := url.Values{}
	m := versionField.FindStringSubmatch(page)
	if m == nil {
		t.Fatalf("no version in the page:\n%s", page)
	}
	v.Set("version", m[1])
	left := len(answers)
	for _, k := range keyField.FindAllStringSubmatch(page, -1) {
		v.Set("key-"+k[1], k[2])
		for about, a := range answers {
			if strings.HasPrefix(k[2], about) {
				v.Set("answer-"+k[1], a)
				left--
			}
		}
	}
	if left > 0 {
		t.Fatalf("not every one of %v is asked for:\n%s", answers, page)
	}
	return v
}

func read(t *testing.T, path string) string {
	t.Helper()
	data, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	return string(data)
}

func TestSaveWritesTheFile(t *testing.T) {
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	code, list, _ := get(t, root)
	if code != 200 || !strings.Contains(list, "Leek soup") || !strings.Contains(list, "Oat and plum bars") {
		t.Fatalf("list %d:\n%s", code, list)
	}
	bars := root + "recipe/1/0"
	path := filepath.Join(dir, "oat-bars.yaml")
	before := read(t, path)
	_, page, _ := get(t, bars)
	code, body, head := ask(t, http.MethodPost, bars, answer(t, page, map[string]string{
		"amount-unstated:butter": "225 g", "conflict-temperature:oven": "170 C", "yield-unstated": "16 bars"}), nil)
	if code != http.StatusSeeOther || !strings.HasSuffix(head.Get("Location"), "?saved=3") {
		t.Fatalf("save %d %q:\n%s", code, head.Get("Location"), body)
	}
	got := read(t, path)
	for _, want := range []string{"# Oat bars for the fete.\n", "amount: 225 g # weigh it next time\n", "temperature: [170 C]", "settled: 170 C", "yield: 16 bars"} {
		if !strings.Contains(got, want) {
			t.Errorf("the file lacks %q:\n%s", want, got)
		}
	}
	if read(t, path+"~") != before {
		t.Error("the file before is not kept")
	}
	_, page, _ = get(t, bars+"?saved=3")
	for _, want := range []string{"3 answers saved.", "Makes <b dir=\"auto\">16 bars</b>", "225 g", "Take back the last save", "(2) Oat and plum bars"} {
		if !strings.Contains(page, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	undo := url.Values{"version": {versionField.FindStringSubmatch(page)[1]}}
	if code, body, _ := ask(t, http.MethodPost, bars+"/undo", undo, nil); code != http.StatusSeeOther {
		t.Fatalf("undo %d:\n%s", code, body)
	}
	if read(t, path) != before {
		t.Error("undo did not bring the file back")
	}
	_, page, _ = get(t, bars)
	undo.Set("version", versionField.FindStringSubmatch(page)[1])
	if code, body, _ := ask(t, http.MethodPost, bars+"/undo", undo, nil); code != http.StatusConflict || !strings.Contains(body, "nothing to take back") {
		t.Errorf("a second undo gives %d", code)
	}
}

func TestSaveTellsWhatItCannotRead(t *testing.T) {
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	bars := root + "recipe/1/0"
	_, page, _ := get(t, bars)
	code, body, _ := ask(t, http.MethodPost, bars, answer(t, page, map[string]string{
		"amount-unstated:butter": "a lump", "amount-vague:honey": "3 tbsp", "conflict-temperature:oven": "25 minutes"}), nil)
	if code != http.StatusUnprocessableEntity {
		t.Fatalf("code %d", code)
	}
	for _, want := range []string{"1 answer saved; the rest is not", `value="a lump"`, `value="25 minutes"`, "is not a temperature", `aria-invalid="true"`} {
		if !strings.Contains(body, want) {
			t.Errorf("the page lacks %q", want)
		}
	}
	got := read(t, filepath.Join(dir, "oat-bars.yaml"))
	if !strings.Contains(got, "amount: 3 tbsp") || !strings.Contains(got, "amount: null # weigh it next time") {
		t.Errorf("the file is\n%s", got)
	}
}

func TestTheSecondSaveIsTold(t *testing.T) {
	dir := table(t)
	_, root := serve(t, Options{}, dir)
	bars := root + "recipe/1/0"
	path := filepath.Join(dir, "oat-bars.yaml")
	_, one, _ := get(t, bars)
	_, two, _ := get(t, bars)
	if code, _, _ := ask(t, http.MethodPost, bars, answer(t, one, map[string]string{"amount-unstated:butter": "225 g"}), nil); code != http.StatusSeeOther {
		t.Fatalf("the first save gives %d", code)
	}
	first := read(t, path)
	code, body, _ := ask(t, http.MethodPost, bars, answer(t, two, map[string]string{"amount-vague:honey": "3 tbsp"}), nil)
	if code != http.StatusConflict || !strings.Contains(body, "Nothing was written") || !strings.Contains(body, `value="3 tbsp"`) {
		t.Errorf("the second save gives %d:\n%s", code, body)
	}
	if read(t, path) != first {
		t.Error("the second save wrote")
	}
	// The page of the answer is up to date: saving from it works.
	if code, _, _ := ask(t, http.MethodPost, bars, answer(t, body, map[string]string{"amount-vague:honey": "3 tbsp"}), nil); code != http.StatusSeeOther {
		t.Errorf("the save after gives %d", code)
	}
	// An editor.
	_, page, _ := get(t, bars)
	edited := strings.Replace(read(t, path), "title: Oat and plum bars", "title: Plum bars", 1)
	if err := os.WriteFile(path, []byte(edited), 0o644); err != nil {
		t.Fatal(err)
	}
	if code, _, _ := ask(t, http.MethodPost, bars, answer(t, page, map[string]string{"yield-unstated": "12 bars"}), nil); code != http.StatusConflict {
		t.Errorf("a save over an edit gives %d", code)
	}
	undo := url.Values{"version": {versionField.FindStringSubmatch(page)[1]}}
	if code, _, _ := ask(t, http.MethodPost, bars+"/undo", undo, nil); code != http.StatusConflict {
		t.Errorf("an undo over an edit gives %d", code)
	}
	if read(t, path) != edited {
		t.Error("the edit was written over")
	}
}

// TestOnlyThePageItselfIsAnswered tries what another site, another program or
// a guess would send. Where a code is given for a path, nothing of the file
// named may be in the answer.
func TestOnlyThePageItselfIsAnswered(t *testing.T) {
	dir := table(t)
	secret := filepath.Join(dir, "secret.txt")
	if err := os.WriteFile(secret, []byte("the safe's number"), 0o600); err != nil {
		t.Fatal(err)
	}
	s, root := serve(t, Options{}, filepath.Join(dir, "oat-bars.yaml"))
	host := strings.TrimSuffix(strings.TrimPrefix(root, "http://"), "/"+s.token+"/")
	bars := root + "recipe/0/0"
	path := filepath.Join(dir, "oat-bars.yaml")
	before := read(t, path)
	_, page, _ := get(t, bars)
	form := answer(t, page, map[string]string{"amount-unstated:butter": "225 g"})
	_, port, err := net.SplitHostPort(host)
	if err != nil {
		t.Fatal(err)
	}
	tests := []struct {
		name, method, address string
		form                  url.Values
		head                  map[string]string
		want                  int
	}{
		{"no token", "GET", "http://" + host + "/", nil, nil, 404},
		{"wrong token", "GET", "http://" + host + "/" + strings.Repeat("0", len(s.token)) + "/", nil, nil, 404},
		{"half a token", "GET", "http://" + host + "/" + s.token[:10] + "/", nil, nil, 404},
		{"token in capitals", "GET", "http://" + host + "/" + strings.ToUpper(s.token) + "x/", nil, nil, 404},
		{"token without the slash", "GET", strings.TrimSuffix(root, "/"), nil, nil, 404},
		{"a style without the token", "GET", "http://" + host + "/page.css", nil, nil, 404},
		{"another host", "GET", root, nil, map[string]string{"Host": "kitchen.example"}, 403},
		{"another host on the port", "GET", root, nil, map[string]string{"Host": "kitchen.example:" + port}, 403},
		{"a host that resolves here", "GET", root, nil, map[string]string{"Host": "127.0.0.1.kitchen.example:" + port}, 403},
		{"another port", "GET", root, nil, map[string]string{"Host": "127.0.0.1:1"}, 403},
		{"no port", "GET", root, nil, map[string]string{"Host": "127.0.0.1"}, 403},
		{"another origin reads", "GET", bars, nil, map[string]string{"Origin": "http://kitchen.example"}, 403},
		{"a page from a file reads", "GET", bars, nil, map[string]string{"Origin": "null"}, 403},
		{"another site links here", "GET", bars, nil, map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
		{"another port's page links here", "GET", bars, nil, map[string]string{"Sec-Fetch-Site": "same-site"}, 403},
		{"another origin writes", "POST", bars, form, map[string]string{"Origin": "http://kitchen.example"}, 403},
		{"this host over https writes", "POST", bars, form, map[string]string{"Origin": "https://" + host}, 403},
		{"another port writes", "POST", bars, form, map[string]string{"Origin": "http://127.0.0.1:1"}, 403},
		{"no origin writes", "POST", bars, form, map[string]string{"Origin": ""}, 403},
		{"null origin writes", "POST", bars, form, map[string]string{"Origin": "null"}, 403},
		{"a cross-site write", "POST", bars, form, map[string]string{"Sec-Fetch-Site": "cross-site"}, 403},
		{"a form of plain text", "POST", bars, form, map[string]string{"Content-Type": "text/plain"}, 415},
		{"a form without a kind", "POST", bars, form, map[string]string{"Content-Type": ""}, 415},
		{"up and down", "GET", root + "../" + s.token + "/", nil, nil, 404},
		{"up", "GET", root + "recipe/../../etc/passwd", nil, nil, 404},
		{"up, escaped", "GET", root + "%2e%2e/%2e%2e/etc/passwd", nil, nil, 404},
		{"up, slash escaped", "GET", root + "recipe%2f0%2f0", nil, nil, 404},
		{"doubled slash", "GET", root + "/recipe/0/0", nil, nil, 404},
		{"another file", "GET", root + "secret.txt", nil, nil, 404},
		{"the document itself", "GET", root + "oat-bars.yaml", nil, nil, 404},
		{"a path on this computer", "GET", root + strings.TrimPrefix(secret, "/"), nil, nil, 404},
		{"another file's number", "GET", root + "recipe/1/0", nil, nil, 404},
		{"another recipe's number", "GET", root + "recipe/0/1", nil, nil, 404},
		{"no number", "GET", root + "recipe/-1/0", nil, nil, 404},
		{"a long number", "GET", root + "recipe/00000000000000000000/0", nil, nil, 404},
		{"a number too many", "GET", bars + "/0/0", nil, nil, 404},
		{"no recording", "GET", root + "recording", nil, nil, 404},
		{"put", "PUT", bars, form, nil, 405},
		{"delete", "DELETE", bars, form, nil, 405},
		{"patch", "PATCH", bars, form, nil, 405},
		{"options", "OPTIONS", bars, form, nil, 405},
		{"trace", "TRACE", bars, nil, map[string]string{"Origin": "http://" + host}, 405},
		{"post to the list", "POST", root, form, nil, 405},
		{"post to the style", "POST", root + "page.css", form, nil, 405},
		{"undo by a link", "GET", bars + "/undo", nil, nil, 405},
	}
	for _, tt := range tests {
		code, body, head := ask(t, tt.method, tt.address, tt.form, tt.head)
		if code != tt.want {
			t.Errorf("%s: %d, want %d", tt.name, code, tt.want)
		}
		if strings.Contains(body, "safe's") || strings.Contains(body, "then the butter") {
			t.Errorf("%s: the answer tells what it should not:\n%s", tt.name, body)
		}
		if head.Get("Access-Control-Allow-Origin") != "" {
			t.Errorf("%s: another origin may read the answer", tt.name)
		}
	}
	if read(t, path) != before {
		t.Error("one of the requests changed the file")
	}
	if code, _, _ := ask(t, http.MethodPost, bars, form, nil); code != http.StatusSeeOther {
		t.Errorf("the page's own save gives %d", code)
	}
}

func TestHeaders(t *testing.T) {
	_, root := serve(t, Options{}, table(t))
	for _, p := range []string{"", "recipe/0/0", "page.css", "page.js", "icon.svg", "nothing"} {
		_, _, h := get(t, root+p)
		if csp := h.Get("Content-Security-Policy"); csp != policy || strings.Contains(csp, "unsafe") || !strings.Contains(csp, "default-src 'none'") {
			t.Errorf("%q: policy %q", p, csp)
		}
		for k, want := range map[string]string{"X-Content-Type-Options": "nosniff", "Referrer-Policy": "same-origin", "Cache-Control": "no-store",
			"Cross-Origin-Resource-Policy": "same-origin", "X-Frame-Options": "DENY"} {
			if h.Get(k) != want {
				t.Errorf("%q: %s is %q", p, k, h.Get(k))
			}
		}
	}
}

// TestLinksLeadNowhere puts links among the documents, and in place of a
// document and its transcript once the review runs.
func TestLinksLeadNowhere(t *testing.T) {
	dir, other := table(t), t.TempDir()
	outside := filepath.Join(other, "outside.yaml")
	if err := os.WriteFile(outside, []byte("recipe: 1\ntitle: Not to be seen\nyield: null\ningredients: []\nsteps: []\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, filepath.Join(dir, "link.yaml")); err != nil {
		t.Skip("no links here: ", err)
	}
	if err := os.Symlink(other, filepath.Join(dir, "folder")); err != nil {
		t.Fatal(err)
	}
	_, root := serve(t, Options{}, dir)
	if _, list, _ := get(t, root); strings.Contains(list, "Not to be seen") {
		t.Error("a link in the folder was followed")
	}
	soup := filepath.Join(dir, "leek-soup.yaml")
	if err := os.Remove(soup); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(outside, soup); err != nil {
		t.Fatal(err)
	}
	if code, body, _ := get(t, root+"recipe/0/0"); code == 200 || strings.Contains(body, "Not to be seen") {
		t.Errorf("a link put in a document's place was followed (%d)", code)
	}
	talk := filepath.Join(dir, "oat-bars.md")
	hidden := filepath.Join(other, "hidden.md")
	if err := os.WriteFile(hidden, []byte("[0:00] Words not to be seen.\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if err := os.Remove(talk); err != nil {
		t.Fatal(err)
	}
	if err := os.Symlink(hidden, talk); err != nil {
		t.Fatal(err)
	}
	if code, body, _ := get(t, root+"recipe/1/0"); code != 200 || strings.Contains(body, "Words not to be seen") {
		t.Errorf("a link put in a transcript's place was followed (%d)", code)
	}
	// A document that names a transcript elsewhere gets none.
	path := filepath.Join(dir, "oat-bars.yaml")
	for _, name := range []string{hidden, "../" + filepath.Base(other) + "/hidden.md", "/etc/passwd"} {
		text := strings.Replace(read(t, path), "file: oat-bars.md", fmt.Sprintf("file: %q", name), 1)
		if err := os.WriteFile(filepath.Join(dir, "elsewhere.yaml"), []byte(text), 0o644); err != nil {
			t.Fatal(err)
		}
		_, root := serve(t, Options{}, filepath.Join(dir, "elsewhere.yaml"))
		if code, body, _ := get(t, root+"recipe/0/0"); code != 200 || strings.Contains(body, "Words not to be seen") || strings.Contains(body, "root:") {
			t.Errorf("the transcript %s was read (%d)", name, code)
		}
	}
}

func TestNothingToReview(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "list.yaml"), []byte("shopping: [eggs]\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	if _, err := New([]string{dir}, Options{}); err == nil || !strings.Contains(err.Error(), "no recipe document") {
		t.Errorf("error %v", err)
	}
	if _, err := New([]string{filepath.Join(dir, "missing")}, Options{}); err == nil {
		t.Error("a missing file is no error")
	}
	if _, err := New([]string{table(t)}, Options{Recording: filepath.Join(dir, "list.yaml")}); err == nil || !strings.Contains(err.Error(), "not a video or sound file") {
		t.Errorf("error %v", err)
	}
}

// TestVideo gives the page of a video its captions: the talk.
func TestVideo(t *testing.T) {
	dir := table(t)
	for _, n := range []string{"hostile.yaml", "hostile.vtt"} {
		if err := os.WriteFile(filepath.Join(dir, n), []byte(read(t, filepath.Join("testdata", n))), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	video := filepath.Join(dir, "film.webm")
	if err := os.WriteFile(video, []byte("no film"), 0o644); err != nil {
		t.Fatal(err)
	}
	_, root := serve(t, Options{Recording: video}, dir)
	_, page, _ := get(t, root+"recipe/1/0")
	if !strings.Contains(page, "<video controls") || !strings.Contains(page, `<track kind="captions"`) {
		t.Errorf("the page has no video with captions:\n%s", page)
	}
	if code, body, h := get(t, root+"recording"); code != 200 || body != "no film" || h.Get("Content-Type") != "video/webm" {
		t.Errorf("the recording gives %d %q %q", code, body, h.Get("Content-Type"))
	}
	code, body, h := get(t, root+"recipe/1/0/captions.vtt")
	if code != 200 || h.Get("Content-Type") != "text/vtt; charset=utf-8" || !strings.HasPrefix(body, "WEBVTT\n\n00:00:00.000 --> 00:00:06.000\nRight, leek soup.") {
		t.Errorf("captions %d:\n%s", code, body)
	}
	if _, body, _ := get(t, root+"recipe/0/0/captions.vtt"); strings.Contains(body, "<script") || strings.ContainsRune(body, '\u202e') {
		t.Errorf("captions of a hostile talk:\n%s", body)
	}
}

func TestADocumentThatDoesNotRead(t *testing.T) {
	dir := table(t)
	if err := os.WriteFile(filepath.Join(dir, "broken.yaml"), []byte("recipe: 1\ntitle: [<b>\n"), 0o644); err != nil {
		t.Fatal(err)
	}
	_, root := serve(t, Options{}, dir)
	code, list, _ := get(t, root)
	if code != 200 || !strings.Contains(list, "can’t be read") || !strings.Contains(list, "Leek soup") || strings.Contains(list, "<b>") {
		t.Errorf("list %d:\n%s", code, list)
	}
	if code, _, _ := get(t, root+"recipe/0/0"); code != http.StatusInternalServerError {
		t.Errorf("its page gives %d", code)
	}
}

func TestServeEndsInOrder(t *testing.T) {
	s, err := New([]string{table(t)}, Options{})
	if err != nil {
		t.Fatal(err)
	}
	l, root, err := s.Listen(0)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := s.Listen(l.Addr().(*net.TCPAddr).Port); err == nil || !strings.Contains(err.Error(), "leave out --port") {
		t.Errorf("a taken port gives %v", err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	ended := make(chan error, 1)
	go func() { ended <- s.Serve(ctx, l) }()
	if code, _, _ := get(t, root); code != 200 {
		t.Errorf("code %d", code)
	}
	cancel()
	select {
	case err := <-ended:
		if err != nil {
			t.Errorf("ended with %v", err)
		}
	case <-time.After(20 * time.Second):
		t.Fatal("the server did not end")
	}
	if _, err := net.DialTimeout("tcp", l.Addr().String(), time.Second); err == nil {
		t.Error("the port is still open")
	}
}

// FuzzRequest throws paths and forms at the server: it must not panic, and
// never answers without the token.
func FuzzRequest(f *testing.F) {
	for _, p := range []string{"/", "/x/", "/x/recipe/0/0", "/x/recipe/0/0/undo", "//", "/../", "/x/%2e%2e/", "/x/recording"} {
		f.Add(p, "version=1&key-0=a&answer-0=b")
	}
	s, err := New([]string{"testdata/table"}, Options{})
	if err != nil {
		f.Fatal(err)
	}
	s.host = "127.0.0.1:1"
	f.Fuzz(func(t *testing.T, path, body string) {
		if strings.Contains(path, s.token) {
			t.Skip()
		}
		for _, method := range []string{http.MethodGet, http.MethodPost} {
			w := &answerRecorder{head: http.Header{}}
			r := &http.Request{Method: method, Host: s.host, URL: &url.URL{Path: path}, Header: http.Header{"Origin": {"http://" + s.host},
				"Content-Type": {"application/x-www-form-urlencoded"}}, Body: io.NopCloser(strings.NewReader(body))}
			s.ServeHTTP(w, r)
			if w.code < 400 {
				t.Fatalf("%s %q gives %d", method, path, w.code)
			}
		}
	})
}

type answerRecorder struct {
	head http.Header
	code int
}

func (a *answerRecorder) Header() http.Header         { return a.head }
func (a *answerRecorder) Write(b []byte) (int, error) { return len(b), nil }
func (a *answerRecorder) WriteHeader(code int)        { a.code = code }
