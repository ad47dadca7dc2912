package main

import (
	"context"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime/debug"
	"strings"

	"github.com/schollz/progressbar/v3"
	"github.com/spf13/cobra"
	"golang.org/x/term"

	"quern/internal/archive"
)

// batchFlags are the flags of quern batch.
type batchFlags struct {
	options archive.Options
	stream  bool
}

// batchCommand writes the recipes of a whole folder of recordings.
func batchCommand() *cobra.Command {
	var f batchFlags
	cmd := &cobra.Command{
		Use:   "batch FOLDER -o FOLDER [--only PATTERN] [--jobs N] [--report PATH] [--foods FILE] [--dry-run] | batch --stream",
		Short: "write the recipes of a whole folder of recordings",
		Long: `quern batch reads every transcript in a folder and the folders below it and
writes a document for each into the folder named by -o, in the same folders.
What is in a document already is not lost: it is merged with, as by quern
extract -o. A transcript that fails is told of and the rest go on; the exit
code is then 1.

What is unchanged since the last time (transcript, written recipe, foods file,
program, document) is passed over. A run that was stopped, even by a power cut,
goes on where it was when the same call is made again. Only one batch works on
an output folder at a time.

Transcripts are the files that end in .vtt, .ttml, .dfxp, .srt, .md and .txt.
Of several with one base name the first in this order is taken. A written
recipe beside a transcript, with the same base name (.html, or .md or .txt that
reads as a recipe), is compared with it for the report; quern compare shows how
they differ.

--report draws a page (.html), a table (.csv) or data (.json) of the whole
archive: open flags, how complete each recipe is, macros, and what only all of
them together can tell. What is usual elsewhere is shown beside an amount that
was never said, as a hint; nothing is filled in.

--stream reads one JSON object a line, {"name": …, "text": …}, from standard
input and writes each recipe as one line of JSON, in the same order. A line
that can't be read gives one line {"error": …} in its place, is told of on
standard error too, and doesn't change the exit code.`,
		Example: `  quern batch recordings -o recipes
  quern batch recordings -o recipes --report recipes/report.html --report recipes/report.csv
  quern batch recordings -o recipes --only '2024-*.vtt' --dry-run
  quern batch --stream < talks.jsonl > recipes.jsonl`,
		Args: func(cmd *cobra.Command, args []string) error {
			switch {
			case f.stream && len(args) > 0:
				return errors.New("--stream reads standard input; leave out FOLDER")
			case !f.stream && len(args) != 1:
				return errors.New("batch wants one FOLDER of transcripts; for example: quern batch recordings -o recipes")
			}
			return nil
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			if f.options.Jobs < 0 {
				return wrongCall("--jobs %d: give a number above 0, or 0 for one a processor", f.options.Jobs)
			}
			if f.options.Jobs > archive.MostJobs {
				return wrongCall("--jobs %d: at most %d recordings are worked on at once", f.options.Jobs, archive.MostJobs)
			}
			if f.stream {
				return runStream(cmd, f)
			}
			f.options.Folder = args[0]
			return runBatch(cmd, f.options)
		},
	}
	flags := cmd.Flags()
	flags.SortFlags = false
	flags.StringVarP(&f.options.Out, "output", "o", "", "`FOLDER` for the documents; made if it isn't there")
	flags.StringArrayVar(&f.options.Only, "only", nil, "`PATTERN` of names, or of paths below FOLDER, to read; may be given again")
	flags.IntVar(&f.options.Jobs, "jobs", 0, "`N` recordings to work on at once (default one a processor)")
	flags.StringArrayVar(&f.options.Reports, "report", nil, "`PATH` of a report to write: .html, .csv or .json; may be given again")
	flags.StringVar(&f.options.Foods, "foods", "", "`FILE` of your own foods; the nearest foods.yaml if left out")
	flags.BoolVar(&f.options.DryRun, "dry-run", false, "tell what would be done, change nothing")
	flags.BoolVar(&f.stream, "stream", false, "read and write lines of JSON instead of folders")
	return cmd
}

// thrift is how much the heap may grow before it is cleared, in percent of
// what is in use: less than usual, for a batch should leave memory to the
// programs beside it.
const thrift = 50

func runBatch(cmd *cobra.Command, opt archive.Options) error {
	if opt.Out == "" {
		return wrongCall("batch wants -o FOLDER, where the documents go; for example: quern batch %s -o recipes", opt.Folder)
	}
	defer debug.SetGCPercent(debug.SetGCPercent(thrift))
	t := newTerminal(cmd.ErrOrStderr())
	opt.Version = version + revision()
	progress := newProgress(t, cmd.ErrOrStderr(), opt.DryRun)
	opt.Progress = progress.event
	sum, err := archive.Run(cmd.Context(), opt)
	progress.end()
	if sum.Recordings > 0 {
		batchSummary(t, sum, opt.DryRun, err == nil)
	}
	switch {
	case err != nil:
		return err
	case len(sum.Failures) > 0:
		return errReported
	}
	return nil
}

