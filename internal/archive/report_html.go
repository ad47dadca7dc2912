package archive

import (
	"crypto/sha256"
	_ "embed" // for the template, the style sheet and the script
	"encoding/base64"
	"errors"
	"fmt"
	"html/template"
	"io"
	"iter"
	"math"
	"net/url"
	"path"
	"strings"

	"quern/internal/safety"
	"quern/schema"
)

//go:embed report.html.tmpl
var reportSource string

//go:embed report.css
var reportStyle string

//go:embed report.js
var reportScript string

var reportTemplate = template.Must(template.New("report").Parse(reportSource))

// kindWords say what a kind of flag asks for.
var kindWords = map[string]string{
	schema.AmountUnstated:      "amount never said",
	schema.AmountVague:         "amount only in vague words",
	schema.YieldUnstated:       "number of pieces or servings never said",
	schema.TemperatureUnstated: "temperature never said",
	schema.TimeUnstated:        "time never said",
	schema.ConflictAmount:      "two amounts",
	schema.ConflictTemperature: "two temperatures",
	schema.ConflictTime:        "two times",
	schema.ConflictConversion:  "a conversion that doesn't hold",
	schema.ConflictMacros:      "figures that don't fit together",
	schema.ConflictClaim:       "a claim an ingredient breaks",
	schema.ConflictYield:       "two yields",
	schema.ConflictWay:         "two ways that can't both be meant",
	schema.HeardUnsure:         "a word likely misheard",
	schema.FoodUnknown:         "no figures for the food",
	schema.MacrosDiffer:        "figures the amounts don't give",
}

func wordsFor(kind string) string {
	if w := kindWords[kind]; w != "" {
		return w
	}
	return kind
}

// bar is one line of a chart: a number, drawn beside it.
type bar struct {
	Name  string
	Count int
	Note  string
	Width int // of 100
}

func bars(list []bar) []bar {
	most := 0
	for _, b := range list {
		most = max(most, b.Count)
	}
	for i := range list {
		if most > 0 && list[i].Count > 0 {
			list[i].Width = max(1, int(math.Round(100*float64(list[i].Count)/float64(most))))
		}
	}
	return list
}

// htmlReport is what the template is filled with.
type htmlReport struct {
	*Across
	view    *view
	err     error // of reading the rows, which the template can't return
	Policy  string
	Style   template.CSS
	Script  template.JS
	Totals  *Totals
	Kinds   []bar
	Spread  []bar
	Held    []bar
	Judged  string
	From    string
	Columns []string
	Notice  string
	Hours   string
	Failed  []string
	Left    []string
}

// errEnough ends the reading of rows that nobody wants any more.
var errEnough = errors.New("no more rows wanted")

// Rows gives the rows one by one.
func (h *htmlReport) Rows() iter.Seq[*htmlRow] {
	return func(yield func(*htmlRow) bool) {
		err := h.view.rows(func(number int, row *Row) error {
			if !yield(&htmlRow{Row: row, Number: number, report: h}) {
				return errEnough
			}
			return nil
		})
		if err != nil && !errors.Is(err, errEnough) {
			h.err = err
		}
	}
}

// htmlRow is a row with its links and words.
type htmlRow struct {
	*Row
	Number int
	report *htmlReport
}

// Name is the title, or words for none.
func (r *htmlRow) Name() string { return titleOr(r.Title) }

func titleOr(title string) string {
	if strings.TrimSpace(title) == "" {
		return "a recipe without a title"
	}
	return title
}

// Flags counts the open flags.
func (r *htmlRow) Flags() int { return r.open() }

// Kinds are the open flags in words.
func (r *htmlRow) Kinds() []bar {
	var out []bar
	for _, k := range r.Open {
		out = append(out, bar{Name: wordsFor(k.Kind), Count: k.Count})
	}
	return out
}

// Lacks names the components that are not wholly there.
func (r *htmlRow) Lacks() string {
	var out []string
	for _, c := range r.Holds {
		if c.Needs && c.Share < 1 {
			name := c.Name
			if c.Note != "" {
				name += " (" + c.Note + ")"
			}
			out = append(out, name)
		}
	}
	return strings.Join(out, ", ")
}

