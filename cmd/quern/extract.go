package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"runtime/debug"
	"strings"

	"github.com/spf13/cobra"

	"quern/internal/archive"
	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/nutrition"
	"quern/internal/transcript"
	"quern/schema"
	"quern/testdata"
)

// extractFlags are the flags of quern extract.
type extractFlags struct {
	format  string
	output  string
	foods   string
	strict  bool
	explain bool
	example bool
	dryRun  bool
}

// extractCommand writes the recipe told in a transcript.
func extractCommand() *cobra.Command {
	var f extractFlags
	cmd := &cobra.Command{
		Use:   "extract FILE… [--format yaml|json] [-o PATH] [--dry-run] [--strict] [--explain] [--foods FILE]",
		Short: "write the recipe told in a transcript",
		Long: `quern extract reads transcripts and writes the recipe told in each: timed text
([0:42] at each paragraph), SubRip, WebVTT, TTML or plain text, told apart by
their content. A FILE of - is standard input.

Standard output carries the document and nothing else. What is worth knowing,
and every open flag on a line of its own (the moment, the question, the words),
goes to standard error. Several files give a YAML stream, or a line of JSON for
each recipe; one that can't be read is reported and the rest go on.

With -o the document goes to a file, written whole or not at all. A document
that is there already is not lost: what was changed, added, removed or noted in
it by hand stays, and what the talk says newly comes in.`,
		Example: `  quern extract --example              the narration that comes along
  quern extract talk.vtt > bars.yaml
  quern extract talk.vtt -o bars.yaml  keep the edits that are in bars.yaml
  quern extract *.srt --format json    a line of JSON a recipe
  quern extract talk.vtt --strict      exit code 3 while a flag is open
  quern extract talk.vtt --explain     the reason for every fact`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case f.example && len(args) > 0:
				return errors.New("--example brings its own narration; leave out FILE")
			case !f.example && len(args) == 0:
				return errors.New("extract wants the FILE of a transcript, or - for standard input; to see one that comes along: quern extract --example")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if !cmd.Flags().Changed("format") && strings.HasSuffix(strings.ToLower(f.output), ".json") {
				f.format = "json"
			}
			if err := f.check(args); err != nil {
				return err
			}
			return extractFiles(cmd, f, args)
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	flags.StringVar(&f.format, "format", "yaml", "`FORM` of the document: yaml or json")
	flags.StringVarP(&f.output, "output", "o", "", "write to `PATH`, keeping the edits that are in it")
	flags.BoolVar(&f.dryRun, "dry-run", false, "with -o: show what would change in PATH, change nothing")
	flags.BoolVar(&f.strict, "strict", false, "end with exit code 3 when flags are open")
	flags.BoolVar(&f.explain, "explain", false, "tell on standard error why each fact stands there")
	flags.StringVar(&f.foods, "foods", "", "`FILE` of your own foods; foods.yaml beside PATH or FILE if left out")
	flags.BoolVar(&f.example, "example", false, "read the narration that comes along")
	return cmd
}

// check refuses flags that make no sense together.
func (f *extractFlags) check(files []string) error {
	if err := oneOf("format", f.format, "yaml", "json"); err != nil {
		return err
	}
	if f.output == "-" {
		f.output = ""
	}
	if f.dryRun && f.output == "" {
		return wrongCall("--dry-run shows what would change in a file; name it with -o PATH")
	}
	if f.output == "" {
		return nil
	}
	out, err := os.Stat(f.output)
	if err != nil {
		return nil // it isn't there yet
	}
	if out.IsDir() {
		return wrongCall("-o %s is a folder; name a file in it", f.output)
	}
	for _, file := range files {
		if in, err := os.Stat(file); err == nil && os.SameFile(in, out) {
			return wrongCall("-o %s is the transcript itself; name another file", f.output)
		}
	}
	return nil
}

// haste is how far the memory in use may grow, in percent, before extract
// collects what is no longer needed of talks of two hours together at most: the
// tables take about 8 MB, and such a call is over before they, the tagger and the
// marks of a narration need it. Longer ones, and those of which no size is known, it
// collects as thriftily as a batch: a talk of ten hours has 35 MB of words and marks.
const (
	haste      = 400
	hasteBytes = 128 << 10
)

// collecting gives how far the memory in use may grow for files, in percent.
func collecting(files []string) int {
	left := int64(hasteBytes)
	for _, file := range files {
		info, err := os.Stat(file)
		if err != nil || !info.Mode().IsRegular() {
			return thrift
		}
		if left -= info.Size(); left < 0 {
			return thrift
		}
	}
	return haste
}

// extractFiles extracts each file and writes the documents.
func extractFiles(cmd *cobra.Command, f extractFlags, files []string) error {
	defer debug.SetGCPercent(debug.SetGCPercent(collecting(files)))
	t := newTerminal(cmd.ErrOrStderr())
	if f.example {
		files = []string{testdata.ExampleName}
	}
	var kept []*schema.Document // for the file named by -o
	open, written := 0, 0
	err := eachFile(cmd.Context(), t, files, func(file string) error {
		n, err := f.narration(cmd, file)
		if err != nil {
			return err
		}
		own, err := f.ownFoods(file)
		if err != nil {
			return err
		}
		defer archive.Thrifty(n.Size())()
		docs := recipes(n, own, f.explain, t)
		// The document first: on a terminal the flags should stand last.
		defer func() {
			for _, doc := range docs {
				open += len(doc.Open())
				t.summary(file, doc)
			}
		}()
		if f.output != "" {
			kept = append(kept, docs...)
			return nil
		}
		data, err := encode(f.format, docs)
		if err != nil {
			return fmt.Errorf("%s: %w", shownName(file), err)
		}
		if written > 0 && f.format == "yaml" {
			data = append([]byte("---\n"), data...)
		}
		written++
		return emit(cmd, data)
	})
	if err == nil && f.output != "" {
		err = keep(t, f, kept)
	} else if errors.Is(err, errReported) && f.output != "" {
		// Writing the rest would take the recipes of the failed file out of
		// a document that has them.
		t.line("nothing was written to " + printable(f.output))
	}
	if err == nil && f.strict && open > 0 {
		return errFlagsOpen
	}
	return err
}

// narration reads one transcript, or the one that comes along.
func (f *extractFlags) narration(cmd *cobra.Command, file string) (*transcript.Narration, error) {
	if f.example {
		return transcript.Parse(file, testdata.Example)
	}
	return readNarration(cmd, file)
}

// ownFoods reads a person's own foods: those that lie beside the document, or
// beside the transcript where no document is kept.
func (f *extractFlags) ownFoods(file string) (*nutrition.Own, error) {
	switch {
	case f.output != "":
		file = f.output
	case f.example:
		file = "-" // it lies in no folder
	}
	return ownFoods(f.foods, file)
}

// encode writes documents in a form.
func encode(format string, docs []*schema.Document) ([]byte, error) {
	var b bytes.Buffer
	write := schema.WriteYAML
	if format == "json" {
		write = schema.WriteJSON
	}
	err := write(&b, docs...)
	return b.Bytes(), err
}

// keep writes the documents to the file named by -o, joining them with what is
// there.
func keep(t *terminal, f extractFlags, docs []*schema.Document) error {
	data, err := encode(f.format, docs)
	if err != nil {
		return err
	}
	own, err := f.ownFoods("")
	if err != nil {
		return err
	}
	saved, err := merge.SaveWith(f.output, data, f.dryRun, derive.Options{Own: own})
	if err != nil {
		return err
	}
	shown := printable(f.output)
	switch {
	case f.dryRun && saved.Diff == "":
		t.line(shown + ": nothing would change")
	case f.dryRun:
		for _, line := range strings.Split(strings.TrimSuffix(saved.Diff, "\n"), "\n") {
			t.line(printable(line))
		}
	case saved.Diff == "":
		t.line(shown + ": unchanged")
	default:
		t.line(shown + ": written")
	}
	for _, c := range saved.Clashes {
		t.line("  " + printable(c.String()))
	}
	return nil
}
