package transcript

import (
	"errors"
	"strings"
	"testing"
)

// fuzzFormat feeds a format's reader with anything and checks that it ends
// with a whole narration or with one of the documented errors.
func fuzzFormat(f *testing.F, head string, seeds ...string) {
	for _, s := range seeds {
		f.Add([]byte(s))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		n, err := Parse("talk", append([]byte(head), data...))
		if err == nil {
			checkWhole(t, n)
			return
		}
		var whole *Error
		if !errors.As(err, &whole) || whole.File != "talk" {
			t.Fatalf("the error is %#v, want an *Error with its file", err)
		}
		for _, reason := range []error{ErrEmpty, ErrNoWords, ErrBinary, ErrNoEnd, ErrTime, ErrFormat, ErrTooLarge} {
			if errors.Is(err, reason) {
				return
			}
		}
		t.Fatalf("%v wraps no documented reason", err)
	})
}

func FuzzBracket(f *testing.F) {
	fuzzFormat(f, "[0:00] a\n", "[0:01] b\n[0:75] c", "b [0:02] c [9:99]\n# d", "[00:00.000 --> 00:01.000] e\n[Music] (laughs) ♪")
}

func FuzzSubRip(f *testing.F) {
	fuzzFormat(f, "1\n00:00:00,000 --> 00:00:01,000\n", "a\n\n2\n00:00:01,000 --> 00:00:02,000\na\nb", "<i>a</i> {\\an8}b <00:00:00,500> c", "9999999999:00:00 --> 1:2")
}

func FuzzWebVTT(f *testing.F) {
	fuzzFormat(f, "WEBVTT\n\n", "00:00.000 --> 00:01.000\n<v A>a<00:00.500><c> b</c>\n\n", "NOTE a\n\n00:01.000 -->\nb", "x\n00:01.000 --> 00:00.000\n<ruby>a<rt>b</rt></ruby> &amp; <")
}

func FuzzTTML(f *testing.F) {
	fuzzFormat(f, "<tt>", "<body><p begin='1s' end='2s'>a<br/>b</p></body></tt>", "<body><div timeContainer='seq'><p dur='2s'><span begin='1f'>a</span></p></div></body></tt>", "<p begin='00:00:01:12'>&nbsp;a</p></tt>")
}

func FuzzPlain(f *testing.F) {
	fuzzFormat(f, "", "a b\n\nc", "\xFF\xFEa\x00", "\xEF\xBB\xBFa", "ANN: a — b\n>> c", "0:01\na\n0:02\nb", "---\na: b\n---\nc", strings.Repeat("A: b\n\n", 4))
}

func BenchmarkParse(b *testing.B) {
	base := ""
	for _, text := range narrations(b) {
		if len(text) > len(base) {
			base = text
		}
	}
	n, err := Parse("talk", []byte(base))
	if err != nil {
		b.Fatal(err)
	}
	inputs := map[string]string{"bracket": base}
	names := []string{"bracket"}
	for _, s := range styles {
		inputs[s.name] = s.write(n)
		names = append(names, s.name)
	}
	for _, name := range names {
		data := []byte(inputs[name])
		b.Run(name, func(b *testing.B) {
			b.SetBytes(int64(len(data)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := Parse("talk", data); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
