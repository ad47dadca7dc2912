// Package transcript reads timed text in any of the formats recognisers and
// editors write, and gives a narration: words, each with its time.
package transcript

import (
	"sort"
	"time"
)

// NoTime is the time of a word or cue in a transcript without times.
const NoTime = time.Duration(-1)

// Narration is one recording's talk. Words holds every spoken word once, in
// order, also where rolling captions repeated it.
type Narration struct {
	Name     string        // file name as given, "-" for standard input
	Format   string        // "bracket", "subrip", "webvtt", "ttml" or "plain"
	Encoding string        // "utf-8", "utf-8-bom", "utf-16le", "utf-16be" or "windows-1252"
	Heading  string        // the Markdown heading above the talk, "" if none
	SHA256   string        // of the bytes read, hexadecimal
	Timed    bool          // false for plain text
	Length   time.Duration // end of the last cue (of the last cue's start plus its words at 2.6 words a second where cues have no end); 0 when not Timed
	Cues     []Cue
	Words    []Word
	Warnings []Warning
}

// Cue is one stretch of the transcript: a caption, or a paragraph in bracket
// and plain text. After folding it holds only the words that are new in it.
type Cue struct {
	Start, End  time.Duration // NoTime in plain text
	Text        string        // its own words, joined by single spaces
	Voice       string        // speaker named by a voice tag or "NAME:" label, "" if none
	Line        int           // line of the file it began on, from 1
	First, Last int           // its words are Words[First:Last]
}

// Word is one spoken word with its punctuation as written, never empty. The
// words of a cue are joined by single spaces in its Text.
type Word struct {
	Text string
	At   time.Duration // spread evenly over the cue's words, or exact where the format times each word
}

// CueOf gives the cue that holds a word.
func (n *Narration) CueOf(word int) *Cue {
	return &n.Cues[sort.Search(len(n.Cues), func(c int) bool { return n.Cues[c].Last > word })]
}

// Size is the length of all that was said, in bytes.
func (n *Narration) Size() int64 {
	size := 0
	for i := range n.Cues {
		size += len(n.Cues[i].Text)
	}
	return int64(size)
}

// Warning is something odd in the input that did not stop reading.
type Warning struct {
	Line int // from 1; 0 when it concerns the whole file
	Text string
}