// Clock is the length as a player shows it.
func (r *htmlRow) Clock() string {
	s := int(r.Length)
	switch {
	case s <= 0:
		return "–"
	case s >= 3600:
		return fmt.Sprintf("%d:%02d:%02d", s/3600, s/60%60, s%60)
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// Seconds is the length for sorting.
func (r *htmlRow) Seconds() int { return int(r.Length) }

// MacrosOrder puts the states of the macros in order.
func (r *htmlRow) MacrosOrder() int {
	switch r.Macros.Worked {
	case "complete":
		return 0
	case "lower bounds":
		return 1 + r.Macros.Missing
	}
	return 1000
}

// Missing tells how many ingredients the figures leave out.
func (r *htmlRow) Missing() string {
	if r.Macros.Missing == 0 {
		return ""
	}
	return plural(r.Macros.Missing, "ingredient not counted", "ingredients not counted")
}

// DifferenceCount counts the differences from the written recipe, -1 without one.
func (r *htmlRow) DifferenceCount() int {
	if r.Written == "" {
		return -1
	}
	return r.differences()
}

// DifferenceKinds are the differences in words.
func (r *htmlRow) DifferenceKinds() []bar {
	var out []bar
	for _, d := range r.Differs {
		out = append(out, bar{Name: differenceWords(d.Kind), Count: d.Count})
	}
	return out
}

// DocumentLink, TranscriptLink and WrittenLink lead to the files.
func (r *htmlRow) DocumentLink() string   { return r.report.DocumentLink(r.Document) }
func (r *htmlRow) TranscriptLink() string { return address(r.report.view.toFolder, r.Path) }
func (r *htmlRow) WrittenLink() string    { return address(r.report.view.toFolder, r.Written) }

// DocumentLink leads to a document.
func (h *htmlReport) DocumentLink(document string) string {
	return address(h.view.toOut, document)
}

// address makes a relative address of a path; "./" keeps a name with a colon
// from being read as a scheme.
func address(to, file string) string {
	u := url.URL{Path: path.Join(to, file)}
	s := u.String()
	if !strings.HasPrefix(s, "../") && !strings.HasPrefix(s, "./") {
		s = "./" + s
	}
	return s
}

// Cells are the row's allergens, one for each column.
func (r *htmlRow) Cells() []string {
	cells := make([]string, len(r.report.Columns))
	for i, name := range r.report.Columns {
		for _, a := range r.Allergens {
			if a.Name == name {
				cells[i] = strings.Join(a.From, ", ")
			}
		}
	}
	return cells
}

// mostListed is how many recordings a list of the page names; the rest are in
// the data.
const mostListed = 40

// Few are the rows of an index entry that the page names.
func (e Entry) Few() []int32 { return e.Rows[:min(len(e.Rows), mostListed)] }

// More is how many it doesn't.
func (e Entry) More() int { return len(e.Rows) - len(e.Few()) }

// Few are the recordings the page names.
func (t Twins) Few() []Ref { return t.Rows[:min(len(t.Rows), mostListed)] }

// More is how many it doesn't.
func (t Twins) More() int { return len(t.Rows) - len(t.Few()) }

// Few are the open questions the page names.
func (u Usual) Few() []Asked { return u.Asked[:min(len(u.Asked), mostListed)] }

// More is how many it doesn't.
func (u Usual) More() int { return len(u.Asked) - len(u.Few()) }

// Few are the recordings the page names.
func (h Heats) Few() []Heated { return h.Rows[:min(len(h.Rows), mostListed)] }

// More is how many it doesn't.
func (h Heats) More() int { return len(h.Rows) - len(h.Few()) }

// Degrees writes the temperatures.
func (h Heated) Degrees() string { return degrees(h.OvenF) + " F" }

// Name is the title, or words for none.
func (r Ref) Name() string { return titleOr(r.Title) }

// Clock is a moment as a player shows it, "" for none.
func (a Asked) Clock() string { return clock(a.At) }

// Clock is a moment as a player shows it, "" for none.
func (k Known) Clock() string { return clock(k.At) }

func clock(at string) string {
	whole, _, _ := strings.Cut(at, ".")
	if whole == "" {
		return ""
	}
	short := strings.TrimLeft(whole, "0:")
	if len(short) < 4 && len(whole) >= 4 {
		short = whole[len(whole)-4:]
	}
	return short
}

// policy is the page's Content-Security-Policy (W3C CSP Level 3): nothing may
// be fetched, and only our own style sheet and script, named by their hashes,
// take effect.
func policy() string {
	source := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	return "default-src 'none'; style-src " + source(reportStyle) + "; script-src " + source(reportScript) + "; base-uri 'none'; form-action 'none'"
}

// writeHTML writes the report as one page that needs nothing else.
func writeHTML(w io.Writer, v *view) error {
	t := &v.totals
	h := &htmlReport{
		Across: v.across, view: v, Policy: policy(), Style: template.CSS(reportStyle), Script: template.JS(reportScript), Totals: t,
		Judged: notJudged, From: componentsSource, Columns: v.columns, Notice: safety.Notice, Failed: v.failures,
	}
	if t.Seconds > 0 {
		h.Hours = fmt.Sprintf("%.1f hours of recordings", t.Seconds/3600)
		if t.Seconds < 7200 {
			h.Hours = plural(int(t.Seconds/60), "minute of recordings", "minutes of recordings")
		}
	}
	for _, k := range t.ByKind {
		h.Kinds = append(h.Kinds, bar{Name: wordsFor(k.Kind), Count: k.Count})
	}
	for i, n := range t.Complete {
		name := fmt.Sprintf("%d–%d %%", 10*i, 10*i+9)
		if i == 9 {
			name = "90–100 %"
		}
		h.Spread = append(h.Spread, bar{Name: name, Count: n})
	}
	for i, n := range t.Holds {
		h.Held = append(h.Held, bar{Name: componentNames[i], Count: n, Note: fmt.Sprintf("%d of %d", n, t.Needs[i])})
	}
	bars(h.Kinds)
	bars(h.Spread)
	for i := range h.Held {
		if t.Needs[i] > 0 {
			h.Held[i].Width = int(math.Round(100 * float64(h.Held[i].Count) / float64(t.Needs[i])))
		}
	}
	for _, l := range v.left {
		file, taken, _ := strings.Cut(l, "\t")
		h.Left = append(h.Left, file+": "+taken+" is taken")
	}
	return errors.Join(reportTemplate.Execute(w, h), h.err)
}
