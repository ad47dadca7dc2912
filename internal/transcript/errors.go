package transcript

import (
	"errors"
	"fmt"
)

// MaxBytes is the largest transcript that is read, in bytes (64 MiB). Ten
// minutes of talk are about 20 kB; anything near the limit is another kind of
// file given by mistake.
const MaxBytes = 64 << 20

// The reasons a transcript cannot be read. Every error of Parse and of Read is
// an *Error that wraps one of them, or wraps the error of the reader.
var (
	// ErrEmpty means that there is nothing but blank space.
	ErrEmpty = errors.New("the transcript is empty")
	// ErrNoWords means that the format is known but nobody speaks in it.
	ErrNoWords = errors.New("the transcript holds no spoken words")
	// ErrBinary means that the bytes are no text.
	ErrBinary = errors.New("this is not a text file")
	// ErrNoEnd means that a cue's timing line has no second time.
	ErrNoEnd = errors.New("the cue has no end time")
	// ErrTime means that a time cannot be read.
	ErrTime = errors.New("the time cannot be read")
	// ErrFormat means that the text is structured in a way that is no
	// transcript, or is a broken file of a known format.
	ErrFormat = errors.New("this is no transcript quern knows")
	// ErrTooLarge means that there are more than MaxBytes bytes.
	ErrTooLarge = errors.New("the transcript is larger than 64 MB")
)

// Error says which transcript could not be read, where and why.
type Error struct {
	File   string // as given; "-" for standard input
	Line   int    // from 1; 0 when it concerns the whole file
	Err    error  // one of the sentinel values above, or the reader's error
	Detail string // what was found and what to do about it, "" if Err says it all
}

// Error gives "file:line: reason: detail".
func (e *Error) Error() string {
	name := e.File
	if name == "-" || name == "" {
		name = "standard input"
	}
	if e.Line > 0 {
		name = fmt.Sprintf("%s:%d", name, e.Line)
	}
	if e.Detail == "" {
		return fmt.Sprintf("%s: %v", name, e.Err)
	}
	return fmt.Sprintf("%s: %v: %s", name, e.Err, e.Detail)
}

// Unwrap gives the reason, so that errors.Is finds the sentinel values.
func (e *Error) Unwrap() error { return e.Err }

// failure is an error of one format's reader, before the file's name is known.
func failure(line int, reason error, format string, args ...any) *Error {
	return &Error{Line: line, Err: reason, Detail: fmt.Sprintf(format, args...)}
}

// maxShown is how many warnings of one kind are listed before the rest are
// only counted.
const maxShown = 10

// warnings gathers what is odd in the input; of each kind the first few are
// kept with their lines and the rest are counted.
type warnings struct {
	list  []Warning
	kinds []string
	count map[string]int
}

// add notes one warning. Kind is the plain-words name of its sort.
func (w *warnings) add(line int, kind, format string, args ...any) {
	if w.count == nil {
		w.count = make(map[string]int)
	}
	if w.count[kind] == 0 {
		w.kinds = append(w.kinds, kind)
	}
	w.count[kind]++
	if w.count[kind] <= maxShown {
		w.list = append(w.list, Warning{Line: line, Text: fmt.Sprintf(format, args...)})
	}
}

// all gives the warnings in the order they were found, and after them one line
// for each kind that was cut short.
func (w *warnings) all() []Warning {
	out := w.list
	for _, kind := range w.kinds {
		if more := w.count[kind] - maxShown; more > 0 {
			out = append(out, Warning{Text: fmt.Sprintf("%s: %d more", kind, more)})
		}
	}
	return out
}
