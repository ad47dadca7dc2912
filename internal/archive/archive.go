// Package archive turns a whole folder of recordings into recipe documents,
// again and again as the person who made them edits the documents.
//
// Run walks the folder, reads every transcript on all cores with bounded
// memory, and writes each document where the transcript lies in the folder, but
// below the output folder. What is there already is merged with, never
// replaced (package merge). A recording whose words, written counterpart, foods
// file and program are as they were, and whose document is as it was left, is
// passed over. What was done is noted after each recording, so that a run that
// was stopped, or killed, goes on where it was and ends with the same bytes.
//
// Report sets a row a recording, with what only the whole archive can tell: one
// food under several names, one dish recorded twice, the usual amount of an
// ingredient beside one that was never said. A hint is shown with the
// recordings it comes from and is never filled in.
//
// Stream does the same work without files: JSON lines in, JSON lines out.
package archive

import (
	"context"
	"errors"
	"fmt"
	"runtime"
)

// Errors a run ends with.
var (
	// ErrBusy means that another run works on the same output folder.
	ErrBusy = errors.New("another quern batch is at work there")
	// ErrStopped means that the context ended; what was finished is kept and
	// the same call goes on from there.
	ErrStopped = errors.New("stopped")
	// ErrNothing means that the folder holds no transcript.
	ErrNothing = errors.New("no transcript found")
	// ErrTooMany means that the folder holds more than MostFiles files.
	ErrTooMany = errors.New("too many files")
)

// Limits of a run, so that memory and open files stay bounded.
const (
	// MostFiles is how many files and folders are looked at in a folder and
	// those below it. An archive has some thousands; a whole disk has more.
	MostFiles = 1_000_000
	// MostJobs is how many recordings are worked on at once. As many files are
	// open at most, and a few more.
	MostJobs = 256
)

// Options are what a run is called with. Folder and Out are wanted.
type Options struct {
	Folder   string   // where the transcripts are, folders below it included
	Out      string   // where the documents go, in the same folders; made if it isn't there
	Only     []string // patterns (path.Match) of names or of paths below Folder; empty means every transcript
	Jobs     int      // recordings worked on at once, at most MostJobs; 0 means one a processor
	Foods    string   // file of a person's own foods; "" means the nearest foods.yaml up from the document to Out, then Folder's
	Reports  []string // reports to write; the ending (.html, .csv, .json) tells the form
	DryRun   bool     // tell what would be done and change nothing
	Version  string   // of the program: another one makes every recording new
	Progress func(Event)
}

// Event tells of one recording, in the order of the paths.
type Event struct {
	Number, Of int    // this recording, from 1, and how many there are
	Path       string // of the transcript, below Options.Folder, with slashes
	State      State
	Open       int   // open flags in its recipes
	Recipes    int   // recipes in its document
	Err        error // of a Failed recording
	Note       string
}

// State is what became of a recording.
type State int

// The states of a recording.
const (
	Unchanged State = iota // as it was: passed over
	Written                // a new document
	Merged                 // a document that was there has changed
	Kept                   // looked at again; its document stays as it is
	Failed                 // could not be read or written
	LeftOut                // another transcript of the same recording is taken
)

// String gives the word for a state.
func (s State) String() string {
	switch s {
	case Unchanged:
		return "unchanged"
	case Written:
		return "written"
	case Merged:
		return "merged"
	case Kept:
		return "kept"
	case LeftOut:
		return "left out"
	}
	return "failed"
}

// Summary tells what a run did.
type Summary struct {
	Recordings int
	ByState    map[State]int
	Open       int      // open flags in the whole archive
	Recipes    int      // recipes in the whole archive
	Failures   []string // "path: why", in order
	Orphans    []string // documents of earlier runs whose transcript is gone; they are left alone
	Reports    []string // files written, or found to be as they would be written
}

// Run reads the transcripts of a folder and writes their documents. A
// recording that fails is in the summary and doesn't stop the rest. The error
// is ErrBusy, ErrStopped, ErrNothing, ErrTooMany, or that of a folder that can't be read or
// written; the summary is what was done until then.
func Run(ctx context.Context, opt Options) (*Summary, error) {
	r := &run{opt: opt, sum: &Summary{ByState: map[State]int{}}}
	if r.opt.Jobs <= 0 {
		r.opt.Jobs = runtime.GOMAXPROCS(0)
	}
	r.opt.Jobs = min(r.opt.Jobs, MostJobs)
	if r.opt.Progress == nil {
		r.opt.Progress = func(Event) {}
	}
	for _, report := range opt.Reports {
		if _, err := reportForm(report); err != nil {
			return r.sum, err
		}
	}
	if err := checkPatterns(opt.Only); err != nil {
		return r.sum, err
	}
	items, err := find(opt, MostFiles)
	if err != nil {
		return r.sum, err
	}
	if len(items) == 0 {
		return r.sum, fmt.Errorf("%s: %w; transcripts end in %s", opt.Folder, ErrNothing, endingsText())
	}
	return r.sum, r.all(ctx, items)
}
