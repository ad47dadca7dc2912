package publish

import (
	"fmt"
	"math"
	"strconv"
	"strings"
	"unicode"

	"quern/schema"
)

// seconds reads a WebVTT timestamp, hh:mm:ss.mmm or mm:ss.mmm.
func seconds(at string) (float64, bool) {
	fields := strings.Split(at, ":")
	if at == "" || len(fields) > 3 {
		return 0, false
	}
	total := 0.0
	for _, f := range fields {
		v, err := strconv.ParseFloat(f, 64)
		if err != nil || v < 0 || math.IsInf(v, 0) || math.IsNaN(v) {
			return 0, false
		}
		total = total*60 + v
	}
	return total, true
}

// clock writes seconds as people read a player: 3:07, or 1:02:03.
func clock(s float64) string {
	t := int(math.Max(0, math.Floor(s)))
	if t >= 3600 {
		return fmt.Sprintf("%d:%02d:%02d", t/3600, t/60%60, t%60)
	}
	return fmt.Sprintf("%d:%02d", t/60, t%60)
}

// moment is one place in the recording.
type moment struct {
	Clock   string // "3:07"; "" where the transcript has no times
	Link    string // into the recording; "" where none was given
	Seconds float64
	Quote   string
	known   bool
}

func momentOf(s schema.Said, recording string) moment {
	m := moment{Quote: strings.TrimRight(clean(s.Quote), ",;: ")}
	if t, ok := seconds(s.At); ok {
		m.Seconds, m.Clock, m.known = t, clock(t), true
		if recording != "" {
			m.Link = link(recording, t)
		}
	}
	return m
}

func momentsOf(said []schema.Said, recording string) []moment {
	var out []moment
	for _, s := range said {
		out = append(out, momentOf(s, recording))
	}
	return out
}

// spacedSeconds is how far moments of one step must be apart for both to be shown:
// nearer ones are in the same breath.
const spacedSeconds = 15

// spaced leaves out moments right after one that is shown.
func spaced(ms []moment) []moment {
	var out []moment
	for _, m := range ms {
		if n := len(out); n > 0 && m.known && out[n-1].known && math.Abs(m.Seconds-out[n-1].Seconds) < spacedSeconds {
			continue
		}
		out = append(out, m)
	}
	return out
}

// clocks joins the times of moments, each once: "2:00 and 2:47".
func clocks(ms []moment) string {
	var list []string
	for _, m := range ms {
		if m.Clock != "" && (len(list) == 0 || list[len(list)-1] != m.Clock) {
			list = append(list, m.Clock)
		}
	}
	return join(list, "and")
}

// join writes a list as a sentence does: "a, b and c".
func join(list []string, last string) string {
	switch len(list) {
	case 0:
		return ""
	case 1:
		return list[0]
	}
	return strings.Join(list[:len(list)-1], ", ") + " " + last + " " + list[len(list)-1]
}

// clean makes a string of one line that shows as it reads: control characters
// and the marks that turn the direction of text around are dropped, since a
// transcript may hold anything, and white space is closed up.
func clean(s string) string {
	s = strings.Map(func(r rune) rune {
		switch {
		case unicode.IsSpace(r):
			return ' '
		case unicode.IsControl(r), r == unicode.ReplacementChar, r == '\ufeff':
			return -1
		case r == '\u200e', r == '\u200f', r == '\u061c', r >= '\u202a' && r <= '\u202e', r >= '\u2066' && r <= '\u2069':
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, ""))
	return strings.Join(strings.Fields(s), " ")
}

// sentence gives text a capital and a full stop.
func sentence(s string) string {
	s = capital(s)
	if s != "" && !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

func capital(s string) string {
	for i, r := range s {
		return string(unicode.ToUpper(r)) + s[i+len(string(r)):]
	}
	return s
}
