package transcript

import (
	"bytes"
	"encoding/binary"
	"errors"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
)

// summary writes what was read in a form tests can hold up beside what they
// want: a line a cue, and the words whose times are asked for.
func summary(n *Narration) string {
	var b strings.Builder
	fmt.Fprintf(&b, "%s %s", n.Format, n.Encoding)
	if n.Heading != "" {
		fmt.Fprintf(&b, " # %s", n.Heading)
	}
	b.WriteString("\n")
	for _, c := range n.Cues {
		fmt.Fprintf(&b, "%d ", c.Line)
		if n.Timed {
			fmt.Fprintf(&b, "%s-%s ", short(c.Start), short(c.End))
		}
		if c.Voice != "" {
			fmt.Fprintf(&b, "<%s> ", c.Voice)
		}
		b.WriteString(c.Text + "\n")
	}
	for _, w := range n.Warnings {
		fmt.Fprintf(&b, "! %d %s\n", w.Line, w.Text)
	}
	return b.String()
}

func short(d time.Duration) string { return fmt.Sprintf("%.3g", d.Seconds()) }

func mustParse(t *testing.T, text string) *Narration {
	t.Helper()
	n, err := Parse("talk", []byte(text))
	if err != nil {
		t.Fatalf("Parse: %v", err)
	}
	checkWhole(t, n)
	return n
}

// checkWhole fails when the parts of a narration contradict one another.
func checkWhole(t *testing.T, n *Narration) {
	t.Helper()
	if len(n.Words) == 0 || len(n.Cues) == 0 {
		t.Fatal("a narration without words or cues")
	}
	next := 0
	for i, c := range n.Cues {
		if c.First != next || c.Last <= c.First || c.Last > len(n.Words) {
			t.Fatalf("cue %d holds words %d to %d, want them to begin at %d", i, c.First, c.Last, next)
		}
		next = c.Last
		texts := make([]string, 0, c.Last-c.First)
		for _, w := range n.Words[c.First:c.Last] {
			texts = append(texts, w.Text)
			if w.Text == "" || len(strings.Fields(w.Text)) != 1 {
				t.Fatalf("cue %d holds the word %q", i, w.Text)
			}
			if !n.Timed && w.At != NoTime {
				t.Fatalf("%q has the time %v in a transcript without times", w.Text, w.At)
			}
			if n.Timed && (w.At < c.Start || w.At > c.End) {
				t.Fatalf("%q at %v lies outside its cue, %v to %v", w.Text, w.At, c.Start, c.End)
			}
		}
		if got := strings.Join(texts, " "); got != c.Text {
			t.Fatalf("cue %d has the text %q and the words %q", i, c.Text, got)
		}
		if c.Line < 1 {
			t.Fatalf("cue %d has no line", i)
		}
	}
	if next != len(n.Words) {
		t.Fatalf("%d words lie in no cue", len(n.Words)-next)
	}
}

