// Package publish sets a recipe document as something to read: Markdown, plain
// text, one self-contained HTML page, schema.org data, chapters of the
// recording, a sheet of open questions and a table.
//
// Every form is drawn from one sheet (sheet.go), so that they all say the same.
// Nothing here adds a fact. What is missing shows as missing, with the moment
// it should have been said; what is worked out from what was said stands in
// square brackets and is named as worked out.
package publish

import (
	"errors"
	"fmt"
	"io"
	"math"
	"net/url"
	"strings"

	"quern/internal/nutrition"
	"quern/schema"
)

// Options choose what of a document is written, and in which measures. The
// zero value writes everything as it was said.
type Options struct {
	Way       string         // only this way; "" writes every way
	Servings  float64        // pieces or servings wanted, in the unit of the yield; 0 leaves the amounts alone
	Factor    float64        // amounts are multiplied by this; 0 leaves them alone; not together with Servings
	Measures  string         // "" as said, "us", "metric" or "both"
	Own       *nutrition.Own // a person's own foods, for the figures of one way; nil for none
	Recording string         // address of the recording: moments become links; {t} in it stands for the seconds, otherwise #t= is added
	Format    string         // of Chapters: "vtt" (also "") or "lines"; of Questions: "markdown" (also ""), "html" or "csv"
}

// Errors that tell which choice did not fit the document.
var (
	// ErrUnknownWay means that Options.Way names no way of the document.
	ErrUnknownWay = errors.New("no such way")
	// ErrNoYield means that Options.Servings was given for a document that
	// doesn't say how many it makes.
	ErrNoYield = errors.New("the yield is not known")
	// ErrNoTimes means that chapters were asked of a document without moments.
	ErrNoTimes = errors.New("the transcript has no times")
)

// form is one way of writing a document.
type form struct {
	name   string
	ending string // of a file of this form
	write  func(io.Writer, *schema.Document, Options) error
}

func forms() []form {
	return []form{
		{"markdown", ".md", Markdown},
		{"html", ".html", HTML},
		{"jsonld", ".jsonld", JSONLD},
		{"chapters", ".vtt", Chapters},
		{"text", ".txt", Text},
		{"questions", ".md", Questions},
		{"csv", ".csv", CSV},
	}
}

// Forms lists the names Write accepts, in the order they are documented.
func Forms() []string {
	var names []string
	for _, f := range forms() {
		names = append(names, f.name)
	}
	return names
}

// Ending is the file name ending for a form and its Options.Format, with the
// dot; "" for an unknown form.
func Ending(name, format string) string {
	switch {
	case name == "chapters" && format == "lines":
		return ".txt"
	case name == "questions" && (format == "html" || format == "csv"):
		return "." + format
	}
	for _, f := range forms() {
		if f.name == name {
			return f.ending
		}
	}
	return ""
}

// Write writes doc in the named form. It returns an error for a name that
// Forms doesn't list, and whatever the form's own function returns.
func Write(w io.Writer, name string, doc *schema.Document, opt Options) error {
	for _, f := range forms() {
		if f.name == name {
			return f.write(w, doc, opt)
		}
	}
	return fmt.Errorf("%q is no form of a recipe: choose %s", name, strings.Join(Forms(), ", "))
}

// check refuses options that don't fit the document, and gives the document of
// the way asked for and the factor by which its amounts are to be multiplied.
func (o Options) check(doc *schema.Document) (*schema.Document, float64, error) {
	doc, err := oneWay(doc, o)
	if err != nil {
		return nil, 0, err
	}
	switch o.Measures {
	case "", "us", "metric", "both":
	default:
		return nil, 0, fmt.Errorf("measures %q: choose us, metric or both", o.Measures)
	}
	if o.Recording != "" {
		if err := checkRecording(o.Recording); err != nil {
			return nil, 0, err
		}
	}
	factor, err := o.factor(doc)
	return doc, factor, err
}

func (o Options) factor(doc *schema.Document) (float64, error) {
	// From a thousandth to a thousandfold is more than any kitchen needs, and
	// keeps every figure printable.
	const least, most = 0.001, 1000.0
	if o.Factor != 0 && o.Servings != 0 {
		return 0, errors.New("servings and factor both given: choose one")
	}
	factor := 1.0
	switch {
	case o.Factor != 0:
		factor = o.Factor
	case o.Servings != 0:
		if doc.Yield == nil || doc.Yield.Max <= 0 {
			return 0, fmt.Errorf("%w for %q, so %s servings can't be worked out: settle the yield first, or give a factor",
				ErrNoYield, doc.Title, number(o.Servings, plain))
		}
		factor = o.Servings / ((doc.Yield.Min + doc.Yield.Max) / 2)
	}
	if math.IsNaN(factor) || factor < least || factor > most {
		return 0, fmt.Errorf("amounts can be multiplied by %g to %g, not by %g", least, most, factor)
	}
	return factor, nil
}

// checkRecording refuses addresses that are no place to find a recording.
func checkRecording(address string) error {
	u, err := url.Parse(strings.ReplaceAll(address, "{t}", "0"))
	if err != nil {
		return fmt.Errorf("recording address %q: %w", address, err)
	}
	switch strings.ToLower(u.Scheme) {
	case "", "http", "https", "file":
		return nil
	}
	return fmt.Errorf("recording address %q: give an http or https address, or a file's path", address)
}

// link is the address of a moment of the recording, in whole seconds as the
// W3C's Media Fragments URI recommendation writes them (#t=187).
func link(recording string, seconds float64) string {
	t := fmt.Sprintf("%d", int(math.Max(0, math.Floor(seconds))))
	if strings.Contains(recording, "{t}") {
		return strings.ReplaceAll(recording, "{t}", t)
	}
	base, _, _ := strings.Cut(recording, "#")
	return base + "#t=" + t
}
