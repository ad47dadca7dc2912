package transcript

import (
	order "cmp"
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"slices"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"
)

// webvttParser is the package the W3C keeps beside its standard
// (github.com/w3c/webvtt.js), as npm serves it.
const webvttParser = "webvtt-parser@2.2.0"

// needs skips the test that wants something from outside, and fails it where
// continuous integration promises that everything is there.
func needs(t *testing.T, what string, err error) {
	t.Helper()
	if os.Getenv("CI") == "true" {
		t.Fatalf("wants %s: %v", what, err)
	}
	t.Skipf("wants %s: %v", what, err)
}

// outsideCue is a cue in a form both readers can give.
type outsideCue struct {
	Start, End time.Duration
	Segments   []outsideSegment
}

type outsideSegment struct {
	At    time.Duration
	Words string
}

func (c *outsideCue) UnmarshalJSON(data []byte) error {
	var segments [][2]any
	var start, end float64
	if err := json.Unmarshal(data, &[]any{&start, &end, &segments}); err != nil {
		return err
	}
	c.Start, c.End = seconds(start), seconds(end)
	for _, s := range segments {
		at, isTime := s[0].(float64)
		segment := outsideSegment{At: NoTime}
		if isTime {
			segment.At = seconds(at)
		}
		text, _ := s[1].(string)
		segment.Words = strings.Join(strings.Fields(text), " ")
		c.add(segment)
	}
	return nil
}

// add appends a segment unless nothing is said in it; one of the same moment
// as the last goes on with that.
func (c *outsideCue) add(s outsideSegment) {
	if s.Words == "" {
		return
	}
	if n := len(c.Segments); n > 0 && c.Segments[n-1].At == s.At {
		c.Segments[n-1].Words += " " + s.Words
		return
	}
	c.Segments = append(c.Segments, s)
}

// ownCues gives the cues of our reader, before anything is folded.
func ownCues(t *testing.T, text string) []outsideCue {
	t.Helper()
	var w warnings
	read, err := webVTT{}.read(splitLines(text), &w)
	if err != nil {
		t.Fatal(err)
	}
	out := []outsideCue{}
	for _, raw := range read.cues {
		c := outsideCue{Start: raw.start, End: raw.end}
		at, said := NoTime, ""
		for _, row := range raw.rows {
			for _, ch := range row {
				if ch.at != at {
					c.add(outsideSegment{at, strings.Join(strings.Fields(said), " ")})
					at, said = ch.at, ""
				}
				said += ch.text
			}
			said += "\n"
		}
		c.add(outsideSegment{at, strings.Join(strings.Fields(said), " ")})
		out = append(out, c)
	}
	// webvtt-parser gives cues in the order of their times, of two that begin
	// together the longer first.
	slices.SortStableFunc(out, func(a, b outsideCue) int {
		return order.Or(order.Compare(a.Start, b.Start), order.Compare(b.End, a.End))
	})
	return out
}

// TestWebVTTAsTheW3CReadsIt holds our cues up beside those of webvtt-parser:
// the same times, the same words, the same moments inside a cue.
func TestWebVTTAsTheW3CReadsIt(t *testing.T) {
	if testing.Short() {
		t.Skip("installs an npm package; left out of -short")
	}
	dir := t.TempDir()
	for _, tool := range []string{"node", "npm"} {
		if _, err := exec.LookPath(tool); err != nil {
			needs(t, tool, err)
		}
	}
	install := exec.Command("npm", "install", "--silent", "--no-audit", "--no-fund", "--prefix", dir, webvttParser)
	if out, err := install.CombinedOutput(); err != nil {
		t.Logf("%s", out)
		needs(t, "npm to install "+webvttParser, err)
	}

	files, err := filepath.Glob("testdata/vtt/*.vtt")
	if err != nil || len(files) == 0 {
		t.Fatalf("no samples: %v", err)
	}
	for name, text := range narrations(t) {
		base := mustParse(t, text)
		for _, style := range styles {
			if style.format != "webvtt" {
				continue
			}
			file := filepath.Join(dir, name+" "+style.name+".vtt")
			if err := os.WriteFile(file, []byte(style.write(base)), 0o600); err != nil {
				t.Fatal(err)
			}
			files = append(files, file)
		}
	}
	node := exec.Command("node", append([]string{"testdata/cues.cjs"}, files...)...)
	node.Env = append(os.Environ(), "NODE_PATH="+filepath.Join(dir, "node_modules"))
	out, err := node.Output()
	if err != nil {
		t.Fatalf("node testdata/cues.cjs: %v", err)
	}
	var want [][]outsideCue
	if err := json.Unmarshal(out, &want); err != nil {
		t.Fatal(err)
	}
	if len(want) != len(files) {
		t.Fatalf("webvtt-parser read %d of %d files", len(want), len(files))
	}
	cues := 0
	for i, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(want[i], ownCues(t, string(data))); diff != "" {
			t.Errorf("%s (-webvtt-parser +quern)\n%s", filepath.Base(file), diff)
		}
		cues += len(want[i])
	}
	t.Logf("%d files, %d cues", len(files), cues)
}

// TestSamples pins what the samples are read as, with or without the outside
// reader.
func TestSamples(t *testing.T) {
	want := map[string]string{
		"header.vtt": `webvtt utf-8
19 0-2.4 <Cook> Hello there, come in.
22 2.4-5 <Cook> Butter the tin & line it, both ends.
29 5-7.25 <Cook> Two cups of oats. Only two?
`,
		"moments.vtt": `webvtt utf-8
3 0.16-2.39 hello there come in
11 2.4-5 butter the tin
19 5.01-8 two cups of oats
`,
		"recovered.vtt": `webvtt utf-8
3 1-2 The header ends here.
9 2-3 Café crème <hot> ½ cup
11 3-4 No blank line before this one.
15 4-5 Bold is left open, and 味噌 is one word.
20 3.6e+05-3.6e+05 A hundred hours in.
! 6 text outside any cue, left out: "an identifier alone"
`,
	}
	for name, text := range want {
		data, err := os.ReadFile(filepath.Join("testdata", "vtt", name))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff(text, summary(mustParse(t, string(data)))); diff != "" {
			t.Errorf("%s (-want +got)\n%s", name, diff)
		}
	}
}
