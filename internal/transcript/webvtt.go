package transcript

import (
	"html"
	"strings"
	"time"
)

// webVTT reads WebVTT as the W3C's parsing algorithm does: blocks separated by
// empty lines, a block with an arrow line is a cue, every other block (NOTE,
// STYLE, REGION) is passed over. Source: W3C, "WebVTT: The Web Video Text
// Tracks Format", section "WebVTT parser algorithm". It differs in what it
// reports: a timing line that cannot be read is an error, because the words
// below it would be lost without anybody knowing.
type webVTT struct{}

func (webVTT) name() string { return "webvtt" }

// signature is what the first line of a WebVTT file starts with.
const signature = "WEBVTT"

func (webVTT) looks(lines []string) bool {
	i := firstFilled(lines)
	return i >= 0 && isSignature(lines[i])
}

func isSignature(line string) bool {
	rest, ok := strings.CutPrefix(line, signature)
	return ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t')
}

// firstFilled gives the index of the first line that isn't blank, -1 if none.
func firstFilled(lines []string) int {
	for i, line := range lines {
		if strings.TrimSpace(line) != "" {
			return i
		}
	}
	return -1
}

func (webVTT) read(lines []string, w *warnings) (talk, *Error) {
	t := talk{timed: true, rolls: true}
	i := firstFilled(lines)
	if i > 0 {
		w.add(1, "signature", "blank lines stand before WEBVTT, passed over")
	}
	i++
	// The header runs to the first empty line; an arrow in it begins a cue.
	for i < len(lines) && lines[i] != "" && !strings.Contains(lines[i], arrow) {
		i++
	}
	for i < len(lines) {
		if lines[i] == "" {
			i++
			continue
		}
		cue, next, err := vttBlock(lines, i, w)
		if err != nil {
			return t, err
		}
		if cue != nil {
			t.cues = append(t.cues, *cue)
		}
		i = next
	}
	return t, nil
}

// vttBlock reads the block that begins at lines[i] and gives the index of the
// line after it. The cue is nil when the block is none.
func vttBlock(lines []string, i int, w *warnings) (*rawCue, int, *Error) {
	first := i
	var cue *rawCue
	arrowSeen := false
	var body []string
	for ; i < len(lines) && lines[i] != ""; i++ {
		line := lines[i]
		if !strings.Contains(line, arrow) {
			if arrowSeen || i == first {
				body = append(body, line)
			}
			continue
		}
		// A timing line is the first of its block, or the second under
		// an identifier. Anywhere else it begins the next block.
		if arrowSeen || i > first+1 {
			break
		}
		arrowSeen = true
		body = body[:0]
		start, end, err := vttTiming(line, i+1, w)
		if err != nil {
			return nil, i, err
		}
		if start != NoTime {
			cue = &rawCue{start: start, end: end, line: i + 1}
		}
	}
	if cue != nil {
		cue.rows, cue.voice = vttText(body)
		return cue, i, nil
	}
	if !isMarkBlock(lines[first]) {
		w.add(first+1, "text outside a cue", "text outside any cue, left out: %q", shorten(lines[first]))
	}
	return nil, i, nil
}

// isMarkBlock reports whether the first line of a block makes it a comment, a
// style sheet or a region.
func isMarkBlock(line string) bool {
	for _, mark := range []string{"NOTE", "STYLE", "REGION"} {
		if rest, ok := strings.CutPrefix(line, mark); ok && (rest == "" || rest[0] == ' ' || rest[0] == '\t') {
			return true
		}
	}
	return false
}

// vttTiming reads a timing line. It gives NoTime for both when the line has an
// arrow but was not meant as one (an arrow in a comment).
func vttTiming(line string, number int, w *warnings) (start, end time.Duration, err *Error) {
	before, after, _ := strings.Cut(line, arrow)
	if !startsLikeTime(before) {
		w.add(number, "arrow", "a line with an arrow but no time, left out: %q", shorten(line))
		return NoTime, NoTime, nil
	}
	from, ok := readClock(strings.TrimSpace(before))
	if !ok || from.rest != "" {
		return 0, 0, failure(number, ErrTime, "%q; write 00:01:02.500 --> 00:01:05.000", shorten(line))
	}
	after = strings.TrimSpace(after)
	if after == "" {
		return 0, 0, failure(number, ErrNoEnd, "%q; write a second time after the arrow", shorten(line))
	}
	to, ok := readClock(after)
	if !ok {
		if startsLikeTime(after) {
			return 0, 0, failure(number, ErrTime, "%q; write 00:01:02.500 --> 00:01:05.000", shorten(line))
		}
		return 0, 0, failure(number, ErrNoEnd, "%q; write a second time after the arrow", shorten(line))
	}
	if from.comma || to.comma || from.digit != 3 || to.digit != 3 {
		w.add(number, "times", "times are not written as WebVTT asks (00:01:02.500), read all the same: %q", shorten(line))
	}
	return from.at, to.at, nil
}

// shorten cuts a line for a message at 60 characters.
func shorten(line string) string {
	line = strings.TrimSpace(line)
	count := 0
	for i := range line {
		if count == 60 {
			return line[:i] + "…"
		}
		count++
	}
	return line
}

// vttText takes the tags out of a cue's text. Inline timestamps give the
// moment of what follows; a voice tag gives the speaker; ruby text, which
// repeats in small letters what the base says, is left out.
func vttText(body []string) (rows [][]chunk, voice string) {
	moment := NoTime
	inRuby, above := false, false // inside ruby, and inside its small letters
	var text strings.Builder
	var row []chunk
	flush := func() {
		if text.Len() > 0 {
			row = append(row, chunk{text: html.UnescapeString(text.String()), at: moment})
			text.Reset()
		}
	}
	source := strings.Join(body, "\n")
	for source != "" {
		i := strings.IndexAny(source, "<\n")
		if i < 0 {
			i = len(source)
		}
		if !above {
			text.WriteString(source[:i])
		}
		if i == len(source) {
			break
		}
		mark := source[i]
		source = source[i+1:]
		if mark == '\n' {
			flush()
			rows, row = append(rows, row), nil
			continue
		}
		// A tag without its closing bracket runs to the end of the cue.
		inside, rest, _ := strings.Cut(source, ">")
		source = rest
		if at, ok := readClock(inside); ok && at.rest == "" {
			flush()
			moment = at.at
			continue
		}
		switch name, annotation := tagName(inside); name {
		case "v":
			if voice == "" {
				voice = strings.Join(strings.Fields(html.UnescapeString(annotation)), " ")
			}
		case "ruby":
			inRuby = true
		case "rt":
			above = inRuby
		case "/rt":
			above = false
		case "/ruby":
			inRuby, above = false, false
		}
	}
	flush()
	return append(rows, row), voice
}

// tagName splits the inside of a tag into its name, without classes, and its
// annotation.
func tagName(inside string) (name, annotation string) {
	end := strings.IndexAny(inside, " \t\n")
	if end >= 0 {
		inside, annotation = inside[:end], inside[end+1:]
	}
	name, _, _ = strings.Cut(inside, ".")
	return name, annotation
}