// progress tells of each recording: by a bar on a terminal, by lines
// elsewhere. What needs a person's eye is a line in either.
type progress struct {
	t      *terminal
	w      io.Writer
	bar    *progressbar.ProgressBar
	live   bool // w is a terminal
	dryRun bool
}

func newProgress(t *terminal, w io.Writer, dryRun bool) *progress {
	f, ok := w.(*os.File)
	return &progress{t: t, w: w, live: ok && term.IsTerminal(int(f.Fd())) && os.Getenv("TERM") != "dumb", dryRun: dryRun}
}

func (p *progress) event(e archive.Event) {
	if p.live && p.bar == nil {
		p.bar = progressbar.NewOptions(e.Of, progressbar.OptionSetWriter(p.w), progressbar.OptionShowCount(), progressbar.OptionSetWidth(30),
			progressbar.OptionSetDescription("recordings"), progressbar.OptionSetPredictTime(true), progressbar.OptionClearOnFinish(),
			progressbar.OptionThrottle(100e6)) // ten times a second
	}
	if line := p.text(e); line != "" {
		if p.bar != nil {
			_ = p.bar.Clear() // a terminal that is gone is noticed elsewhere
		}
		p.t.line(line)
	}
	if p.bar != nil {
		_ = p.bar.Add(1)
	}
}

// text is the line for a recording, "" where nothing is worth a line.
func (p *progress) text(e archive.Event) string {
	path := printable(e.Path)
	switch e.State {
	case archive.Failed:
		return p.t.paint(alarm, "quern: ") + printable(e.Err.Error())
	case archive.LeftOut:
		return path + ": left out: " + printable(e.Note)
	case archive.Unchanged:
		return ""
	}
	if p.live && e.Note == "" && !p.dryRun {
		return "" // the bar tells
	}
	line := fmt.Sprintf("%d/%d %s: %s, %s", e.Number, e.Of, path, e.State, openFlags(e.Open))
	if p.dryRun {
		line = fmt.Sprintf("%d/%d %s: %s", e.Number, e.Of, path, map[archive.State]string{
			archive.Written: "would be written", archive.Merged: "would be merged", archive.Kept: "would stay as it is"}[e.State])
	}
	if e.Note != "" {
		line += "; " + printable(e.Note)
	}
	return line
}

func (p *progress) end() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}

// batchSummary tells what a run did.
func batchSummary(t *terminal, sum *archive.Summary, dryRun, whole bool) {
	parts := []string{count(sum.Recordings, "transcript")}
	for _, s := range []archive.State{archive.Written, archive.Merged, archive.Kept, archive.Unchanged, archive.LeftOut, archive.Failed} {
		if n := sum.ByState[s]; n > 0 {
			parts = append(parts, fmt.Sprintf("%d %s", n, s))
		}
	}
	line := strings.Join(parts, ", ")
	if !dryRun {
		line += fmt.Sprintf("; %s, %s", count(sum.Recipes, "recipe"), openFlags(sum.Open))
	}
	t.line(line)
	if n := len(sum.Failures); n > 0 && whole {
		t.line(fmt.Sprintf("%s failed:", count(n, "transcript")))
		for _, f := range sum.Failures {
			t.line("  " + printable(f))
		}
	}
	const most = 5
	for i, o := range sum.Orphans {
		if i == most {
			t.line(fmt.Sprintf("and %d more", len(sum.Orphans)-most))
			break
		}
		t.line(printable(o) + ": its transcript is gone; the document is left as it is")
	}
	for _, r := range sum.Reports {
		t.line("report: " + printable(r))
	}
}

// runStream reads and writes lines of JSON.
func runStream(cmd *cobra.Command, f batchFlags) error {
	for _, name := range []string{"output", "only", "report", "dry-run"} {
		if cmd.Flags().Changed(name) {
			return wrongCall("--%s is of no use with --stream, which reads and writes no files", name)
		}
	}
	own, err := ownFoods(f.options.Foods, "-")
	if err != nil {
		return err
	}
	t := newTerminal(cmd.ErrOrStderr())
	done := make(chan error, 1)
	go func() {
		_, err := archive.Stream(cmd.Context(), cmd.InOrStdin(), cmd.OutOrStdout(), f.options.Jobs, own, t.failure)
		done <- err
	}()
	// A stream that waits for input can't be asked to end: the person is gone.
	select {
	case err = <-done:
	case <-cmd.Context().Done():
		return errStopped
	}
	if errors.Is(err, context.Canceled) {
		return errStopped
	}
	return err
}
