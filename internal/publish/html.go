package publish

import (
	"bytes"
	"crypto/sha256"
	_ "embed" // for the templates, the style sheet and the script
	"encoding/base64"
	"encoding/json"
	"fmt"
	"html/template"
	"io"
	"math"
	"slices"
	"strings"

	"quern/schema"
)

//go:embed page.html.tmpl
var pageSource string

//go:embed questions.html.tmpl
var questionsSource string

//go:embed page.css
var pageStyle string

//go:embed page.js
var pageScript string

var (
	pageTemplate      = template.Must(template.New("page").Parse(pageSource))
	questionsTemplate = template.Must(template.New("questions").Parse(questionsSource))
)

// policy is the page's Content-Security-Policy (W3C CSP Level 3): nothing may
// be fetched, and only our own style sheet and script, named by their hashes,
// take effect.
func policy(script string) string {
	source := func(s string) string {
		sum := sha256.Sum256([]byte(s))
		return "'sha256-" + base64.StdEncoding.EncodeToString(sum[:]) + "'"
	}
	out := "default-src 'none'; style-src " + source(pageStyle)
	if script != "" {
		out += "; script-src " + source(script)
	}
	return out + "; base-uri 'none'; form-action 'none'"
}

// worded is a text that reads otherwise for another number of servings.
type worded struct {
	Text string
	alt  []string // for each choice of the page
}

// page is what the HTML template is filled with.
type page struct {
	*sheet
	Policy     string
	ShortTitle string
	Style      template.CSS
	Script     template.JS
	Data       *ldRecipe
	Choices    []scaleChoice
	YieldAlt   string
	Warning    string
	WarningAlt string
	Groups     []pageGroup
	Sections   []pageSection
	Macros     *pageMacros

	Heads                                                                headings
	SaysTimes, SaysWorked, SaysWays, SaysClaims, SaysAllergens, SaysNone string
}

type headings struct{ Need, Tools, Do, Ahead, Keep, Notes, Macros, Allergens, Cautions, Claims, Questions string }

type pageGroup struct {
	Title string
	Lines []pageLine
}

type pageLine struct {
	Amount *worded // nil where nothing was said
	Name   string
	After  worded
	Marks  []mark
	Moment []moment
}

type pageSection struct {
	Title, Only string
	Steps       []pageStep
}

type pageStep struct {
	ID      string
	Text    worded
	Marks   []mark
	Moments []moment
}

type pageMacros struct {
	*macroTable
	Rows []pageRow
}

type pageRow struct {
	Name, Said string
	Worked     worded
}

// scaleChoice is one number of servings the page can be read for.
type scaleChoice struct {
	Label  string
	Now    bool
	factor float64
}

// Alt is the wordings for each choice as JSON, "" where all are the same.
func (page) Alt(w any) string {
	switch w := w.(type) {
	case worded:
		return alternatives(w.alt)
	case *worded:
		return alternatives(w.alt)
	}
	return ""
}

// One makes a list of one moment.
func (page) One(m moment) []moment { return []moment{m} }

func alternatives(list []string) string {
	if len(list) == 0 || !slices.ContainsFunc(list, func(s string) bool { return s != list[0] }) {
		return ""
	}
	data, err := json.Marshal(list)
	if err != nil {
		return "" // strings always marshal
	}
	return string(data)
}

func allHeadings() headings {
	return headings{headNeed, headTools, headDo, headAhead, headKeep, headNotes, headMacros, headAllergens, headCautions, headClaims, headQuestions}
}

