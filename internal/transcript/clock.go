package transcript

import (
	"strings"
	"time"
)

// clock is a time read from the start of a text.
type clock struct {
	at    time.Duration
	rest  string // what follows the time
	comma bool   // a comma stood before the fraction
	digit int    // digits of the fraction, 0 if there was none
}

// maxHours keeps a time far inside what time.Duration can hold.
const maxHours = 100_000

// readClock reads a time as m:ss, mm:ss, h:mm:ss or hh:mm:ss from the start of
// s, with or without a fraction after a full stop or comma. Minutes may pass
// 59 where there are no hours. It reports false when s starts with no time.
func readClock(s string) (clock, bool) {
	var fields []int
	rest := s
	for {
		n, after, digits := readDigits(rest)
		if digits == 0 || (len(fields) > 0 && digits != 2) {
			return clock{}, false
		}
		fields = append(fields, n)
		rest = after
		if len(fields) == 3 || !strings.HasPrefix(rest, ":") {
			break
		}
		rest = rest[1:]
	}
	var hours, minutes, seconds int
	switch len(fields) {
	case 2:
		minutes, seconds = fields[0], fields[1]
		hours, minutes = minutes/60, minutes%60
	case 3:
		hours, minutes, seconds = fields[0], fields[1], fields[2]
	default:
		return clock{}, false
	}
	if minutes > 59 || seconds > 59 || hours > maxHours {
		return clock{}, false
	}
	c := clock{rest: rest}
	c.at = time.Duration(hours)*time.Hour + time.Duration(minutes)*time.Minute + time.Duration(seconds)*time.Second
	if rest != "" && (rest[0] == '.' || rest[0] == ',') {
		fraction, after, digits := readFraction(rest[1:])
		if digits > 0 {
			c.at += fraction
			c.comma, c.digit, c.rest = rest[0] == ',', digits, after
		}
	}
	return c, true
}

// readDigits reads the digits s starts with. A number too long for any time
// comes back as a value that every check of a time refuses.
func readDigits(s string) (n int, rest string, digits int) {
	for digits < len(s) && s[digits] >= '0' && s[digits] <= '9' {
		if n < 1_000_000_000 {
			n = n*10 + int(s[digits]-'0')
		}
		digits++
	}
	return n, s[digits:], digits
}

// readFraction reads the decimals of a second; digits past the ninth, below a
// nanosecond, are passed over.
func readFraction(s string) (d time.Duration, rest string, digits int) {
	unit := time.Second
	for digits < len(s) && s[digits] >= '0' && s[digits] <= '9' {
		unit /= 10
		d += time.Duration(s[digits]-'0') * unit
		digits++
	}
	return d, s[digits:], digits
}

// arrow stands between the two times of a cue in SubRip and WebVTT.
const arrow = "-->"

// startsLikeTime reports whether s begins with a digit and a colon is near, so
// that a line with an arrow was meant as a timing line.
func startsLikeTime(s string) bool {
	s = strings.TrimSpace(s)
	_, rest, digits := readDigits(s)
	return digits > 0 && strings.HasPrefix(rest, ":")
}
