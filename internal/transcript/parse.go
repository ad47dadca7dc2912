package transcript

import (
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"io"
	"strings"
	"time"
)

// rawCue is a cue as one format's reader found it, before its words are told
// apart and repeated lines are folded.
type rawCue struct {
	start, end time.Duration // end is NoTime where the format gives none
	line       int           // from 1
	voice      string
	rows       [][]chunk // the lines of the caption, or of the paragraph
}

// chunk is a run of text in one row. A word belongs to the chunk of its first
// letter.
type chunk struct {
	text string
	at   time.Duration // moment the chunk begins, NoTime if the format did not say
}

// plainRow is a row of text without times of its own.
func plainRow(text string) []chunk { return []chunk{{text: text, at: NoTime}} }

// talk is what a format's reader gives.
type talk struct {
	heading string
	cues    []rawCue
	timed   bool
	rolls   bool // captions, whose cues may repeat the line before
}

// format is one way of writing timed text.
type format interface {
	// name is the format's name as in Narration.Format.
	name() string
	// looks reports whether the text is of this format.
	looks(lines []string) bool
	// read gives the cues. Lines that make no sense but cost no words are
	// reported to w.
	read(lines []string, w *warnings) (talk, *Error)
}

// formats lists the known formats; the first that takes a text reads it.
func formats() []format {
	return []format{webVTT{}, ttml{}, subRip{}, bracket{}, plain{}}
}

// Read reads a transcript of at most MaxBytes from r. Name is the file's name
// for messages, "-" for standard input. Its errors are *Error: those of Parse,
// and the error of r.
func Read(name string, r io.Reader) (*Narration, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, &Error{File: name, Err: fmt.Errorf("cannot read it: %w", err)}
	}
	return Parse(name, data)
}

// Parse reads the transcript in data, whatever its format, which is told by
// its content and never by name. Name is used in messages only. The error is
// an *Error that wraps ErrEmpty, ErrNoWords, ErrBinary, ErrNoEnd, ErrTime,
// ErrFormat or ErrTooLarge. The cost is linear in the length of data.
func Parse(name string, data []byte) (*Narration, error) {
	n, err := parse(data)
	if err != nil {
		err.File = name
		return nil, err
	}
	n.Name = name
	return n, nil
}

func parse(data []byte) (*Narration, *Error) {
	if len(data) > MaxBytes {
		return nil, &Error{Err: ErrTooLarge, Detail: "give the transcript of one recording"}
	}
	var w warnings
	text, encoding, err := decode(data, &w)
	if err != nil {
		return nil, err
	}
	if strings.TrimSpace(text) == "" {
		return nil, &Error{Err: ErrEmpty, Detail: "there is nothing to read"}
	}
	lines := splitLines(text)
	if kind := foreign(text); kind != "" {
		return nil, failure(1, ErrFormat, "it looks like %s; give timed text, SubRip, WebVTT, TTML or plain text", kind)
	}
	for _, f := range formats() {
		if !f.looks(lines) {
			continue
		}
		t, err := f.read(lines, &w)
		if err != nil {
			return nil, err
		}
		sum := sha256.Sum256(data)
		n := &Narration{
			Format: f.name(), Encoding: encoding, Heading: t.heading,
			SHA256: hex.EncodeToString(sum[:]), Timed: t.timed,
		}
		assemble(n, t, &w)
		if len(n.Words) == 0 {
			return nil, &Error{Err: ErrNoWords, Detail: "it was read as " + n.Format + "; give a transcript in which somebody speaks"}
		}
		n.Warnings = w.all()
		return n, nil
	}
	return nil, &Error{Err: ErrFormat, Detail: "give timed text, SubRip, WebVTT, TTML or plain text"}
}

// foreign names a kind of file that is text but holds no talk, "" if it is
// none of those. Reading its marks as words would make nonsense of them.
func foreign(text string) string {
	head := strings.TrimSpace(text[:min(len(text), 4096)])
	lower := strings.ToLower(head)
	switch {
	case strings.HasPrefix(lower, "{\\rtf"):
		return "a word-processor document (RTF)"
	case strings.HasPrefix(lower, "%pdf-"):
		return "a PDF document"
	case strings.HasPrefix(lower, "<!doctype html"), strings.HasPrefix(lower, "<html"):
		return "a web page"
	case strings.HasPrefix(head, "{\"") || strings.HasPrefix(head, "[{") ||
		(strings.HasPrefix(head, "{") && strings.HasPrefix(strings.TrimSpace(head[1:]), "\"")):
		return "JSON data"
	case strings.HasPrefix(head, "[") && strings.HasPrefix(strings.TrimSpace(head[1:]), "{"):
		return "JSON data"
	case strings.HasPrefix(lower, "recipe: 1\n"), strings.HasPrefix(lower, "recipe: 1\r"):
		return "a recipe document, which quern check reads"
	}
	return ""
}
