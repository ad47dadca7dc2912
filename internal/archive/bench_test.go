package archive

import (
	"context"
	"fmt"
	"os"
	"path/filepath"
	"testing"
)

// BenchmarkBatch reads an archive of two hundred recordings, new each time, and
// then once more with nothing changed.
func BenchmarkBatch(b *testing.B) {
	narrations, err := filepath.Glob(filepath.FromSlash("../../testdata/narrations/*.md"))
	if err != nil || len(narrations) == 0 {
		b.Fatalf("no narrations under testdata: %v", err)
	}
	files := map[string]string{}
	bytes := 0
	for i := range 200 {
		data, err := os.ReadFile(narrations[i%len(narrations)])
		if err != nil {
			b.Fatal(err)
		}
		files[fmt.Sprintf("%03d.md", i)] = string(data) + fmt.Sprintf("\n\nThat was number %d.\n", i)
		bytes += len(data)
	}
	in := folder(b, files)
	run := func(b *testing.B, out string) {
		if _, err := Run(context.Background(), Options{Folder: in, Out: out}); err != nil {
			b.Fatal(err)
		}
	}
	b.Run("new", func(b *testing.B) {
		b.ReportAllocs()
		b.SetBytes(int64(bytes))
		for range b.N {
			run(b, b.TempDir())
		}
	})
	b.Run("unchanged", func(b *testing.B) {
		out := b.TempDir()
		run(b, out)
		b.ReportAllocs()
		b.SetBytes(int64(bytes))
		b.ResetTimer()
		for range b.N {
			run(b, out)
		}
	})
}
