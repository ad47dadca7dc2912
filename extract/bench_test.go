package extract

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"quern/internal/derive"
	"quern/internal/lexicon"
	"quern/internal/transcript"
)

// tenMinutes is a talk of 1,800 words, ten minutes at three words a second:
// the invented narrations in a row, with their times taken out.
func tenMinutes(b *testing.B) []byte {
	b.Helper()
	files, err := filepath.Glob(filepath.FromSlash("../testdata/narrations/*.md"))
	if err != nil || len(files) == 0 {
		b.Fatalf("no narrations under testdata: %v", err)
	}
	var out strings.Builder
	words := 0
	for _, file := range files {
		data, err := os.ReadFile(file)
		if err != nil {
			b.Fatal(err)
		}
		for _, line := range strings.Split(string(data), "\n") {
			if !strings.HasPrefix(line, "[") || words >= 1800 {
				continue
			}
			_, line, _ = strings.Cut(line, "]")
			fields := strings.Fields(line)
			fields = fields[:min(len(fields), 1800-words)]
			at := words / 3
			out.WriteString("[" + time.Time{}.Add(time.Duration(at)*time.Second).Format("04:05") + "] " + strings.Join(fields, " ") + "\n\n")
			words += len(fields)
		}
	}
	if words != 1800 {
		b.Fatalf("the narrations have %d words, want at least 1800", words)
	}
	return []byte(out.String())
}

// BenchmarkTenMinutes takes a narration of ten minutes through each stage: the
// time of whole is what a warm program spends on it.
func BenchmarkTenMinutes(b *testing.B) {
	data := tenMinutes(b)
	n, err := transcript.Parse("talk", data)
	if err != nil {
		b.Fatal(err)
	}
	perWord := func(b *testing.B) {
		b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(len(n.Words)), "ns/word")
	}
	b.Run("whole", func(b *testing.B) {
		b.ReportAllocs()
		for range b.N {
			n, err := transcript.Parse("talk", data)
			if err != nil {
				b.Fatal(err)
			}
			for _, doc := range Extract(n) {
				derive.Apply(doc, derive.Options{})
			}
		}
		perWord(b)
	})
	b.Run("read", func(b *testing.B) {
		b.ReportAllocs()
		for range b.N {
			if _, err := transcript.Parse("talk", data); err != nil {
				b.Fatal(err)
			}
		}
		perWord(b)
	})
	b.Run("extract", func(b *testing.B) {
		b.ReportAllocs()
		for range b.N {
			Extract(n)
		}
		perWord(b)
	})
	b.Run("derive", func(b *testing.B) {
		b.ReportAllocs()
		docs := Extract(n)
		b.ResetTimer()
		for range b.N {
			for _, doc := range docs {
				derive.Apply(doc, derive.Options{})
			}
		}
		perWord(b)
	})
}

// BenchmarkPasses tells what each pass costs, in nanoseconds a word of a
// narration of ten minutes.
func BenchmarkPasses(b *testing.B) {
	n, err := transcript.Parse("talk", tenMinutes(b))
	if err != nil {
		b.Fatal(err)
	}
	took := make([]time.Duration, len(passes)+1)
	lexicon.Load()
	b.ResetTimer()
	for range b.N {
		begin := time.Now()
		t := &talk{n: n, lex: lexicon.Load()}
		t.readWords()
		took[len(passes)] += time.Since(begin)
		for i, p := range passes {
			begin := time.Now()
			t.pass = p.name
			p.run(t)
			took[i] += time.Since(begin)
		}
	}
	each := func(d time.Duration) float64 {
		return float64(d.Nanoseconds()) / float64(b.N) / float64(len(n.Words))
	}
	b.ReportMetric(each(took[len(passes)]), "tokens-ns/word")
	for i, p := range passes {
		b.ReportMetric(each(took[i]), p.name+"-ns/word")
	}
}
