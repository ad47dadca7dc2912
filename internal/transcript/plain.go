package transcript

import "strings"

// plain reads text without times: each paragraph is a cue.
type plain struct{}

func (plain) name() string { return "plain" }

func (plain) looks([]string) bool { return true }

func (plain) read(lines []string, w *warnings) (talk, *Error) {
	var t talk
	top := frontMatter(lines)
	open := false
	for i, line := range lines[top:] {
		number := top + i + 1
		if strings.TrimSpace(line) == "" {
			open = false
			continue
		}
		if title, ok := markdownHeading(line); ok {
			takeHeading(&t, title, number, w)
			open = false
			continue
		}
		if !open {
			t.cues = append(t.cues, rawCue{start: NoTime, end: NoTime, line: number})
			open = true
		}
		last := &t.cues[len(t.cues)-1]
		last.rows = append(last.rows, plainRow(line))
	}
	return t, nil
}

// markdownHeading gives the words of a Markdown heading line.
func markdownHeading(line string) (string, bool) {
	rest := strings.TrimLeft(line, "#")
	level := len(line) - len(rest)
	if level == 0 || level > 6 || rest == "" || (rest[0] != ' ' && rest[0] != '\t') {
		return "", false
	}
	return strings.TrimSpace(strings.TrimRight(strings.TrimSpace(rest), "#")), true
}

// takeHeading keeps the first heading and reports every later one: headings
// are written, not spoken.
func takeHeading(t *talk, title string, line int, w *warnings) {
	if t.heading == "" {
		t.heading = title
		return
	}
	w.add(line, "headings", "a heading, not taken as spoken: %q", shorten(title))
}

// frontMatter gives the number of lines of the header between two lines of
// three hyphens that some editors put on top of a Markdown file, 0 if none.
func frontMatter(lines []string) int {
	if len(lines) == 0 || strings.TrimRight(lines[0], " \t") != "---" {
		return 0
	}
	for i, line := range lines[1:min(len(lines), 100)] {
		if strings.TrimRight(line, " \t") == "---" {
			return i + 2
		}
	}
	return 0
}
