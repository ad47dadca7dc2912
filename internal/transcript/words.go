package transcript

import (
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// pace is how fast people talk to a camera, in words a second (common
// practice: about 150 words a minute). It gives a length to a cue without an
// end, and to one whose end comes before its start.
const pace = 2.6

// Where a cue has no end of its own its words are spread over the time to the
// next cue, unless that is longer than longGap and the talk slower than
// slowest, in words a second. Then the cook went quiet, and her words belong to
// the start of the gap.
const (
	longGap = 10 * time.Second
	slowest = 0.5
)

// token is one word of a caption before folding.
type token struct {
	text string
	row  int           // line of the caption
	at   time.Duration // moment of the chunk it began in, NoTime if none
	mark bool          // the first word since that moment was given
}

// caption is a cue as tokens.
type caption struct {
	rawCue
	tokens []token
	voices []string // of each row, "" where it names none
}

// assemble makes the narration's cues and words from what the format's reader
// found.
func assemble(n *Narration, t talk, w *warnings) {
	n.Heading = strings.Clone(t.heading)
	captions := make([]caption, len(t.cues))
	shout := mostlyCapitals(t.cues)
	labelled := manyLabels(t.cues)
	var sounds soundMarks
	for i, cue := range t.cues {
		c := caption{rawCue: cue, voices: make([]string, len(cue.rows))}
		tokens := sounds.leaveOut(tokenise(cue.rows), cue.line)
		c.tokens = takeLabels(tokens, c.voices, shout, labelled)
		c.tokens = joinPunctuation(c.tokens)
		captions[i] = c
	}
	sounds.report(w)
	warnBackwards(t, w)
	if t.rolls {
		fold(captions)
	}
	captions = slices.DeleteFunc(captions, func(c caption) bool { return len(c.tokens) == 0 })
	if t.timed {
		setEnds(captions)
	}
	size := 0
	for i := range captions {
		size += len(captions[i].tokens)
	}
	n.Words, n.Cues = make([]Word, 0, size), make([]Cue, 0, len(captions))
	for i := range captions {
		addCue(n, &captions[i], t.timed)
	}
}

// addCue appends a caption to the narration, and its words with their times.
func addCue(n *Narration, c *caption, timed bool) {
	cue := Cue{Start: NoTime, End: NoTime, Voice: c.voice, Line: c.line, First: len(n.Words)}
	for _, tok := range c.tokens {
		if v := c.voices[tok.row]; v != "" {
			cue.Voice = v
			break
		}
	}
	var times []time.Duration
	if timed {
		cue.Start, cue.End = c.start, c.end
		times = wordTimes(c)
		n.Length = max(n.Length, cue.End)
	}
	texts := make([]string, len(c.tokens))
	for i, tok := range c.tokens {
		at := NoTime
		if timed {
			at = times[i]
		}
		texts[i] = tok.text
		n.Words = append(n.Words, Word{Text: tok.text, At: at})
	}
	cue.Text = strings.Join(texts, " ")
	cue.Last = len(n.Words)
	// the words are cut from the cue's text, so that what was read can go
	from := 0
	for i := range n.Words[cue.First:] {
		w := &n.Words[cue.First+i]
		w.Text = cue.Text[from : from+len(w.Text)]
		from += len(w.Text) + 1
	}
	cue.Voice = strings.Clone(cue.Voice)
	n.Cues = append(n.Cues, cue)
}

// wordTimes spreads a caption's words evenly over its time, and over the time
// between two moments where the caption names moments of its own.
func wordTimes(c *caption) []time.Duration {
	out := make([]time.Duration, len(c.tokens))
	from, start := 0, c.start
	spread := func(to int, end time.Duration) {
		if to == from {
			return
		}
		step := (end - start) / time.Duration(to-from)
		for i := from; i < to; i++ {
			out[i] = start + step*time.Duration(i-from)
		}
	}
	for i, tok := range c.tokens {
		// A moment outside the caption or before the last one is a slip,
		// and the same moment again on a new row adds nothing.
		if !tok.mark || tok.at < start || tok.at > c.end || (tok.at == start && i > from) {
			continue
		}
		spread(i, tok.at)
		from, start = i, tok.at
	}
	spread(len(out), c.end)
	return out
}

// setEnds gives an end to every cue that has none, or one before its start:
// the start of the next cue, or what its words take to say.
func setEnds(captions []caption) {
	for i := range captions {
		c := &captions[i]
		if c.end > c.start {
			continue
		}
		said := time.Duration(float64(len(c.tokens)) / pace * float64(time.Second)).Truncate(time.Millisecond)
		if c.end == NoTime && i+1 < len(captions) {
			gap := captions[i+1].start - c.start
			if gap > 0 && (gap <= longGap || float64(len(c.tokens)) >= slowest*gap.Seconds()) {
				c.end = captions[i+1].start
				continue
			}
		}
		c.end = c.start + said
	}
}

// warnBackwards reports the cues that begin before the one above them, and
// those that end before they begin. They are kept as they stand.
func warnBackwards(t talk, w *warnings) {
	for i, c := range t.cues {
		if i > 0 && c.start < t.cues[i-1].start {
			w.add(c.line, "times that run backwards", "the time runs backwards: %s after %s", Stamp(c.start), Stamp(t.cues[i-1].start))
		}
		if c.end != NoTime && c.end < c.start {
			w.add(c.line, "ends before starts", "the cue ends before it begins: %s, then %s", Stamp(c.start), Stamp(c.end))
		}
	}
}

// Stamp writes a time as a WebVTT timestamp, hh:mm:ss.mmm, cut to the
// millisecond; "" for NoTime.
func Stamp(d time.Duration) string {
	if d < 0 {
		return ""
	}
	ms := d.Milliseconds()
	b := make([]byte, 0, 16)
	if ms < 36_000_000 {
		b = append(b, '0')
	}
	b = strconv.AppendInt(b, ms/3_600_000, 10)
	for _, part := range [...]int64{ms / 60_000 % 60, ms / 1000 % 60} {
		b = append(b, ':', '0'+byte(part/10), '0'+byte(part%10))
	}
	ms %= 1000
	return string(append(b, '.', '0'+byte(ms/100), '0'+byte(ms/10%10), '0'+byte(ms%10)))
}

// tokenise cuts rows into words at blank space and at dashes between words. A
// word that runs over the edge of a chunk belongs to the first.
func tokenise(rows [][]chunk) []token {
	size := 0
	for _, row := range rows {
		for _, ch := range row {
			size += len(ch.text)
		}
	}
	out := make([]token, 0, size/5+1) // English has four or five letters and a space to a word, about
	var word []byte                   // what of the word stands in chunks before, or before a sign that isn't seen
	for r, row := range rows {
		var open token
		begun := false
		moment := NoTime
		finish := func(rest string) {
			if !begun {
				return
			}
			begun = false
			if len(word) > 0 {
				word = append(word, rest...)
				rest, word = string(word), word[:0]
			}
			open.text = rest
			out = append(out, open)
		}
		for _, ch := range row {
			fresh := ch.at != moment && ch.at != NoTime
			moment = ch.at
			from := 0 // where the part of the word that stands in this chunk begins
			for i := 0; i < len(ch.text); {
				c, n := rune(ch.text[i]), 1
				if c >= utf8.RuneSelf {
					c, n = utf8.DecodeRuneInString(ch.text[i:])
				}
				switch {
				case c > ' ' && c < utf8.RuneSelf && begun: // nearly every one
				case unicode.IsSpace(c):
					if begun {
						finish(ch.text[from:i])
					}
				case !visible(c):
					if begun {
						word = append(word, ch.text[from:i]...)
						from = i + n
					}
				default:
					if !begun {
						begun, from = true, i
						open = token{row: r, at: moment, mark: fresh}
						fresh = false
					}
				}
				i += n
			}
			if begun {
				word = append(word, ch.text[from:]...)
			}
		}
		finish("")
	}
	return splitDashes(out)
}

// visible reports whether a character is more than a zero-width space, a soft
// hyphen or a mark of writing direction. A word with one of these in it would
// be found in no table.
func visible(r rune) bool {
	switch {
	case r == '\u00AD', r == '\u200B', r == '\u2060', r == '\uFEFF',
		r == '\u200E', r == '\u200F',
		r >= '\u202A' && r <= '\u202E', r >= '\u2066' && r <= '\u2069':
		return false
	}
	return true
}

// splitDashes cuts "butter—soft", "butter--soft" and "so...then" after the
// dash: these are two words. A dash between numbers is a range and stays.
func splitDashes(tokens []token) []token {
	if !slices.ContainsFunc(tokens, func(t token) bool { return dashEnd(t.text) > 0 }) {
		return tokens
	}
	var out []token
	for _, t := range tokens {
		for {
			i := dashEnd(t.text)
			if i == 0 {
				break
			}
			first := t
			first.text = t.text[:i]
			out = append(out, first)
			t.text, t.mark = t.text[i:], false
		}
		out = append(out, t)
	}
	return out
}

// dashEnd gives the index after the first dash that parts two words, 0 if
// there is none.
func dashEnd(s string) int {
	if !mayDash(s) {
		return 0
	}
	var before rune // the last letter or number
	dash := false
	for i, r := range s {
		switch {
		case r == '—', r == '–', r == '…',
			(r == '-' || r == '.') && i+1 < len(s) && s[i+1] == byte(r),
			(r == '-' || r == '.') && i > 0 && s[i-1] == byte(r):
			dash = before != 0
		case unicode.IsLetter(r), unicode.IsNumber(r):
			if dash && !(unicode.IsNumber(before) && unicode.IsNumber(r)) {
				return i
			}
			before, dash = r, false
		}
	}
	return 0
}

// mayDash reports whether a dash between words can stand in s.
func mayDash(s string) bool {
	for i := 0; i < len(s); i++ {
		if c := s[i]; c >= utf8.RuneSelf || (c == '-' || c == '.') && i+1 < len(s) && s[i+1] == c {
			return true
		}
	}
	return false
}

// spoken reports whether something in the token is said aloud.
func spoken(s string) bool {
	for _, r := range s {
		if unicode.IsLetter(r) || unicode.IsNumber(r) || strings.ContainsRune("&%@#°+=$€£¢", r) {
			return true
		}
	}
	return false
}

// joinPunctuation puts punctuation that stands alone on the word before it, or
// on the one after it at the start of a cue, and drops what is no punctuation
// either (notes of music, pictures).
func joinPunctuation(tokens []token) []token {
	if !slices.ContainsFunc(tokens, func(t token) bool { return !spoken(t.text) }) {
		return tokens
	}
	out := tokens[:0]
	var lead, tail strings.Builder // marks for the next word, and for the last of out
	join := func() {
		if tail.Len() > 0 {
			out[len(out)-1].text += tail.String()
			tail.Reset()
		}
	}
	for _, t := range tokens {
		if spoken(t.text) {
			join()
			if lead.Len() > 0 {
				t.text = lead.String() + t.text
				lead.Reset()
			}
			out = append(out, t)
			continue
		}
		mark := strings.Map(func(r rune) rune {
			if unicode.IsPunct(r) {
				return r
			}
			return -1
		}, t.text)
		// A repeated row must stay the same row for folding: nothing is
		// joined over its edge.
		if len(out) > 0 && out[len(out)-1].row == t.row {
			tail.WriteString(mark)
		} else {
			lead.WriteString(mark)
		}
	}
	join()
	return out
}

// takeLabels removes the marks of a change of speaker from the start of each
// row and notes the speaker's name in voices.
func takeLabels(tokens []token, voices []string, shout, labelled bool) []token {
	out := tokens[:0]
	for i := 0; i < len(tokens); {
		row := tokens[i].row
		end := i
		for end < len(tokens) && tokens[end].row == row {
			end++
		}
		line := tokens[i:end]
		i = end
		changed := false
		for len(line) > 0 && strings.Trim(line[0].text, ">") == "" {
			line, changed = line[1:], true
		}
		if len(line) > 0 {
			if rest := strings.TrimLeft(line[0].text, ">"); len(line[0].text)-len(rest) >= 2 {
				line[0].text, changed = rest, true
			}
		}
		if len(line) > 0 && !changed {
			if rest := strings.TrimLeft(line[0].text, "-–"); rest == "" {
				line = line[1:]
			} else if rest != line[0].text && unicode.IsLetter([]rune(rest)[0]) {
				line[0].text = rest
			}
		}
		if size := labelSize(line); size > 0 {
			if changed || labelled || (!shout && allCapitals(line[:size])) {
				voices[row] = labelName(line[:size])
				line = line[size:]
			}
		}
		for _, t := range line {
			if strings.Trim(t.text, ">") != "" || t.text == "" {
				out = append(out, t)
			}
		}
	}
	return out
}

// labelWords is the most words a speaker's label has.
const labelWords = 3

// labelSize gives the number of tokens of the label a row begins with: one to
// three words of letters, each with a capital, the last with a colon. It is 0
// when there is none.
func labelSize(row []token) int {
	for i, t := range row[:min(len(row), labelWords)] {
		word, last := strings.CutSuffix(t.text, ":")
		letters := 0
		for j, r := range word {
			switch {
			case j == 0 && !unicode.IsUpper(r):
				return 0
			case unicode.IsLetter(r):
				letters++
			case r != '.' && r != '-' && r != '\'' && r != '’':
				return 0
			}
		}
		if letters == 0 {
			return 0
		}
		if last {
			return i + 1
		}
	}
	return 0
}

func labelName(label []token) string {
	words := make([]string, len(label))
	for i, t := range label {
		words[i] = t.text
	}
	return strings.TrimSuffix(strings.Join(words, " "), ":")
}

// allCapitals reports whether a label is in capitals, with two letters at
// least.
func allCapitals(label []token) bool {
	letters := 0
	for _, t := range label {
		for _, r := range t.text {
			if unicode.IsLower(r) {
				return false
			}
			if unicode.IsLetter(r) {
				letters++
			}
		}
	}
	return letters >= 2
}

// mostlyCapitals reports whether the whole text is in capitals, where capitals
// are no sign of a label.
func mostlyCapitals(cues []rawCue) bool {
	upper, lower := 0, 0
	for _, cue := range cues {
		for _, row := range cue.rows {
			for _, ch := range row {
				for _, r := range ch.text {
					switch {
					case r >= 'a' && r <= 'z': // nearly every one
						lower++
					case unicode.IsUpper(r):
						upper++
					case unicode.IsLower(r):
						lower++
					}
				}
			}
		}
	}
	return upper > lower
}

// manyLabels reports whether at least half of the cues, and three at least,
// begin with a label, so that labels in small letters are labels too.
func manyLabels(cues []rawCue) bool {
	count := 0
	for _, cue := range cues {
		if len(cue.rows) > 0 && slices.ContainsFunc(cue.rows[0], func(ch chunk) bool { return strings.IndexByte(ch.text, ':') >= 0 }) && labelSize(tokenise(cue.rows[:1])) > 0 {
			count++
		}
	}
	return count >= 3 && count*2 >= len(cues)
}
