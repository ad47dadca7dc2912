package main

import (
	"fmt"
	"io"
	"os"
	"strings"

	"golang.org/x/term"

	"quern/schema"
)

// terminal writes for a person to read. It uses colour only where it writes to
// a terminal, and never when NO_COLOR is set (https://no-color.org) or the
// terminal says it is dumb.
type terminal struct {
	w      io.Writer
	colour bool
}

func newTerminal(w io.Writer) *terminal {
	f, isFile := w.(*os.File)
	return &terminal{w: w, colour: isFile && term.IsTerminal(int(f.Fd())) && os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb"}
}

// Escape sequences of ECMA-48, "Select graphic rendition".
const (
	faint  = "\x1b[2m"
	strong = "\x1b[1m"
	alarm  = "\x1b[31m"
	normal = "\x1b[0m"
)

func (t *terminal) paint(style, text string) string {
	if !t.colour || text == "" {
		return text
	}
	return style + text + normal
}

// line writes one line. Control characters are made visible: a transcript
// must not be able to steer the terminal.
func (t *terminal) line(text string) {
	// Standard error is where one would say that standard error is gone.
	_, _ = fmt.Fprintln(t.w, text)
}

// failure tells why something could not be done.
func (t *terminal) failure(err error) {
	t.line(t.paint(alarm, "quern: ") + printable(err.Error()))
}

// warning tells of something odd in a file.
func (t *terminal) warning(file string, line int, text string) {
	where := shownName(file)
	if line > 0 {
		where = fmt.Sprintf("%s:%d", where, line)
	}
	t.line(t.paint(faint, printable(where)+": warning: ") + printable(text))
}

// summary tells what a document holds, and its open flags, one a line.
func (t *terminal) summary(file string, doc *schema.Document) {
	open := doc.Open()
	title := doc.Title
	if title == "" {
		title = "a recipe without a title"
	}
	t.line(fmt.Sprintf("%s: %s: %s, %s, %s", printable(shownName(file)), t.paint(strong, printable(title)),
		count(len(doc.Ingredients), "ingredient"), count(len(doc.Steps), "step"), openFlags(len(open))))
	for _, f := range open {
		t.line("  " + t.flag(f))
	}
}

func openFlags(n int) string {
	if n == 0 {
		return "no open flags"
	}
	return count(n, "open flag")
}

// flag writes a flag on one line: the moment, the question, the words.
func (t *terminal) flag(f schema.Flag) string {
	var moments, quotes []string
	for _, s := range f.Said {
		if s.At != "" {
			moments = append(moments, shortMoment(s.At))
		}
		if s.Quote != "" {
			quotes = append(quotes, `"`+s.Quote+`"`)
		}
	}
	moment := strings.Join(moments, ", ")
	if moment == "" {
		moment = "-"
	}
	line := fmt.Sprintf("%s  %s", t.paint(faint, fmt.Sprintf("%7s", printable(moment))), printable(f.Ask))
	if len(quotes) > 0 {
		line += "  " + t.paint(faint, printable(strings.Join(quotes, " / ")))
	}
	return line
}

// shortMoment makes 1:04 of 00:01:04.000.
func shortMoment(at string) string {
	whole, _, _ := strings.Cut(at, ".")
	short := strings.TrimLeft(whole, "0:")
	// m:ss at the least.
	if want := len("0:00"); len(short) < want && len(whole) >= want {
		short = whole[len(whole)-want:]
	}
	return short
}

// count writes a number and its noun.
func count(n int, noun string) string {
	if n != 1 {
		noun += "s"
	}
	return fmt.Sprintf("%d %s", n, noun)
}

// printable makes control characters visible, so that a line stays one line
// and no text can steer the terminal it is shown on.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t':
			return ' '
		case r < 0x20, r >= 0x7F && r < 0xA0, r >= 0x202A && r <= 0x202E, r >= 0x2066 && r <= 0x2069:
			return '\uFFFD'
		}
		return r
	}, s)
}

// shownName is a file's name for messages.
func shownName(file string) string {
	if file == "-" {
		return "standard input"
	}
	return file
}
