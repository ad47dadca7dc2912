package publish

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"sort"
	"strings"

	"quern/schema"
)

// shortest is the least length of a chapter, in seconds.
const shortest = 10

// turn is one chapter: where it begins and ends, in seconds, and its name.
type turn struct {
	from, to float64
	title    string
}

// Chapters writes the turns of the talk as a WebVTT chapters file (W3C WebVTT,
// "chapters" kind), or with Options.Format "lines" as lines of the form
// "3:07 Glaze". The first begins at 0:00, and each lasts at least 10 s. It
// returns ErrNoTimes for a document without moments.
func Chapters(w io.Writer, doc *schema.Document, opt Options) error {
	doc, _, err := opt.check(doc)
	if err != nil {
		return err
	}
	list, err := turns(doc)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	switch opt.Format {
	case "", "vtt":
		b.WriteString("WEBVTT\n")
		for i, t := range list {
			fmt.Fprintf(&b, "\n%d\n%s --> %s\n%s\n", i+1, stamp(t.from), stamp(t.to), cueText(t.title))
		}
	case "lines":
		for _, t := range list {
			fmt.Fprintf(&b, "%s %s\n", clock(t.from), t.title)
		}
	default:
		return fmt.Errorf("chapters as %q: choose vtt or lines", opt.Format)
	}
	_, err = w.Write(b.Bytes())
	return err
}

// turns gives the chapters of a document: those the talk was divided into, or
// else those its parts, ways and storage give.
func turns(doc *schema.Document) ([]turn, error) {
	var list []turn
	for _, c := range doc.Chapters {
		if t, ok := seconds(c.At); ok && clean(c.Title) != "" {
			list = append(list, turn{from: t, title: capital(clean(c.Title))})
		}
	}
	if len(list) == 0 {
		list = derivedTurns(doc)
	}
	last, timed := lastMoment(doc)
	if !timed {
		return nil, fmt.Errorf("%w, so %q has no chapters: use a transcript with times", ErrNoTimes, doc.Title)
	}
	sort.SliceStable(list, func(i, j int) bool { return list[i].from < list[j].from })
	end := last + shortest
	if doc.Source != nil {
		if length, ok := isoSeconds(doc.Source.Length); ok && length > 0 {
			end = math.Max(length, last)
		}
	}
	out := []turn{{from: 0, title: "Introduction"}}
	for _, t := range list {
		now := &out[len(out)-1]
		switch {
		case t.from == 0 || (len(out) == 1 && t.from < shortest):
			now.title = t.title // what begins at once needs no introduction
		case t.from-now.from < shortest, end-t.from < shortest, t.title == now.title:
		default:
			out = append(out, t)
		}
	}
	for i := range out {
		out[i].to = end
		if i+1 < len(out) {
			out[i].to = out[i+1].from
		}
	}
	out[len(out)-1].to = math.Max(end, out[len(out)-1].from+shortest)
	return out, nil
}

// derivedTurns divides the talk by what the document holds: where each part,
// each way, the method and the storage come first.
func derivedTurns(doc *schema.Document) []turn {
	var list []turn
	seen := map[string]bool{}
	add := func(said []schema.Said, title string) {
		if title = capital(clean(title)); title == "" || seen[title] {
			return
		}
		for _, s := range said {
			if t, ok := seconds(s.At); ok {
				seen[title] = true
				list = append(list, turn{from: t, title: title})
				return
			}
		}
	}
	// The earliest step of each part and way.
	order := make([]int, len(doc.Steps))
	for i := range order {
		order[i] = i
	}
	at := func(i int) float64 {
		for _, s := range doc.Steps[i].Said {
			if t, ok := seconds(s.At); ok {
				return t
			}
		}
		return math.Inf(1)
	}
	sort.SliceStable(order, func(i, j int) bool { return at(order[i]) < at(order[j]) })
	for _, i := range order {
		s := doc.Steps[i]
		switch {
		case len(s.Ways) == 1 && len(doc.Ways) > 1:
			add(s.Said, s.Ways[0])
		case s.Part != "":
			add(s.Said, s.Part)
		case len(doc.Parts) == 0:
			add(s.Said, "Method")
		}
	}
	for _, s := range doc.Storage {
		add(s.Said, "Keeping")
	}
	if doc.Macros != nil && doc.Macros.Spoken != nil {
		add(doc.Macros.Spoken.Said, headMacros)
	}
	return list
}

// lastMoment is the latest moment a document names, in seconds.
func lastMoment(doc *schema.Document) (last float64, any bool) {
	for _, t := range moments(doc) {
		last, any = math.Max(last, t), true
	}
	return last, any
}

// moments are all moments a document names, in seconds, in order.
func moments(doc *schema.Document) []float64 {
	var out []float64
	add := func(said []schema.Said) {
		for _, s := range said {
			if t, ok := seconds(s.At); ok {
				out = append(out, t)
			}
		}
	}
	add(doc.YieldSaid)
	for _, c := range doc.Claims {
		add(c.Said)
	}
	for _, i := range doc.Ingredients {
		add(i.Said)
	}
	for _, e := range doc.Equipment {
		add(e.Said)
	}
	for _, s := range doc.Steps {
		add(s.Said)
	}
	for _, s := range doc.Storage {
		add(s.Said)
	}
	for _, c := range doc.Chapters {
		add([]schema.Said{{At: c.At}})
	}
	if doc.Macros != nil && doc.Macros.Spoken != nil {
		add(doc.Macros.Spoken.Said)
	}
	sort.Float64s(out)
	return out
}

// stamp writes a WebVTT timestamp.
func stamp(s float64) string {
	ms := int64(math.Round(s * 1000))
	return fmt.Sprintf("%02d:%02d:%02d.%03d", ms/3600000, ms/60000%60, ms/1000%60, ms%1000)
}

// cueText escapes what WebVTT would read as markup or as a time line.
func cueText(s string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(s)
}

// isoSeconds reads the length of a recording, an ISO 8601 duration of days,
// hours, minutes and seconds.
func isoSeconds(s string) (float64, bool) {
	rest, ok := strings.CutPrefix(s, "P")
	if !ok || rest == "" {
		return 0, false
	}
	total, figure, inTime := 0.0, "", false
	for _, r := range rest {
		switch {
		case r == 'T' && !inTime && figure == "":
			inTime = true
		case r >= '0' && r <= '9' || r == '.':
			figure += string(r)
		default:
			per := map[rune]float64{'H': 3600, 'M': 60, 'S': 1}[r]
			if !inTime {
				per = map[rune]float64{'W': 7 * 86400, 'D': 86400}[r]
			}
			var v float64
			if _, err := fmt.Sscanf(figure, "%g", &v); err != nil || per == 0 {
				return 0, false
			}
			total += v * per
			figure = ""
		}
	}
	return total, figure == ""
}
