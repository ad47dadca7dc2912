package main

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"unicode"

	"github.com/spf13/cobra"

	"quern/internal/derive"
	"quern/internal/merge"
	"quern/internal/publish"
	"quern/schema"
)

// writeFlags are the flags of quern write.
type writeFlags struct {
	form, format, output string
	recipe               int
	foods                string
	options              publish.Options
}

// writeCommand writes a recipe document out for readers and programs.
func writeCommand() *cobra.Command {
	var f writeFlags
	cmd := &cobra.Command{
		Use:   "write FILE --as FORM [--way NAME] [--servings N | --factor X] [--measures us|metric|both] [--recording URL] [-o PATH]",
		Short: "write a recipe out: page, text, data, chapters, questions, table",
		Long: `quern write sets a recipe document as something to publish. FORM is one of
  markdown   the written recipe, in Markdown
  text       the written recipe, in plain text
  html       the written recipe as one page that needs nothing else
  jsonld     structured data, in the vocabulary of schema.org
  chapters   chapters of the recording: WebVTT, or --format lines
  questions  the open flags, to be filled in: --format markdown, html or csv
  csv        the ingredients as a table
What is still open stands where its answer would. What is worked out and not
said stands in [square brackets].

--servings and --factor multiply the amounts, and warn of pans and times, which
stay as said. --recording makes moments into links; {t} in it stands for the
seconds, otherwise #t=SECONDS is added. With -o the recipe goes to a file, or
into a folder under the recipe's name; without, to standard output. A file with
several recipes wants --recipe N, or -o FOLDER for all of them.`,
		Example: `  quern write bars.yaml --as markdown
  quern write bars.yaml --as html --recording bars.mp4 -o bars.html
  quern write bars.yaml --as text --servings 8 --measures metric
  quern write bars.yaml --as chapters --format lines`,
		Args: func(cmd *cobra.Command, args []string) error {
			if len(args) > 1 {
				return fmt.Errorf("write wants one FILE, not %d", len(args))
			}
			return wantFiles("the FILE of a recipe document", "quern write bars.yaml --as markdown")(cmd, args)
		},
		RunE: func(cmd *cobra.Command, args []string) error { return runWrite(cmd, args[0], f) },
	}
	flags := cmd.Flags()
	flags.StringVar(&f.form, "as", "", "`FORM`: "+strings.Join(publish.Forms(), ", "))
	flags.StringVar(&f.format, "format", "", "`FORM` of chapters: vtt or lines; of questions: markdown, html or csv; from the ending of -o if left out")
	flags.StringVarP(&f.output, "output", "o", "", "`PATH` of a file or folder to write to")
	flags.IntVar(&f.recipe, "recipe", 0, "`N` of the recipe in the file, from 1")
	flags.StringVar(&f.foods, "foods", "", "`FILE` of your own foods; foods.yaml beside the recipe if left out")
	flags.StringVar(&f.options.Way, "way", "", "`NAME` of one way of the recipe; all of them if left out")
	flags.Float64Var(&f.options.Servings, "servings", 0, "`N` servings or pieces to write the amounts for")
	flags.Float64Var(&f.options.Factor, "factor", 0, "`X` to multiply the amounts by")
	flags.StringVar(&f.options.Measures, "measures", "", "`SYSTEM`: us, metric or both; as said if left out")
	flags.StringVar(&f.options.Recording, "recording", "", "`URL` of the recording, for links to moments")
	return cmd
}

