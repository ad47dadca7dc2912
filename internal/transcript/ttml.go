package transcript

import (
	"encoding/xml"
	"errors"
	"io"
	"strconv"
	"strings"
	"time"
)

// ttml reads the W3C's Timed Text Markup Language: paragraphs with begin, end
// and dur, in clock time or as an offset, relative to the element around them.
// Source of the time expressions: W3C, "Timed Text Markup Language 2", section
// "Time Expression Syntax".
type ttml struct{}

func (ttml) name() string { return "ttml" }

func (ttml) looks(lines []string) bool {
	i := firstFilled(lines)
	return i >= 0 && (strings.HasPrefix(strings.TrimSpace(lines[i]), "<?xml") || strings.HasPrefix(strings.TrimSpace(lines[i]), "<tt ") ||
		strings.HasPrefix(strings.TrimSpace(lines[i]), "<tt>") || strings.TrimSpace(lines[i]) == "<tt" || strings.HasPrefix(strings.TrimSpace(lines[i]), "<tt:tt"))
}

// ttmlRates are the units that a document sets for frames and ticks.
type ttmlRates struct {
	frame float64 // frames a second
	tick  float64 // ticks a second
}

// ttmlSpan is the time of an open element.
type ttmlSpan struct {
	name       string
	begin, end time.Duration // NoTime where nothing around it gives any
	next       time.Duration // where its next child begins, in a sequence
	sequence   bool          // its children follow one another
	timed      bool          // it gives a begin of its own
	ruby       bool          // it holds ruby text, which is not spoken again
}

// maxDepth is the deepest nesting of elements that is read.
const maxDepth = 100

// ttmlReader is the state of reading one document.
type ttmlReader struct {
	decoder *xml.Decoder
	rates   ttmlRates
	talk    talk
	open    []ttmlSpan
	cue     *rawCue // the open paragraph
	depth   int     // of the open paragraph in open
	row     []chunk
	agents  map[string]string // speakers' names by their id
	agent   string            // the open agent's id
	inName  bool
	w       *warnings
}

func (ttml) read(lines []string, w *warnings) (talk, *Error) {
	source := strings.TrimSpace(strings.Join(lines, "\n"))
	first := firstFilled(lines)
	d := xml.NewDecoder(strings.NewReader(source))
	d.Entity = xml.HTMLEntity
	// The text was decoded before; what the document says of its encoding
	// is past.
	d.CharsetReader = func(_ string, r io.Reader) (io.Reader, error) { return r, nil }
	r := &ttmlReader{
		decoder: d, w: w, agents: map[string]string{},
		rates: ttmlRates{frame: 30, tick: 1}, // the standard's defaults
		talk:  talk{timed: true, rolls: true},
	}
	for {
		tok, err := d.Token()
		if errors.Is(err, io.EOF) {
			return r.talk, nil
		}
		at, _ := d.InputPos()
		if err != nil {
			reason := err.Error()
			var syntax *xml.SyntaxError
			if errors.As(err, &syntax) {
				reason = syntax.Msg
			}
			return r.talk, failure(at+first, ErrFormat, "the XML is broken: %s", reason)
		}
		if failed := r.token(tok, at+first); failed != nil {
			return r.talk, failed
		}
	}
}

// token takes one piece of the document.
func (r *ttmlReader) token(tok xml.Token, line int) *Error {
	switch tok := tok.(type) {
	case xml.StartElement:
		if len(r.open) == 0 && tok.Name.Local != "tt" {
			return failure(line, ErrFormat, "the XML is <%s>, not the <tt> of TTML", tok.Name.Local)
		}
		return r.start(tok, line)
	case xml.EndElement:
		r.end()
	case xml.CharData:
		r.text(string(tok))
	}
	return nil
}

