package transcript

import (
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"
)

// soundMarks gathers the marks for sounds ([Music], (laughs), ♪ la la ♪) that
// captions hold beside the words.
type soundMarks struct {
	count int
	line  int      // of the first
	shown []string // the first few different ones
}

// maxSound is the most words inside square brackets that are taken as a mark.
const maxSound = 6

// notes are the signs captions put around what is sung.
const notes = "♪♫♩♬"

// maxSung is the most words between two notes that are taken as sung.
const maxSung = 40

// sounds are the words that make a short remark in round brackets a mark for a
// sound. Words that a cook says of food ("until it's sizzling") are not here.
var sounds = map[string]bool{
	"applause": true, "barking": true, "barks": true, "beeping": true, "beeps": true, "cheering": true, "chuckle": true,
	"chuckles": true, "chuckling": true, "clanging": true, "clattering": true, "coughing": true, "coughs": true, "crosstalk": true,
	"gasps": true, "giggles": true, "giggling": true, "humming": true, "hums": true, "inaudible": true, "indistinct": true,
	"laugh": true, "laughing": true, "laughs": true, "laughter": true, "music": true, "sigh": true, "sighing": true, "sighs": true,
	"silence": true, "singing": true, "sings": true, "sneezes": true, "sniffs": true, "whistles": true, "whistling": true,
	"unintelligible": true, "whirring": true,
}

// leaveOut returns the tokens without the marks.
func (s *soundMarks) leaveOut(tokens []token, line int) []token {
	if !slices.ContainsFunc(tokens, mayMark) {
		return tokens
	}
	out := make([]token, 0, len(tokens))
	for i := 0; i < len(tokens); {
		if size := markSize(tokens[i:]); size > 0 {
			s.note(tokens[i:i+size], line)
			i += size
			continue
		}
		out = append(out, tokens[i])
		i++
	}
	return out
}

// mayMark reports whether a mark can begin in the token or within it.
func mayMark(t token) bool {
	for i := 0; i < len(t.text); i++ {
		if c := t.text[i]; c == '[' || c == '(' || c == '*' || c >= utf8.RuneSelf {
			return true
		}
	}
	return false
}

// markSize gives the number of tokens of the mark that tokens begin with, 0 if
// they begin with none.
func markSize(tokens []token) int {
	first := tokens[0].text
	switch {
	case strings.HasPrefix(first, "["):
		size := closes(tokens, "]", maxSound)
		if size > 0 && !hasDigit(tokens[:size]) {
			return size
		}
	case strings.HasPrefix(first, "("):
		// Round brackets hold spoken asides too.
		size := closes(tokens, ")", labelWords)
		if size > 0 && namesSound(tokens[:size]) {
			return size
		}
	case strings.HasPrefix(first, "*"):
		size := 0
		if len(first) > 1 {
			size = closes(tokens, "*", labelWords)
		}
		if size > 0 && namesSound(tokens[:size]) {
			return size
		}
	case strings.IndexAny(first, notes) == 0:
		// What stands between two notes is sung.
		inside := strings.Trim(first, notes)
		if inside != "" && !strings.HasSuffix(first, inside) {
			return 1
		}
		for i, t := range tokens[1:min(len(tokens), maxSung)] {
			if strings.ContainsAny(t.text, notes) {
				return i + 2
			}
		}
		if inside == "" {
			return 1
		}
	}
	return 0
}

// closes gives the number of tokens up to the one that ends with the closing
// mark, 0 if none of the first limit does.
func closes(tokens []token, closing string, limit int) int {
	for i, t := range tokens[:min(len(tokens), limit)] {
		text := strings.TrimRight(t.text, ".,!?;:")
		if i == 0 {
			text = text[min(1, len(text)):]
		}
		if strings.HasSuffix(text, closing) {
			return i + 1
		}
	}
	return 0
}

func hasDigit(tokens []token) bool {
	for _, t := range tokens {
		if strings.IndexFunc(t.text, unicode.IsNumber) >= 0 {
			return true
		}
	}
	return false
}

func namesSound(tokens []token) bool {
	for _, t := range tokens {
		if sounds[strings.ToLower(strings.TrimFunc(t.text, func(r rune) bool { return !unicode.IsLetter(r) }))] {
			return true
		}
	}
	return false
}

// maxMarksShown is how many different marks the warning quotes.
const maxMarksShown = 3

func (s *soundMarks) note(tokens []token, line int) {
	if s.count == 0 {
		s.line = line
	}
	s.count++
	if len(s.shown) >= maxMarksShown {
		return
	}
	words := make([]string, len(tokens))
	for i, t := range tokens {
		words[i] = t.text
	}
	if mark := shorten(strings.Join(words, " ")); !slices.Contains(s.shown, mark) {
		s.shown = append(s.shown, mark)
	}
}

// report adds one warning for all the marks left out.
func (s *soundMarks) report(w *warnings) {
	if s.count == 0 {
		return
	}
	noun := "marks for sounds"
	if s.count == 1 {
		noun = "mark for a sound"
	}
	w.add(s.line, "sounds", "%d %s, not taken as spoken: %s", s.count, noun, strings.Join(s.shown, ", "))
}