// HTML writes a recipe as one page that needs nothing else: style sheets for
// screen and print, light and dark, structured data, and a small script that
// lets the amounts be read for another number of servings. Without the script
// the page is whole, and shows the amounts asked for.
func HTML(w io.Writer, doc *schema.Document, opt Options) error {
	doc, factor, err := opt.check(doc)
	if err != nil {
		return err
	}
	s := draw(doc, opt, rich, factor)
	choices, sheets := scaleChoices(doc, opt, factor)
	p := page{
		sheet: s, Policy: policy(pageScript), ShortTitle: tabTitle(s.Title), Style: template.CSS(pageStyle), Script: template.JS(pageScript), Data: structured(doc, s, opt),
		Choices: choices, Warning: strings.Join(s.Warnings, " "),
		Heads: allHeadings(), SaysTimes: saysTimes, SaysWorked: saysWorked, SaysWays: saysWays, SaysClaims: saysClaims,
		SaysAllergens: saysAllergens, SaysNone: saysNone,
	}
	for i := range p.sheet.Times {
		p.sheet.Times[i].Way = capital(p.sheet.Times[i].Way)
	}
	each := func(get func(*sheet) string) worded {
		out := worded{Text: get(s)}
		for _, other := range sheets {
			out.alt = append(out.alt, get(other))
		}
		return out
	}
	p.YieldAlt = alternatives(each(func(s *sheet) string { return s.Yield }).alt)
	p.WarningAlt = alternatives(each(func(s *sheet) string { return strings.Join(s.Warnings, " ") }).alt)
	for i, g := range s.Groups {
		out := pageGroup{Title: g.Title}
		for j, l := range g.Lines {
			line := pageLine{Name: l.Name, Marks: l.Marks, Moment: l.Moment, After: each(func(s *sheet) string { return s.Groups[i].Lines[j].After })}
			if len(line.Moment) > 1 {
				line.Moment = line.Moment[:1] // the first is the one to look up
			}
			if l.Amount != "" {
				amount := each(func(s *sheet) string { return s.Groups[i].Lines[j].Amount })
				line.Amount = &amount
			}
			out.Lines = append(out.Lines, line)
		}
		p.Groups = append(p.Groups, out)
	}
	for i, sec := range s.Sections {
		out := pageSection{Title: sec.Title, Only: sec.Only}
		for j, st := range sec.Steps {
			out.Steps = append(out.Steps, pageStep{ID: st.ID, Marks: st.Marks, Moments: st.Moments,
				Text: each(func(s *sheet) string { return s.Sections[i].Steps[j].Text })})
		}
		p.Sections = append(p.Sections, out)
	}
	if s.Macros != nil {
		p.Macros = &pageMacros{macroTable: s.Macros}
		for i, r := range s.Macros.Rows {
			p.Macros.Rows = append(p.Macros.Rows, pageRow{Name: r.Name, Said: r.Said, Worked: each(func(s *sheet) string { return s.Macros.Rows[i].Worked })})
		}
	}
	return fill(w, pageTemplate, p)
}

// tabTitle cuts a title to what search results and tabs show, 70 characters of
// source.
func tabTitle(title string) string {
	n := 64
	for n > 8 && len([]rune(template.HTMLEscapeString(short(title, n)))) > 70 {
		n -= 4
	}
	return short(title, n)
}

func fill(w io.Writer, t *template.Template, data any) error {
	var b bytes.Buffer
	if err := t.Execute(&b, data); err != nil {
		return fmt.Errorf("set the page: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}

// questionsPage writes the sheet of questions for print.
func questionsPage(w io.Writer, s *sheet) error {
	return fill(w, questionsTemplate, page{
		sheet: s, Policy: policy(""), ShortTitle: tabTitle("Questions: " + s.Title), Style: template.CSS(pageStyle), Heads: allHeadings(),
	})
}

// scaleChoices are the numbers of servings a page offers, and the sheet for
// each: round numbers from a quarter to four times the yield, or else simple
// multiples.
func scaleChoices(doc *schema.Document, opt Options, factor float64) ([]scaleChoice, []*sheet) {
	if !slices.ContainsFunc(doc.Ingredients, func(i schema.Ingredient) bool { return i.Amount != nil }) {
		return nil, nil // there is nothing to scale
	}
	var factors []float64
	y := doc.Yield
	counted := y != nil && y.Min == y.Max && y.Min >= 1 && y.Min == math.Trunc(y.Min)
	if counted {
		offer := []float64{y.Min / 4, y.Min / 2, y.Min * 3 / 4, y.Min * 3 / 2, y.Min * 2, y.Min * 3, y.Min * 4}
		offer = append(offer, 1, 2, 3, 4, 5, 6, 8, 10, 12, 18, 20, 24, 30, 36, 40, 48, 60)
		slices.Sort(offer)
		for i, n := range offer {
			if n >= y.Min/4 && n <= y.Min*4 && n == math.Trunc(n) && (i == 0 || n != offer[i-1]) && n != y.Min {
				factors = append(factors, n/y.Min)
			}
		}
	} else {
		factors = []float64{0.5, 1, 1.5, 2, 3}
	}
	for _, f := range []float64{1, factor} {
		if !slices.ContainsFunc(factors, func(have float64) bool { return near(have, f, 1e-9) }) {
			factors = append(factors, f)
		}
	}
	slices.Sort(factors)
	var choices []scaleChoice
	var sheets []*sheet
	for _, f := range factors {
		if near(f, 1, 1e-9) {
			f = 1
		}
		each := opt
		each.Servings, each.Factor = 0, f
		if counted {
			each.Servings = f * y.Min
			each.Factor = 0
		}
		if near(f, factor, 1e-9) {
			each.Servings, each.Factor = opt.Servings, opt.Factor
		}
		s, _ := measured(doc, each, rich, f)
		label := strings.TrimPrefix(s.Yield, "Makes ")
		if rest, ok := strings.CutPrefix(label, "Serves "); ok {
			label = rest + " servings"
			if rest == "1" {
				label = "1 serving"
			}
		}
		if !counted {
			label = map[float64]string{0.5: "half", 1: "the amount said", 1.5: "1½ times", 2: "twice", 3: "three times"}[f]
			if label == "" {
				label = number(f, rich) + " times"
			}
		}
		choices = append(choices, scaleChoice{Label: label, Now: near(f, factor, 1e-9), factor: f})
		sheets = append(sheets, s)
	}
	return choices, sheets
}