func TestFormats(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"bracket", "# Ginger bars\n\n[0:00] Hello there.\n\n[0:04] Two cups\nof oats.\n", `
bracket utf-8 # Ginger bars
3 0-4 Hello there.
5 4-5.54 Two cups of oats.
`},
		{"bracket with hours and fractions", "[0:59:58.500] One. \n\n[1:00:00] Two.\n\n[60:02] Three.", `
bracket utf-8
1 3.6e+03-3.6e+03 One.
3 3.6e+03-3.6e+03 Two.
5 3.6e+03-3.6e+03 Three.
`},
		{"bracket, several times in a line", "[0:05] add flour [0:09] stir [0:12]\nfold", `
bracket utf-8
1 5-9 add flour
1 9-12 stir
1 12-12.4 fold
`},
		{"bracket with an end", "[00:00.000 --> 00:02.500]  Hello.\n[00:02.500 --> 00:04.000]  Add flour.\n[0:04 - 0:06] Stir.", `
bracket utf-8
1 0-2.5 Hello.
2 2.5-4 Add flour.
3 4-6 Stir.
`},
		{"bracket in Markdown marks", "- **[0:01]** Hello.\n- **[0:03]** Stir.\n> [0:05] Bake.", `
bracket utf-8
1 1-3 Hello.
2 3-5 Stir.
3 5-5.38 Bake.
`},
		{"round brackets", "(0:01) Hello (1:30 is late).\n(0:03) Stir.", `
bracket utf-8
1 1-3 Hello (1:30 is late).
2 3-3.38 Stir.
`},
		{"bare times on lines of their own", "0:01\nHello there\n0:03\nStir it", `
bracket utf-8
1 1-3 Hello there
3 3-3.77 Stir it
`},
		{"a bare time in talk is talk", "1:30 is when they come.\n\nSo start at noon.", `
plain utf-8
1 1:30 is when they come.
3 So start at noon.
`},
		{"bracket, a time that is none", "[0:01] Hello\n[0:75] there", `
bracket utf-8
1 1-1.77 Hello there
! 2 no time of day or of a recording, left out: "[0:75]"
`},
		{"bracket, backwards", "[0:10] One two.\n[0:05] Three.", `
bracket utf-8
1 10-10.8 One two.
2 5-5.38 Three.
! 2 the time runs backwards: 00:00:05.000 after 00:00:10.000
`},
		{"bracket, words before the first time and a late heading", "Hello you\n[0:02] Stir.\n\n## Tips\n[0:05] Rest.", `
bracket utf-8 # Tips
1 0-2 Hello you
2 2-5 Stir.
5 5-5.38 Rest.
! 1 words before the first time, taken as spoken at 0:00: "Hello you"
`},
		{"bracket, silence belongs after the words", "[0:00] Put it in.\n[5:00] Take it out.", `
bracket utf-8
1 0-1.15 Put it in.
2 300-301 Take it out.
`},
		{"subrip", "1\n00:00:01,000 --> 00:00:02,500\nAdd <i>two</i> cups\nof {\\an8}oats &amp; salt\n\n2\n00:00:02,500 --> 00:00:04,000\nStir. <3\n", `
subrip utf-8
2 1-2.5 Add two cups of oats & salt
7 2.5-4 Stir. <3
`},
		{"subrip without numbers or blank lines, with a blank inside", "00:00:01.0 --> 00:00:02.0 X1:10 X2:20\nAdd\n\n2 cups\n7\n00:00:03,000 --> 00:00:04,000\nStir", `
subrip utf-8
1 1-2 Add 2 cups
6 3-4 Stir
`},
		{"subrip, text before the first cue", "made by hand\n\n1\n00:00:01,000 --> 00:00:02,000\nStir\n", `
subrip utf-8
4 1-2 Stir
! 1 text before the first cue, left out: "made by hand"
`},
		{"webvtt", "WEBVTT - a talk\nKind: captions\n\nNOTE not spoken\nnor this\n\nSTYLE\n::cue { color: red }\n\nREGION\nid:fred\n\nopening\n00:01.000 --> 00:02.000 align:start position:0%\n<v.loud Ann Other>Hello <b>there</b> &lt;you&gt;</v>\n\n00:00:02.000 --> 00:00:03.000\n<c.yellow>Two</c> <lang en-GB>cups</lang>\n", `
webvtt utf-8
14 1-2 <Ann Other> Hello there <you>
17 2-3 Two cups
`},
		{"webvtt, ruby text is not spoken again", "WEBVTT\n\n00:01.000 --> 00:02.000\nadd <ruby>味噌<rt>miso</rt></ruby> now\n", `
webvtt utf-8
3 1-2 add 味噌 now
`},
		{"webvtt, an arrow ends a cue", "WEBVTT\n\n00:01.000 --> 00:02.000\nStir\n00:02.000 --> 00:03.000\nFold\n", `
webvtt utf-8
3 1-2 Stir
5 2-3 Fold
`},
		{"webvtt, a cue in the header", "WEBVTT\n00:01.000 --> 00:02.000\nStir\n", `
webvtt utf-8
2 1-2 Stir
`},
		{"webvtt, text outside a cue", "WEBVTT\n\nstray\n\n00:01.000 --> 00:02.000\nStir\n\nlost words\n\nNOTE from 1 --> 2\n", `
webvtt utf-8
5 1-2 Stir
! 3 text outside any cue, left out: "stray"
! 8 text outside any cue, left out: "lost words"
! 10 a line with an arrow but no time, left out: "NOTE from 1 --> 2"
`},
		{"webvtt, commas and an end before the start", "WEBVTT\n\n00:00:05,000 --> 00:00:02,000\nStir it\n", `
webvtt utf-8
3 5-5.77 Stir it
! 3 times are not written as WebVTT asks (00:01:02.500), read all the same: "00:00:05,000 --> 00:00:02,000"
! 3 the cue ends before it begins: 00:00:05.000, then 00:00:02.000
`},
		{"ttml", `<?xml version="1.0" encoding="utf-8"?>
<tt xmlns="http://www.w3.org/ns/ttml" xmlns:ttp="http://www.w3.org/ns/ttml#parameter" xmlns:ttm="http://www.w3.org/ns/ttml#metadata" ttp:frameRate="25" ttp:tickRate="1000">
<head><metadata><ttm:title>not spoken</ttm:title><ttm:agent xml:id="a1" type="person"><ttm:name>Ann Other</ttm:name></ttm:agent></metadata></head>
<body><div begin="10s">
<p begin="00:00:01.500" end="00:00:03" ttm:agent="a1">Add <span>two</span> cups<br/>of oats</p>
<p begin="4s" dur="1500ms">Stir &amp; fold</p>
<p begin="00:00:06:05" end="7000t">Bake</p>
<p begin="250f" end="275f">Rest</p>
</div></body></tt>`, `
ttml utf-8
5 11.5-13 <Ann Other> Add two cups of oats
6 14-15.5 Stir & fold
7 16.2-17 Bake
8 20-21 Rest
`},
		{"ttml, spans that carry the times, and a sequence", `<tt><body><div><p><span begin="1s" end="2s">Add flour</span> <span begin="3s" end="4s">and salt</span></p></div>
<div timeContainer="seq" begin="10s"><p dur="2s">One</p><p dur="3s">Two</p></div></body></tt>`, `
ttml utf-8
1 1-4 Add flour and salt
2 10-12 One
2 12-15 Two
`},
		{"ttml, units of time", `<tt frameRate="24" frameRateMultiplier="1000 1001"><body><p begin="0.001h" dur="500ms">One</p><p begin="0.1m" end="7s">Two</p>
<p begin="240f" end="00:00:12">Three</p><p begin="240t" dur="1s">Four</p></body></tt>`, `
ttml utf-8
1 3.6-4.1 One
1 6-7 Two
2 10-12 Three
2 10-11 Four
`},
		{"ttml, no begin, ruby, and what is not talk", `<tt><body><div><p>First</p><p begin="5s" end="6s"><metadata>made by hand</metadata>Add <span ruby="container"><span ruby="base">味噌</span><span ruby="text">miso</span></span> now</p><p> </p><p>Then stir</p></div></body></tt>`, `
ttml utf-8
1 0-5 First
1 5-6 Add 味噌 now
1 6-6.77 Then stir
! 1 a paragraph without a begin, taken as following the one before it
! 1 a paragraph without a begin, taken as following the one before it
`},
		{"plain", "# Bars\nHello there.\nTwo cups.\n\nThen stir.\n\n# Later\n", `
plain utf-8 # Bars
2 Hello there. Two cups.
5 Then stir.
! 7 a heading, not taken as spoken: "Later"
`},
		{"front matter is not spoken", "---\ntitle: Bars\n---\n[0:00] Hello.\n", `
bracket utf-8
4 0-0.384 Hello.
`},
		{"sounds are not words", "[0:00] [Music] Hello. (laughs) Add [upbeat music plays] oats (the soft ones) ♪ la la ♪ and *coughs* [1 cup] salt.\n", `
bracket utf-8
1 0-3.85 Hello. Add oats (the soft ones) and [1 cup] salt.
! 1 5 marks for sounds, not taken as spoken: [Music], (laughs), [upbeat music plays]
`},
		{"speakers are not words", "1\n00:00:01,000 --> 00:00:02,000\n>> ANN: Hello.\n\n2\n00:00:02,000 --> 00:00:03,000\n- Stir.\n-Fold.\n\n3\n00:00:03,000 --> 00:00:04,000\nMY MUM: Rest it: >> yes.\n\n4\n00:00:04,000 --> 00:00:05,000\nNow: bake.\n", `
subrip utf-8
2 1-2 <ANN> Hello.
6 2-3 Stir. Fold.
11 3-4 <MY MUM> Rest it: yes.
15 4-5 Now: bake.
`},
		{"labels in small letters on most cues", "Ann Other: Hello.\n\nBea: Hi.\n\nAnn Other: Two cups.\n\nOf oats.", `
plain utf-8
1 <Ann Other> Hello.
3 <Bea> Hi.
5 <Ann Other> Two cups.
7 Of oats.
`},
		{"capitals throughout are no labels", "HELLO YOU.\n\nFIRST: ADD TWO CUPS.\n\nSTIR.", `
plain utf-8
1 HELLO YOU.
3 FIRST: ADD TWO CUPS.
5 STIR.
`},
		{"dashes and lone punctuation", "butter—soft, add -- well -- 2–3 cups… - so...then 9x13 salt & pepper 350 °F 🎉 done", `
plain utf-8
1 butter— soft, add-- well-- 2–3 cups…- so... then 9x13 salt & pepper 350 °F done
`},
		{"signs never seen", "bu\u00ADtter\u200B and\u00A0cre\u0300me", `
plain utf-8
1 butter and crème
`},
		{"line ends", "[0:00] Hello\r\rthere\r\n[0:02] Stir\nit", `
bracket utf-8
1 0-2 Hello there
4 2-2.77 Stir it
`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			got := summary(mustParse(t, tt.in))
			if diff := cmp.Diff(strings.TrimPrefix(tt.want, "\n"), got); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func TestWordTimes(t *testing.T) {
	tests := []struct{ name, in, want string }{
		{"spread over the cue", "[0:10] a b c d\n[0:12] e", "a@10 b@10.5 c@11 d@11.5 e@12"},
		{"moments inside a cue", "WEBVTT\n\n00:00.000 --> 00:04.000\na b <00:02.000><c>c</c><00:03.000><c> d</c>\n", "a@0 b@1 c@2 d@3"},
		{"a moment inside a word", "WEBVTT\n\n00:00.000 --> 00:04.000\ngin<00:01.000>ger <00:02.000>oats\n", "ginger@0 oats@2"},
		{"a moment that is a slip", "WEBVTT\n\n00:10.000 --> 00:12.000\na <00:01.000>b <00:11.000>c\n", "a@10 b@10.5 c@11"},
		{"a moment over two lines", "WEBVTT\n\n00:00.000 --> 00:05.000\na <00:01.000>b c\nd e", "a@0 b@1 c@2 d@3 e@4"},
		{"moments in SubRip", "1\n00:00:00,000 --> 00:00:04,000\na <00:00:02,000>b c", "a@0 b@2 c@3"},
		{"no times", "a b", "a@- b@-"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, w := range mustParse(t, tt.in).Words {
				at := "-"
				if w.At != NoTime {
					at = fmt.Sprint(w.At.Seconds())
				}
				got = append(got, w.Text+"@"+at)
			}
			if diff := cmp.Diff(tt.want, strings.Join(got, " ")); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func TestRollingCaptions(t *testing.T) {
	vtt := func(cues ...string) string {
		var b strings.Builder
		b.WriteString("WEBVTT\n\n")
		for i, c := range cues {
			fmt.Fprintf(&b, "00:%02d.000 --> 00:%02d.000\n%s\n\n", 2*i, 2*i+2, c)
		}
		return b.String()
	}
	tests := []struct{ name, in, want string }{
		{"each cue repeats the line before", vtt("add the flour", "add the flour\nand the salt", "and the salt\nthen stir"),
			"add the flour | and the salt | then stir"},
		{"two lines stay", vtt("a b\nc d", "a b\nc d\ne f", "c d\ne f\ng h"), "a b c d | e f | g h"},
		{"the line is held for a moment between", vtt("so<00:00:00.500> hello", "so hello\n ", "so hello\ncome<00:00:05.000> in", "come in\n ", "come in\nand stir"),
			"so hello | come in | and stir"},
		{"a cue grows word by word", vtt("add", "add the", "add the flour", "add the flour and", "add the flour and stir"),
			"add | the | flour | and | stir"},
		{"lines broken anew", vtt("one two three four", "two three four five\nsix", "four five six seven\neight", "five six seven eight\nnine ten"),
			"one two three four | five six | seven eight | nine ten"},
		{"punctuation settles late", vtt("well hello", "Well, hello.\nstir it", "Stir it.\nand fold", "And fold.\nbake"),
			"well hello | stir it | and fold | bake"},
		{"said twice over an edge, and not rolling", vtt("come in", "come in", "now add the flour", "the flour goes in", "in goes the salt"),
			"come in | come in | now add the flour | the flour goes in | in goes the salt"},
		{"said twice in a file that rolls", vtt("add the salt and stir", "add the salt and stir\nstir it well", "stir it well\nand rest", "and then", "and then\nserve", "serve\nwarm"),
			"add the salt and stir | stir it well | and rest | and then | serve | warm"},
		{"sounds between", vtt("add flour now", "add flour now\n[Music]", "[Music]\nstir it", "stir it\nand serve"),
			"add flour now | stir it | and serve"},
		{"a word the speaker says again and again", vtt("stir stir stir", "stir stir stir", "and rest it", "then serve it"),
			"stir stir stir | stir stir stir | and rest it | then serve it"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, c := range mustParse(t, tt.in).Cues {
				got = append(got, c.Text)
			}
			if diff := cmp.Diff(tt.want, strings.Join(got, " | ")); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

func TestErrors(t *testing.T) {
	png := append([]byte("\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR"), bytes.Repeat([]byte{0, 1, 200, 7}, 50)...)
	tests := []struct {
		name   string
		in     string
		reason error
		want   string
	}{
		{"nothing", "", ErrEmpty, "talk: the transcript is empty: there is nothing to read"},
		{"blank", " \n\t\n", ErrEmpty, "talk: the transcript is empty: there is nothing to read"},
		{"only a mark", "\uFEFF", ErrEmpty, "talk: the transcript is empty: there is nothing to read"},
		{"no words", "WEBVTT\n\nNOTE hello\n", ErrNoWords, "talk: the transcript holds no spoken words: it was read as webvtt; give a transcript in which somebody speaks"},
		{"only sounds", "[0:00] [Music]\n[0:10] ♪♪", ErrNoWords, "talk: the transcript holds no spoken words: it was read as bracket; give a transcript in which somebody speaks"},
		{"picture", string(png), ErrBinary, "talk: this is not a text file: give the transcript, not the recording or a document file"},
		{"UTF-16 without its mark", "h\x00e\x00l\x00l\x00o\x00", ErrBinary, "talk: this is not a text file: it looks like UTF-16 without a byte order mark; save it as UTF-8"},
		{"vtt cue without end", "WEBVTT\n\n00:01.000 -->\nStir\n", ErrNoEnd, `talk:3: the cue has no end time: "00:01.000 -->"; write a second time after the arrow`},
		{"vtt end that is no time", "WEBVTT\n\n00:01.000 --> soon\nStir\n", ErrNoEnd, `talk:3: the cue has no end time: "00:01.000 --> soon"; write a second time after the arrow`},
		{"vtt impossible time", "WEBVTT\n\n00:01.000 --> 00:99.000\nStir\n", ErrTime, `talk:3: the time cannot be read: "00:01.000 --> 00:99.000"; write 00:01:02.500 --> 00:01:05.000`},
		{"subrip cue without end", "1\n00:00:01,000 -->\nStir\n", ErrNoEnd, `talk:2: the cue has no end time: "00:00:01,000 -->"; write a second time after the arrow`},
		{"subrip impossible time", "1\n00:00:01,000 --> 00:00:02,000\nStir\n\n2\n00:61:00,000 --> 00:62:00,000\nFold\n", ErrTime, `talk:6: the time cannot be read: "00:61:00,000 --> 00:62:00,000"; write 00:01:02,500 --> 00:01:05,000`},
		{"ttml impossible time", "<tt><body>\n<p begin=\"soon\">Stir</p></body></tt>", ErrTime, `talk:2: the time cannot be read: begin="soon"; write it as 00:01:02.500 or 62.5s`},
		{"ttml frames that are none", "<tt><body><p begin=\"00:00:01:x\">Stir</p></body></tt>", ErrTime, `talk:1: the time cannot be read: begin="00:00:01:x"; write it as 00:01:02.500 or 62.5s`},
		{"ttml beyond all time", "<tt><body><p begin=\"999999999h\">Stir</p></body></tt>", ErrTime, `talk:1: the time cannot be read: begin="999999999h"; write it as 00:01:02.500 or 62.5s`},
		{"sound in the shape of UTF-16", "\xFF\xFE" + strings.Repeat("\x01\xD8\x41\x12", 200), ErrBinary, "talk: this is not a text file: give the transcript, not the recording or a document file"},
		{"word processor", `{\rtf1\ansi hello}`, ErrFormat, `talk:1: this is no transcript quern knows: it looks like a word-processor document (RTF); give timed text, SubRip, WebVTT, TTML or plain text`},
		{"ttml cut short", "<tt><body>\n<p begin=\"1s\">Stir", ErrFormat, `talk:2: this is no transcript quern knows: the XML is broken: unexpected EOF`},
		{"other XML", "<?xml version=\"1.0\"?>\n<feed/>", ErrFormat, `talk:2: this is no transcript quern knows: the XML is <feed>, not the <tt> of TTML`},
		{"web page", "<!DOCTYPE html><p>hello", ErrFormat, `talk:1: this is no transcript quern knows: it looks like a web page; give timed text, SubRip, WebVTT, TTML or plain text`},
		{"JSON", "[\n {\"a\": 1}]", ErrFormat, `talk:1: this is no transcript quern knows: it looks like JSON data; give timed text, SubRip, WebVTT, TTML or plain text`},
		{"a recipe document", "recipe: 1\ntitle: Bars\n", ErrFormat, `talk:1: this is no transcript quern knows: it looks like a recipe document, which quern check reads; give timed text, SubRip, WebVTT, TTML or plain text`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			n, err := Parse("talk", []byte(tt.in))
			if err == nil {
				t.Fatalf("no error, and %q", summary(n))
			}
			if !errors.Is(err, tt.reason) {
				t.Errorf("the error wraps another reason than %q", tt.reason)
			}
			if diff := cmp.Diff(tt.want, err.Error()); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
}

type failingReader struct{ err error }

func (r failingReader) Read([]byte) (int, error) { return 0, r.err }

type endless struct{}

func (endless) Read(p []byte) (int, error) {
	for i := range p {
		p[i] = 'a'
	}
	return len(p), nil
}

func TestRead(t *testing.T) {
	n, err := Read("-", strings.NewReader("[0:00] Hello."))
	if err != nil || n.Name != "-" || len(n.Words) != 1 {
		t.Errorf("Read gives %+v, %v", n, err)
	}
	broken := errors.New("the disk is gone")
	if _, err := Read("-", failingReader{broken}); !errors.Is(err, broken) || err.Error() != "standard input: cannot read it: the disk is gone" {
		t.Errorf("Read of a failing reader gives %v", err)
	}
	if _, err := Read("big", endless{}); !errors.Is(err, ErrTooLarge) {
		t.Errorf("Read without an end gives %v", err)
	}
}

func TestEncodings(t *testing.T) {
	const text = "[0:00] Crème brûlée – it’s done.\n[0:03] Stir ½ cup.\n"
	wide := func(order binary.AppendByteOrder) []byte {
		out := order.AppendUint16(nil, 0xFEFF)
		for _, u := range utf16.Encode([]rune(text)) {
			out = order.AppendUint16(out, u)
		}
		return out
	}
	latin := []byte("[0:00] Cr\xE8me br\xFBl\xE9e \x96 it\x92s done.\n[0:03] Stir \xBD cup.\n")
	want := mustParse(t, text)
	tests := []struct {
		encoding string
		data     []byte
		warnings int
	}{
		{"utf-8", []byte(text), 0},
		{"utf-8-bom", append([]byte("\xEF\xBB\xBF"), text...), 0},
		{"utf-16le", wide(binary.LittleEndian), 0},
		{"utf-16be", wide(binary.BigEndian), 0},
		{"windows-1252", latin, 1},
	}
	for _, tt := range tests {
		t.Run(tt.encoding, func(t *testing.T) {
			got, err := Parse("talk", tt.data)
			if err != nil {
				t.Fatal(err)
			}
			if got.Encoding != tt.encoding {
				t.Errorf("encoding %q, want %q", got.Encoding, tt.encoding)
			}
			if len(got.Warnings) != tt.warnings {
				t.Errorf("warnings %v, want %d", got.Warnings, tt.warnings)
			}
			if diff := cmp.Diff(want.Words, got.Words); diff != "" {
				t.Errorf("(-want +got)\n%s", diff)
			}
		})
	}
	t.Run("damaged UTF-8", func(t *testing.T) {
		got, err := Parse("talk", []byte("Crème brûlée\nand p\xE2t\xC3"))
		if err != nil {
			t.Fatal(err)
		}
		if diff := cmp.Diff("plain utf-8\n1 Crème brûlée and p\uFFFDt\uFFFD\n! 2 2 bytes are not UTF-8, read as unknown characters\n", summary(got)); diff != "" {
			t.Errorf("(-want +got)\n%s", diff)
		}
	})
}

func TestManyWarningsAreCounted(t *testing.T) {
	var b strings.Builder
	for i := range 50 {
		fmt.Fprintf(&b, "[0:%02d] word\n", 59-i)
	}
	n := mustParse(t, b.String())
	if len(n.Warnings) != maxShown+1 {
		t.Fatalf("%d warnings, want %d", len(n.Warnings), maxShown+1)
	}
	if last := n.Warnings[maxShown]; last.Text != "times that run backwards: 39 more" || last.Line != 0 {
		t.Errorf("the last warning is %+v", last)
	}
}

// narrations gives the invented narrations of the repository.
func narrations(tb testing.TB) map[string]string {
	tb.Helper()
	files, err := filepath.Glob("../../testdata/narrations/*.md")
	if err != nil || len(files) == 0 {
		tb.Fatalf("no narrations in testdata: %v", err)
	}
	out := make(map[string]string, len(files))
	for _, f := range files {
		data, err := os.ReadFile(f)
		if err != nil {
			tb.Fatal(err)
		}
		out[strings.TrimSuffix(filepath.Base(f), ".md")] = string(data)
	}
	return out
}

func TestStylesGiveTheSameWords(t *testing.T) {
	for name, text := range narrations(t) {
		t.Run(name, func(t *testing.T) {
			base := mustParse(t, text)
			want := bareWords(base)
			for _, style := range styles {
				n := mustParse(t, style.write(base))
				if n.Format != style.format {
					t.Errorf("%s is read as %s", style.name, n.Format)
				}
				got := bareWords(n)
				if diff := cmp.Diff(texts(want), texts(got)); diff != "" {
					t.Errorf("%s has other words (-want +got)\n%s", style.name, diff)
					continue
				}
				if !n.Timed {
					continue
				}
				for i := range want {
					// Styles cut cues at other words, and a cue's words
					// share its time evenly: a few seconds apart at most.
					if d := (got[i].At - want[i].At).Abs(); d > 3*time.Second {
						t.Errorf("%s: word %d, %q, is %v away from where it was said", style.name, i, got[i].Text, d)
						break
					}
				}
			}
		})
	}
}

func texts(words []Word) []string {
	out := make([]string, len(words))
	for i, w := range words {
		out[i] = w.Text
	}
	return out
}

// bareWords gives the words without capitals, punctuation and hyphens, as a
// recogniser writes them.
func bareWords(n *Narration) []Word {
	var out []Word
	for _, w := range n.Words {
		for _, part := range strings.FieldsFunc(w.Text, func(r rune) bool { return r == '-' || r == '–' || r == '—' }) {
			if key := foldKey(strings.ReplaceAll(part, "’", "'")); spoken(key) {
				out = append(out, Word{Text: key, At: w.At})
			}
		}
	}
	return out
}

// styles are ways of writing a narration down again.
var styles = []struct {
	name, format string
	write        func(*Narration) string
}{
	{"subrip", "subrip", func(n *Narration) string {
		var b strings.Builder
		for i, c := range cut(n.Words, n, 9) {
			fmt.Fprintf(&b, "%d\n%s --> %s\n%s\n\n", i+1, strings.Replace(Stamp(c.Start), ".", ",", 1), strings.Replace(Stamp(c.End), ".", ",", 1), c.Text)
		}
		return b.String()
	}},
	{"webvtt", "webvtt", func(n *Narration) string {
		var b strings.Builder
		b.WriteString("WEBVTT - narration\nLanguage: en\n\nNOTE spoken, uncut\n\n")
		for i, c := range cut(n.Words, n, 11) {
			fmt.Fprintf(&b, "c%d\n%s --> %s align:start position:0%%\n<v Cook>%s</v>\n\n", i+1, Stamp(c.Start), Stamp(c.End), c.Text)
		}
		return b.String()
	}},
	{"rolling", "webvtt", func(n *Narration) string {
		var b strings.Builder
		b.WriteString("WEBVTT\nKind: captions\n\n")
		last := ""
		for _, c := range cut(bareWords(n), n, 6) {
			fmt.Fprintf(&b, "%s --> %s\n", Stamp(c.Start), Stamp(c.End))
			if last != "" {
				b.WriteString(last + "\n")
			}
			b.WriteString(c.Text + "\n\n")
			last = c.Text
		}
		return b.String()
	}},
	{"rolling with moments", "webvtt", func(n *Narration) string {
		var b strings.Builder
		b.WriteString("WEBVTT\n\n")
		words := bareWords(n)
		last := ""
		for _, c := range cut(words, n, 7) {
			fmt.Fprintf(&b, "%s --> %s\n%s\n", Stamp(c.Start), Stamp(c.End), last)
			if last == "" {
				b.WriteString(" \n")
			}
			for i, w := range words[c.First:c.Last] {
				if i > 0 {
					fmt.Fprintf(&b, "<%s><c> ", Stamp(w.At))
				}
				b.WriteString(w.Text)
				if i > 0 {
					b.WriteString("</c>")
				}
			}
			fmt.Fprintf(&b, "\n\n%s --> %s\n%s\n \n\n", Stamp(c.End), Stamp(c.End+10*time.Millisecond), c.Text)
			last = c.Text
		}
		return b.String()
	}},
	{"ttml", "ttml", func(n *Narration) string {
		var b strings.Builder
		b.WriteString("<?xml version=\"1.0\"?>\n<tt xmlns=\"http://www.w3.org/ns/ttml\"><body><div>\n")
		for _, c := range cut(n.Words, n, 8) {
			text := strings.NewReplacer("&", "&amp;", "<", "&lt;").Replace(c.Text)
			fmt.Fprintf(&b, "<p begin=%q end=%q>%s</p>\n", Stamp(c.Start), Stamp(c.End), text)
		}
		b.WriteString("</div></body></tt>\n")
		return b.String()
	}},
	{"plain", "plain", func(n *Narration) string {
		var b strings.Builder
		for _, c := range n.Cues {
			b.WriteString(c.Text + "\n\n")
		}
		return b.String()
	}},
}

// cut makes cues of about size words that end with the cues of n.
func cut(words []Word, n *Narration, size int) []Cue {
	var out []Cue
	cue := func(w Word) int {
		c := 0
		for c+1 < len(n.Cues) && n.Cues[c+1].Start <= w.At {
			c++
		}
		return c
	}
	for i := 0; i < len(words); {
		end := i
		for end < len(words) && end < i+size && cue(words[end]) == cue(words[i]) {
			end++
		}
		c := Cue{Start: words[i].At, First: i, Last: end, End: n.Cues[cue(words[i])].End}
		if end < len(words) && cue(words[end]) == cue(words[i]) {
			c.End = words[end].At
		}
		c.Text = strings.Join(texts(words[i:end]), " ")
		out = append(out, c)
		i = end
	}
	return out
}

func TestSubRipAndWebVTTAgree(t *testing.T) {
	for name, text := range narrations(t) {
		base := mustParse(t, text)
		srt := styles[0].write(base)
		vtt := "WEBVTT\n\n" + strings.ReplaceAll(srt, ",0", ".0")
		for _, c := range cut(base.Words, base, 9) {
			vtt = strings.ReplaceAll(vtt, strings.Replace(Stamp(c.Start), ".", ",", 1), Stamp(c.Start))
			vtt = strings.ReplaceAll(vtt, strings.Replace(Stamp(c.End), ".", ",", 1), Stamp(c.End))
		}
		a, b := mustParse(t, srt), mustParse(t, vtt)
		if diff := cmp.Diff(a.Words, b.Words); diff != "" {
			t.Errorf("%s: SubRip and WebVTT differ\n%s", name, diff)
		}
	}
}

func TestHostileInputEnds(t *testing.T) {
	const size = 200_000
	for _, text := range []string{
		strings.Repeat("[", size), strings.Repeat("<", size), strings.Repeat("{", size), strings.Repeat("♪ ", size), strings.Repeat("[0:00", size),
		"1\n00:00:00,000 --> 00:00:01,000\n" + strings.Repeat("<", size) + ">",
		"WEBVTT\n\n00:00.000 --> 00:01.000\n" + strings.Repeat("<00:00.500>a", size),
		"WEBVTT\n\n00:00.000 --> 00:01.000\n" + strings.Repeat("a\n", size),
		"[0:00] " + strings.Repeat("[0:01] a ", size),
		"<tt><body>" + strings.Repeat("<p>", size),
		"[0:00] " + strings.Repeat("9", size) + ":00",
		"WEBVTT\n\n" + strings.Repeat("9", size) + ":00:00.000 --> 00:00.000\na",
	} {
		n, err := Parse("talk", []byte(text))
		if err == nil {
			checkWhole(t, n)
		}
	}
}
