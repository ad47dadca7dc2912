package transcript

import (
	"strings"
	"time"
)

// bracket reads text whose paragraphs begin with a time: [m:ss], [h:mm:ss],
// [mm:ss.mmm], [m:ss - m:ss], a time in round brackets, or a bare time. It is
// also read inside a line where it stands in square brackets.
type bracket struct{}

func (bracket) name() string { return "bracket" }

// How a file writes its times.
const (
	noStamp     = 0
	squareStamp = '['
	roundStamp  = '('
	bareStamp   = '0'
)

// bracketHead is how many filled lines decide how the times are written.
const bracketHead = 200

func (bracket) looks(lines []string) bool { return stampStyle(lines) != noStamp }

// stampStyle tells how the times of the text are written. Square brackets are
// enough of a sign anywhere near the top. A round bracket or a bare time could
// be part of the talk ("1:30 is when they come"), so there the text must begin
// with one, another line must begin with one, and they must not run backwards.
func stampStyle(lines []string) rune {
	filled, square := 0, false
	count := map[rune]int{}
	last := map[rune]time.Duration{}
	first := rune(noStamp)
	backwards := false
	for _, line := range lines[frontMatter(lines):] {
		if strings.TrimSpace(line) == "" {
			continue
		}
		if _, ok := markdownHeading(line); ok {
			continue
		}
		body := withoutListMark(line)
		for _, style := range []rune{squareStamp, roundStamp, bareStamp} {
			s, ok := readStamp(body, style)
			if !ok {
				continue
			}
			square = square || style == squareStamp
			if filled == 0 {
				first = style
			}
			if style == first && s.start < last[style] {
				backwards = true
			}
			last[style] = s.start
			count[style]++
		}
		if filled++; filled == bracketHead {
			break
		}
	}
	switch {
	case square:
		return squareStamp
	case first != noStamp && count[first] > 1 && !backwards:
		return first
	}
	return noStamp
}

// withoutListMark takes a Markdown list mark, quote mark or emphasis off the
// start of a line, where a time may follow it.
func withoutListMark(line string) string {
	line = strings.TrimLeft(line, " \t")
	for _, mark := range []string{"- ", "* ", "> ", "+ "} {
		if rest, ok := strings.CutPrefix(line, mark); ok {
			line = strings.TrimLeft(rest, " \t")
			break
		}
	}
	line = strings.TrimPrefix(line, "**")
	return strings.TrimPrefix(line, "__")
}

// stamp is a time read from the start of a line.
type stamp struct {
	start, end time.Duration // end is NoTime where only one time is given
	rest       string
}

// readStamp reads a time, written in the given style, from the start of s.
func readStamp(s string, style rune) (stamp, bool) {
	closing := ""
	switch style {
	case squareStamp:
		if !strings.HasPrefix(s, "[") {
			return stamp{}, false
		}
		s, closing = s[1:], "]"
	case roundStamp:
		if !strings.HasPrefix(s, "(") {
			return stamp{}, false
		}
		s, closing = s[1:], ")"
	}
	c, ok := readClock(strings.TrimLeft(s, " "))
	if !ok {
		return stamp{}, false
	}
	out := stamp{start: c.at, end: NoTime}
	rest := strings.TrimLeft(c.rest, " ")
	for _, between := range []string{arrow, "–", "-"} {
		after, cut := strings.CutPrefix(rest, between)
		if !cut {
			continue
		}
		if to, ok := readClock(strings.TrimLeft(after, " ")); ok {
			out.end = to.at
			rest = strings.TrimLeft(to.rest, " ")
		}
		break
	}
	if closing == "" {
		if rest != "" && c.rest == rest && out.end == NoTime {
			return stamp{}, false // a word runs on from the digits
		}
		out.rest = rest
	} else {
		if out.rest, ok = strings.CutPrefix(rest, closing); !ok {
			return stamp{}, false
		}
	}
	for _, mark := range []string{"**", "__"} {
		out.rest = strings.TrimPrefix(out.rest, mark)
	}
	return out, true
}

func (bracket) read(lines []string, w *warnings) (talk, *Error) {
	t := talk{timed: true}
	style := stampStyle(lines)
	top := frontMatter(lines)
	for i, line := range lines[top:] {
		number := top + i + 1
		if strings.TrimSpace(line) == "" {
			continue
		}
		if title, ok := markdownHeading(line); ok {
			takeHeading(&t, title, number, w)
			continue
		}
		if s, ok := readStamp(withoutListMark(line), style); ok {
			t.cues = append(t.cues, rawCue{start: s.start, end: s.end, line: number})
			line = strings.TrimLeft(s.rest, " \t-–—:")
		}
		bracketLine(&t, line, style, number, w)
	}
	return t, nil
}

// bracketLine adds the text of a line to the last cue, and begins a new cue at
// each further time in square brackets.
func bracketLine(t *talk, line string, style rune, number int, w *warnings) {
	for line != "" {
		i := len(line)
		var next stamp
		found := false
		if style == squareStamp {
			i, next, found = findStamp(line)
		}
		if text := line[:i]; strings.TrimSpace(text) != "" {
			if len(t.cues) == 0 {
				w.add(number, "before the first time", "words before the first time, taken as spoken at 0:00: %q", shorten(text))
				t.cues = append(t.cues, rawCue{start: 0, end: NoTime, line: number})
			}
			last := &t.cues[len(t.cues)-1]
			last.rows = append(last.rows, plainRow(impossible(text, number, w)))
		}
		if !found {
			return
		}
		t.cues = append(t.cues, rawCue{start: next.start, end: next.end, line: number})
		line = next.rest
	}
}

// findStamp gives the index of the first time in square brackets in line,
// len(line) when there is none.
func findStamp(line string) (int, stamp, bool) {
	from := 0
	for {
		i := strings.IndexByte(line[from:], '[')
		if i < 0 {
			return len(line), stamp{}, false
		}
		if s, ok := readStamp(line[from+i:], squareStamp); ok {
			return from + i, s, true
		}
		from += i + 1
	}
}

// impossible takes things that are shaped like a time in square brackets but
// are none ([0:75]) out of a text, with a warning: they are not spoken.
func impossible(text string, number int, w *warnings) string {
	if !strings.Contains(text, "[") {
		return text
	}
	var out strings.Builder
	for {
		i := strings.IndexByte(text, '[')
		if i < 0 {
			out.WriteString(text)
			return out.String()
		}
		out.WriteString(text[:i])
		text = text[i:]
		end := 1
		colon := false
		for end < len(text) && (text[end] == ':' || text[end] == '.' || (text[end] >= '0' && text[end] <= '9')) {
			colon = colon || text[end] == ':'
			end++
		}
		if colon && end < len(text) && text[end] == ']' {
			w.add(number, "times", "no time of day or of a recording, left out: %q", text[:end+1])
			text = text[end+1:]
			continue
		}
		out.WriteByte('[')
		text = text[1:]
	}
}
