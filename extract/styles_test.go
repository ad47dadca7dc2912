package extract

import (
	"bytes"
	"fmt"
	"math"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// styles are the ways in which the same talk can be written down. All but the
// first are made from bracket-timed text by restyle.
var styles = []string{"brackets", "srt", "vtt", "asr", "plain"}

// para is one timed paragraph.
type para struct {
	at    float64 // seconds
	words []string
}

var (
	blankLine = regexp.MustCompile(`\n\s*\n`)
	timedPara = regexp.MustCompile(`(?s)^\[(\d+):(\d\d)(?::(\d\d))?\]\s*(.*)$`)
)

func paras(text string) []para {
	var out []para
	for _, block := range blankLine.Split(text, -1) {
		m := timedPara.FindStringSubmatch(strings.TrimSpace(block))
		if m == nil {
			continue
		}
		number := func(s string) float64 {
			n, _ := strconv.Atoi(s) // digits, as the expression wants them
			return float64(n)
		}
		at := number(m[1])*60 + number(m[2])
		if m[3] != "" {
			at = at*60 + number(m[3])
		}
		out = append(out, para{at, strings.Fields(m[4])})
	}
	return out
}

// line is one caption.
type line struct {
	from, to float64
	words    string
}

// captions cuts paragraphs into captions of size words, their times spread
// evenly. A paragraph ends where the next begins; the last is spoken at 2.6
// words a second.
func captions(ps []para, size int) []line {
	var out []line
	for i, p := range ps {
		end := p.at + math.Max(4, float64(len(p.words))/2.6)
		if i+1 < len(ps) {
			end = ps[i+1].at
		}
		groups := (len(p.words) + size - 1) / size
		step := (end - p.at) / math.Max(1, float64(groups))
		for k := range groups {
			ws := p.words[k*size : min(len(p.words), (k+1)*size)]
			out = append(out, line{p.at + float64(k)*step, p.at + float64(k+1)*step, strings.Join(ws, " ")})
		}
	}
	return out
}

func clockTime(seconds float64, sep string) string {
	ms := int(math.RoundToEven(seconds * 1000))
	return fmt.Sprintf("%02d:%02d:%02d%s%03d", ms/3600000, ms/60000%60, ms/1000%60, sep, ms%1000)
}

var (
	endMarks   = regexp.MustCompile(`["“”.,;:!?()\[\]]+(\s|$)`)
	beginMarks = regexp.MustCompile(`(^|\s)["“”(\[]+`)
)

// unmarked gives words as a recogniser writes them: small letters, no marks,
// no hyphens.
func unmarked(words []string) []string {
	s := strings.ToLower(strings.Join(words, " "))
	s = strings.NewReplacer("\u2019", "'", "\u2014", " ", "\u2013", " ").Replace(s)
	s = endMarks.ReplaceAllString(s, "$1")
	s = beginMarks.ReplaceAllString(s, "$1")
	return strings.Fields(strings.ReplaceAll(s, "-", " "))
}

// restyle writes bracket-timed text in another style, keeping its words.
func restyle(text, style string) string {
	ps := paras(text)
	var b strings.Builder
	switch style {
	case "brackets":
		return text
	case "plain":
		for i, p := range ps {
			if i > 0 {
				b.WriteString("\n\n")
			}
			b.WriteString(strings.Join(p.words, " "))
		}
		b.WriteByte('\n')
	case "srt":
		for i, c := range captions(ps, 9) {
			fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, clockTime(c.from, ","), clockTime(c.to, ","), c.words)
		}
	case "vtt":
		b.WriteString("WEBVTT - narration\nLanguage: en\n\nNOTE spoken, uncut\n\n")
		for i, c := range captions(ps, 11) {
			fmt.Fprintf(&b, "c%d\n%s --> %s align:start position:0%%\n<v Cook>%s\n\n", i+1, clockTime(c.from, "."), clockTime(c.to, "."), c.words)
		}
	case "asr":
		b.WriteString("WEBVTT\nKind: captions\nLanguage: en\n\n")
		for i := range ps {
			ps[i].words = unmarked(ps[i].words)
		}
		last := ""
		for _, c := range captions(ps, 6) {
			fmt.Fprintf(&b, "%s --> %s\n", clockTime(c.from, "."), clockTime(c.to, "."))
			if last != "" {
				b.WriteString(last + "\n")
			}
			b.WriteString(c.words + "\n\n")
			last = c.words
		}
	}
	return b.String()
}

// talks gives the invented narrations under testdata by name.
func talks(t testing.TB) (names []string, texts map[string]string) {
	t.Helper()
	texts = make(map[string]string)
	for _, pattern := range []string{"../testdata/narrations/*.md", "../testdata/talks/*/narration.md"} {
		files, err := filepath.Glob(filepath.FromSlash(pattern))
		if err != nil || len(files) == 0 {
			t.Fatalf("no narrations at %s: %v", pattern, err)
		}
		for _, file := range files {
			data, err := os.ReadFile(file)
			if err != nil {
				t.Fatal(err)
			}
			name := strings.TrimSuffix(filepath.Base(file), ".md")
			if name == "narration" {
				name = filepath.Base(filepath.Dir(file))
			}
			names, texts[name] = append(names, name), string(data)
		}
	}
	return names, texts
}

// TestRestyle holds our five styles up beside those of the script that makes
// the measured ones.
func TestRestyle(t *testing.T) {
	script := filepath.FromSlash("../../shared/score/restyle.py")
	if _, err := os.Stat(script); err != nil {
		wants(t, "../shared/score/restyle.py", err)
	}
	python, err := exec.LookPath("python3")
	if err != nil {
		wants(t, "python3", err)
	}
	names, texts := talks(t)
	if testing.Short() {
		names = names[:1]
	}
	for _, name := range names {
		file := filepath.Join(t.TempDir(), "narration.md")
		if err := os.WriteFile(file, []byte(texts[name]), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, style := range styles {
			cmd := exec.Command(python, script, style, file)
			cmd.Env = append(os.Environ(), "PYTHONIOENCODING=utf-8")
			var told bytes.Buffer
			cmd.Stderr = &told
			want, err := cmd.Output()
			if err != nil {
				t.Fatalf("%s in %s: %v\n%s", name, style, err, told.String())
			}
			if diff := cmp.Diff(strings.Split(string(want), "\n"), strings.Split(restyle(texts[name], style), "\n")); diff != "" {
				t.Errorf("%s in %s differs (-script +ours):\n%s", name, style, diff)
			}
		}
	}
}

// wants skips a test that misses something from outside, and fails it where
// everything is promised to be there.
func wants(t testing.TB, what string, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("wants %s: %v", what, err)
	}
	t.Skipf("wants %s: %v", what, err)
}