func runWrite(cmd *cobra.Command, file string, f writeFlags) error {
	if f.output == "-" {
		f.output = "" // standard output, as without -o
	}
	if f.form == "" {
		return wrongCall("write wants --as FORM; accepted: %s", strings.Join(publish.Forms(), ", "))
	}
	if err := oneOf("as", f.form, publish.Forms()...); err != nil {
		return err
	}
	var err error
	if f.options.Format, err = writeFormat(f); err != nil {
		return err
	}
	if f.options.Measures != "" {
		if err := oneOf("measures", f.options.Measures, "us", "metric", "both"); err != nil {
			return err
		}
	}
	for _, n := range []string{"servings", "factor"} {
		if v, _ := cmd.Flags().GetFloat64(n); cmd.Flags().Changed(n) && !(v > 0) {
			return wrongCall("--%s %g: give a number above 0", n, v)
		}
	}
	if f.options.Servings != 0 && f.options.Factor != 0 {
		return wrongCall("--servings and --factor do the same work: give one of them")
	}
	own, err := ownFoods(f.foods, file)
	if err != nil {
		return err
	}
	f.options.Own = own
	t := newTerminal(cmd.ErrOrStderr())
	docs, err := checkedDocuments(cmd, t, file)
	if err != nil {
		return err
	}
	folder := f.output != "" && (strings.HasSuffix(f.output, string(filepath.Separator)) || isFolder(f.output))
	switch {
	case f.recipe < 0 || f.recipe > len(docs):
		return wrongCall("--recipe %d: %s holds %s", f.recipe, shownName(file), count(len(docs), "recipe"))
	case f.recipe > 0:
		docs = docs[f.recipe-1 : f.recipe]
	case len(docs) > 1 && !folder:
		return wrongCall("%s holds %d recipes: choose one with --recipe N, or write all of them into a folder with -o FOLDER%c",
			shownName(file), len(docs), filepath.Separator)
	}
	taken := map[string]int{}
	for _, doc := range docs {
		derive.Apply(doc, derive.Options{Own: own})
		var b bytes.Buffer
		if err := publish.Write(&b, f.form, doc, f.options); err != nil {
			return fmt.Errorf("%s: %w", shownName(file), err)
		}
		if f.output == "" {
			if err := emit(cmd, b.Bytes()); err != nil {
				return err
			}
			continue
		}
		path := f.output
		if folder {
			path = filepath.Join(f.output, outputName(doc, f, taken))
		}
		if err := writeOut(path, file, b.Bytes(), folder); err != nil {
			return err
		}
		t.line(printable(path) + ": written")
	}
	return nil
}

// writeFormat settles the format of a form that has several: as asked, or else
// by the ending of the output's name.
func writeFormat(f writeFlags) (string, error) {
	accepted := map[string][]string{"chapters": {"vtt", "lines"}, "questions": {"markdown", "html", "csv"}}[f.form]
	if accepted == nil {
		if f.format != "" {
			return "", wrongCall("--format is for chapters and questions; --as %s has only one", f.form)
		}
		return "", nil
	}
	if f.format != "" {
		return f.format, oneOf("format", f.format, accepted...)
	}
	switch ending := strings.ToLower(filepath.Ext(f.output)); {
	case f.form == "chapters" && ending == ".txt":
		return "lines", nil
	case f.form == "questions" && (ending == ".html" || ending == ".htm"):
		return "html", nil
	case f.form == "questions" && ending == ".csv":
		return "csv", nil
	}
	return "", nil
}

func isFolder(path string) bool {
	info, err := os.Stat(path)
	return err == nil && info.IsDir()
}

// outputName is a file's name from a recipe's title: its letters and figures,
// in small, with dashes between the words. Names that were used get a number.
func outputName(doc *schema.Document, f writeFlags, taken map[string]int) string {
	words := strings.FieldsFunc(strings.ToLower(doc.Title), func(r rune) bool { return !unicode.IsLetter(r) && !unicode.IsDigit(r) })
	name := strings.Join(words, "-")
	if runes := []rune(name); len(runes) > 60 {
		name = strings.Trim(string(runes[:60]), "-")
	}
	if name == "" {
		name = "recipe"
	}
	taken[name]++
	if n := taken[name]; n > 1 {
		name = fmt.Sprintf("%s-%d", name, n)
	}
	if f.form == "questions" {
		name += "-questions"
	}
	return name + publish.Ending(f.form, f.options.Format)
}

// writeOut puts a whole file in place at once, so that no reader sees half of
// one. It refuses to write over the document it was read from.
func writeOut(path, source string, data []byte, folder bool) error {
	if folder {
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return fmt.Errorf("%s: cannot make the folder: %w", filepath.Dir(path), err)
		}
	}
	if a, err := os.Stat(path); err == nil && source != "-" {
		if b, err := os.Stat(source); err == nil && os.SameFile(a, b) {
			return wrongCall("-o %s is the document itself; name another file", path)
		}
	}
	if real, err := filepath.EvalSymlinks(path); err == nil {
		path = real // what a link points to is written, and the link stays
	}
	if err := merge.Put(path, data); err != nil {
		return fmt.Errorf("%s: cannot write it: %w", path, err)
	}
	return nil
}
