// Command marks learns where commas and full stops go in cooks' talk from punctuated talk,
// and writes the weights that internal/marking guesses with.
//
//	go run ./bench/marks testdata/spoken testdata/talks
//	go run ./bench/marks -o "" -held testdata/narrations testdata/spoken testdata/talks
package main

import (
	"flag"
	"fmt"
	"os"
	"path/filepath"

	"quern/internal/language"
	"quern/internal/lexicon"
	"quern/internal/marking"
	"quern/internal/transcript"
)

func main() {
	out := flag.String("o", filepath.FromSlash("internal/marking/weights.bin"), "where the weights go, \"\" for nowhere")
	held := flag.String("held", "", "a directory of other talk to measure on")
	size := flag.Int("size", 1<<18, "slots of the table, a power of two")
	flag.Parse()
	if err := run(flag.Args(), *out, *held, *size); err != nil {
		fmt.Fprintln(os.Stderr, "marks:", err)
		os.Exit(1)
	}
}

func run(dirs []string, out, held string, size int) error {
	lex := lexicon.Load()
	var talks []*marking.Talk
	for _, dir := range dirs {
		more, err := read(lex, dir)
		if err != nil {
			return err
		}
		talks = append(talks, more...)
	}
	if len(talks) == 0 {
		return fmt.Errorf("no talk to learn from: name directories of .md or .txt files with punctuated talk")
	}
	weights := marking.Learn(lex, talks, size)
	fmt.Printf("learned from %d talks\n", len(talks))
	if held != "" {
		other, err := read(lex, held)
		if err != nil {
			return err
		}
		any, stops := marking.Measure(lex, other, weights)
		fmt.Printf("%d talks held: any mark F1 %.3f %+v, full stops F1 %.3f %+v\n", len(other), any.F1(), any, stops.F1(), stops)
	}
	if out == "" {
		return nil
	}
	return os.WriteFile(out, weights, 0o644)
}

// read reads every transcript under dir.
func read(lex *lexicon.Lexicon, dir string) ([]*marking.Talk, error) {
	var talks []*marking.Talk
	err := filepath.WalkDir(dir, func(path string, d os.DirEntry, err error) error {
		if err != nil || d.IsDir() || filepath.Ext(path) != ".md" && filepath.Ext(path) != ".txt" {
			return err
		}
		data, err := os.ReadFile(path)
		if err != nil {
			return err
		}
		n, err := transcript.Parse(path, data)
		if err != nil {
			return err
		}
		talks = append(talks, marking.NewTalk(lex, path, language.Tokens(n)))
		return nil
	})
	return talks, err
}