// start opens an element.
func (r *ttmlReader) start(e xml.StartElement, line int) *Error {
	if len(r.open) == 0 {
		r.setRates(e)
	}
	if len(r.open) == maxDepth {
		return failure(line, ErrFormat, "the XML is nested more than %d deep", maxDepth)
	}
	span, err := r.span(e, line)
	if err != nil {
		return err
	}
	switch e.Name.Local {
	case "p":
		if r.cue == nil {
			r.cue = &rawCue{start: span.begin, end: span.end, line: line, voice: r.voice(e)}
			r.depth = len(r.open)
		}
	case "br":
		if r.cue != nil {
			r.cue.rows, r.row = append(r.cue.rows, r.row), nil
		}
	case "agent":
		r.agent = attribute(e, "id")
	case "name":
		r.inName = r.agent != ""
	}
	r.open = append(r.open, span)
	return nil
}

// voice gives the name of the speaker a paragraph names, "" if none.
func (r *ttmlReader) voice(e xml.StartElement) string {
	id := attribute(e, "agent")
	if name := r.agents[id]; name != "" {
		return name
	}
	return id
}

// end closes the innermost element.
func (r *ttmlReader) end() {
	last := r.open[len(r.open)-1]
	r.open = r.open[:len(r.open)-1]
	if len(r.open) > 0 && last.end != NoTime {
		r.open[len(r.open)-1].next = last.end
	}
	switch {
	case last.name == "p" && r.cue != nil && len(r.open) == r.depth:
		r.closeCue(last)
	case last.name == "agent":
		r.agent = ""
	case last.name == "name":
		r.inName = false
	}
}

// closeCue keeps the open paragraph. One without a begin of its own, or of
// anything around it, takes that of its first timed span, or follows the
// paragraph before it.
func (r *ttmlReader) closeCue(p ttmlSpan) {
	cue := r.cue
	cue.rows = append(cue.rows, r.row)
	r.cue, r.row = nil, nil
	if !p.timed {
		for _, row := range cue.rows {
			for _, ch := range row {
				if ch.at != NoTime && strings.TrimSpace(ch.text) != "" {
					cue.start = ch.at
					cue.end = max(cue.end, p.next)
					r.talk.cues = append(r.talk.cues, *cue)
					return
				}
			}
		}
	}
	if cue.start == NoTime {
		cue.start = 0
		if n := len(r.talk.cues); n > 0 {
			cue.start = max(r.talk.cues[n-1].start, r.talk.cues[n-1].end)
		}
		if hasText(cue.rows) {
			r.w.add(cue.line, "no begin", "a paragraph without a begin, taken as following the one before it")
		}
	}
	r.talk.cues = append(r.talk.cues, *cue)
}

func hasText(rows [][]chunk) bool {
	for _, row := range rows {
		for _, ch := range row {
			if strings.TrimSpace(ch.text) != "" {
				return true
			}
		}
	}
	return false
}

// text takes characters between tags. A line break in the source is blank
// space, not a row.
func (r *ttmlReader) text(s string) {
	if r.inName {
		r.agents[r.agent] = strings.Join(strings.Fields(r.agents[r.agent]+s), " ")
		return
	}
	if r.cue == nil {
		return
	}
	at := NoTime
	for _, span := range r.open[r.depth+1:] {
		if span.ruby || span.name == "metadata" || span.name == "title" || span.name == "desc" {
			return
		}
		if span.timed {
			at = span.begin
		}
	}
	r.row = append(r.row, chunk{text: s, at: at})
}

