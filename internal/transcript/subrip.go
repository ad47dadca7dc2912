package transcript

import (
	"html"
	"strings"
	"time"
)

// subRip reads SubRip: numbered cues, a timing line with commas, text to the
// next blank line. There is no standard for it; files in use leave out
// numbers, write full stops for commas and put blank lines inside a cue, so
// only the timing lines are relied on.
type subRip struct{}

func (subRip) name() string { return "subrip" }

// subRipHead is how many filled lines are searched for the first timing line.
const subRipHead = 20

func (subRip) looks(lines []string) bool {
	filled := 0
	for _, line := range lines {
		if strings.TrimSpace(line) == "" {
			continue
		}
		if isTimingLine(line) {
			return true
		}
		if filled++; filled == subRipHead {
			return false
		}
	}
	return false
}

func isTimingLine(line string) bool {
	before, _, ok := strings.Cut(line, arrow)
	return ok && startsLikeTime(before)
}

func (subRip) read(lines []string, w *warnings) (talk, *Error) {
	t := talk{timed: true, rolls: true}
	var cue *rawCue
	var body []string
	finish := func() {
		if cue == nil {
			return
		}
		for _, line := range body {
			cue.rows = append(cue.rows, subRipText(line))
		}
		t.cues = append(t.cues, *cue)
		cue, body = nil, nil
	}
	for i, line := range lines {
		switch trimmed := strings.TrimSpace(line); {
		case trimmed == "":
		case isTimingLine(line):
			finish()
			start, end, err := subRipTiming(line, i+1)
			if err != nil {
				return t, err
			}
			cue = &rawCue{start: start, end: end, line: i + 1}
		case i+1 < len(lines) && isCueNumber(trimmed) && isTimingLine(lines[i+1]):
		case cue != nil:
			body = append(body, line)
		case !isCueNumber(trimmed):
			w.add(i+1, "text outside a cue", "text before the first cue, left out: %q", shorten(line))
		}
	}
	finish()
	return t, nil
}

// isCueNumber reports whether the line is only digits.
func isCueNumber(line string) bool {
	_, rest, digits := readDigits(line)
	return digits > 0 && rest == ""
}

func subRipTiming(line string, number int) (start, end time.Duration, err *Error) {
	before, after, _ := strings.Cut(line, arrow)
	from, ok := readClock(strings.TrimSpace(before))
	if !ok || strings.TrimSpace(from.rest) != "" {
		return 0, 0, failure(number, ErrTime, "%q; write 00:01:02,500 --> 00:01:05,000", shorten(line))
	}
	after = strings.TrimSpace(after)
	to, ok := readClock(after)
	switch {
	case ok:
		return from.at, to.at, nil
	case startsLikeTime(after):
		return 0, 0, failure(number, ErrTime, "%q; write 00:01:02,500 --> 00:01:05,000", shorten(line))
	}
	return 0, 0, failure(number, ErrNoEnd, "%q; write a second time after the arrow", shorten(line))
}

// subRipText takes the marks out of one line: tags such as <i> and <font …>,
// placement such as {\an8}, and a time in angle brackets, which is the moment
// of what follows. An angle bracket that opens no tag is left as it stands.
func subRipText(line string) []chunk {
	var row []chunk
	moment := NoTime
	var text strings.Builder
	flush := func() {
		if text.Len() > 0 {
			row = append(row, chunk{text: html.UnescapeString(text.String()), at: moment})
			text.Reset()
		}
	}
	for line != "" {
		i := strings.IndexAny(line, "<{")
		if i < 0 {
			text.WriteString(line)
			break
		}
		text.WriteString(line[:i])
		mark := line[i]
		line = line[i+1:]
		if mark == '{' {
			if inside, rest, ok := cutMark(line, '}'); ok && strings.HasPrefix(inside, `\`) {
				line = rest
				continue
			}
			text.WriteByte('{')
			continue
		}
		inside, rest, ok := cutMark(line, '>')
		if !ok {
			text.WriteByte('<')
			continue
		}
		if at, isTime := readClock(inside); isTime && at.rest == "" {
			flush()
			moment, line = at.at, rest
			continue
		}
		if !isTag(inside) {
			text.WriteByte('<')
			continue
		}
		line = rest
	}
	flush()
	return row
}

// maxMark is the length of the longest mark looked for, in bytes. Without a
// limit a line of opening brackets would be searched to its end for each.
const maxMark = 256

// cutMark splits line around the closing bracket of a mark.
func cutMark(line string, closing byte) (inside, rest string, ok bool) {
	i := strings.IndexByte(line[:min(len(line), maxMark)], closing)
	if i < 0 {
		return "", line, false
	}
	return line[:i], line[i+1:], true
}

// isTag reports whether the inside of angle brackets is a tag: a name of
// letters, or one closed, alone or followed by its attributes.
func isTag(inside string) bool {
	inside = strings.TrimPrefix(inside, "/")
	i := 0
	for i < len(inside) && (inside[i]|0x20 >= 'a' && inside[i]|0x20 <= 'z') {
		i++
	}
	if i == 0 {
		return false
	}
	switch name := strings.ToLower(inside[:i]); name {
	case "i", "b", "u", "s", "font", "c", "v", "em", "strong", "span", "br", "lang", "ruby", "rt":
		return i == len(inside) || strings.IndexByte(" \t./", inside[i]) >= 0
	}
	return false
}