// span works out the time of an element from its attributes and the element
// around it.
func (r *ttmlReader) span(e xml.StartElement, line int) (ttmlSpan, *Error) {
	around := ttmlSpan{begin: NoTime, end: NoTime, next: NoTime}
	if len(r.open) > 0 {
		around = r.open[len(r.open)-1]
	}
	base := around.begin
	if around.sequence && around.next != NoTime {
		base = around.next
	}
	span := ttmlSpan{name: e.Name.Local, begin: base, end: around.end, next: NoTime}
	if around.sequence {
		span.end = NoTime
	}
	base = max(base, 0)
	for _, a := range e.Attr {
		switch a.Name.Local {
		case "begin", "end", "dur":
			if a.Name.Space != "" {
				continue
			}
			d, ok := r.rates.time(a.Value)
			if !ok {
				return span, failure(line, ErrTime, "%s=%q; write it as 00:01:02.500 or 62.5s", a.Name.Local, a.Value)
			}
			if a.Name.Local == "begin" {
				span.begin, span.timed = base+d, true
			}
		case "timeContainer":
			span.sequence = a.Value == "seq"
		case "ruby":
			span.ruby = a.Value == "text" || a.Value == "textContainer"
		}
	}
	if dur, ok := r.rates.time(attribute(e, "dur")); ok {
		span.end = max(span.begin, 0) + dur
	}
	if end, ok := r.rates.time(attribute(e, "end")); ok {
		if dur := attribute(e, "dur"); dur == "" || base+end < span.end {
			span.end = base + end
		}
	}
	return span, nil
}

// attribute gives the value of the attribute with this local name, "" if the
// element has none.
func attribute(e xml.StartElement, local string) string {
	for _, a := range e.Attr {
		if a.Name.Local == local {
			return a.Value
		}
	}
	return ""
}

// setRates reads the frame and tick rates of the document's root.
func (r *ttmlReader) setRates(e xml.StartElement) {
	if f, err := strconv.ParseFloat(attribute(e, "frameRate"), 64); err == nil && f > 0 && f < 1e6 {
		r.rates.frame = f
	}
	if parts := strings.Fields(attribute(e, "frameRateMultiplier")); len(parts) == 2 {
		above, err1 := strconv.ParseFloat(parts[0], 64)
		below, err2 := strconv.ParseFloat(parts[1], 64)
		if err1 == nil && err2 == nil && above > 0 && below > 0 {
			r.rates.frame *= above / below
		}
	}
	// Without a tick rate a tick is a frame where a frame rate is set, else
	// a second.
	if attribute(e, "frameRate") != "" {
		r.rates.tick = r.rates.frame
	}
	if t, err := strconv.ParseFloat(attribute(e, "tickRate"), 64); err == nil && t > 0 && t < 1e12 {
		r.rates.tick = t
	}
}

// time reads a time expression: a clock time with a fraction or with frames,
// or a number with its unit (h, m, s, ms, f, t).
func (rates ttmlRates) time(s string) (time.Duration, bool) {
	s = strings.TrimSpace(s)
	if c, ok := readClock(s); ok && strings.Count(s, ":") >= 2 && !c.comma {
		if c.rest == "" {
			return c.at, true
		}
		frames, found := strings.CutPrefix(c.rest, ":")
		if !found || c.digit > 0 {
			return 0, false
		}
		whole, parts, _ := strings.Cut(frames, ".")
		n, rest, digits := readDigits(whole)
		_, after, _ := readDigits(parts)
		if digits == 0 || rest != "" || after != "" {
			return 0, false
		}
		return c.at + seconds(float64(n)/rates.frame), true
	}
	i := 0
	for i < len(s) && (s[i] == '.' || (s[i] >= '0' && s[i] <= '9')) {
		i++
	}
	n, err := strconv.ParseFloat(s[:i], 64)
	if err != nil || n > 1e15 {
		return 0, false
	}
	unit := 0.0
	switch s[i:] {
	case "h":
		unit = 3600
	case "m":
		unit = 60
	case "s":
		unit = 1
	case "ms":
		unit = 0.001
	case "f":
		unit = 1 / rates.frame
	case "t":
		unit = 1 / rates.tick
	default:
		return 0, false
	}
	d := seconds(n * unit)
	return d, d <= maxHours*time.Hour
}

// seconds makes a duration of a number of seconds, to the microsecond: the
// floating point below that is noise.
func seconds(s float64) time.Duration {
	if s > maxHours*3600 {
		return (maxHours + 1) * time.Hour
	}
	return time.Duration(s*1e6+0.5) * time.Microsecond
}
