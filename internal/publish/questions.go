package publish

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"

	"quern/schema"
)

// Questions writes the open flags as a sheet to be filled in, in the order of
// the recording, each with its moments, the words said and room for an answer:
// as Markdown, as HTML for print, or as CSV, by Options.Format.
func Questions(w io.Writer, doc *schema.Document, opt Options) error {
	s, err := build(doc, opt, rich)
	if err != nil {
		return err
	}
	switch opt.Format {
	case "", "markdown":
		var b bytes.Buffer
		fmt.Fprintf(&b, "# %s: %s\n\n", md(s.Title), strings.ToLower(headQuestions))
		if len(s.Questions) == 0 {
			b.WriteString("Nothing is open.\n")
		}
		mdQuestions(&b, s.Questions, true)
		_, err = w.Write(bytes.TrimRight(b.Bytes(), "\n"))
		if err == nil {
			_, err = io.WriteString(w, "\n")
		}
		return err
	case "html":
		return questionsPage(w, s)
	case "csv":
		rows := [][]string{{"number", "moment", "kind", "about", "question", "quote", "to go by", "answer"}}
		for _, q := range s.Questions {
			var at, quotes []string
			for _, m := range q.Moment {
				at = append(at, m.Clock)
				quotes = append(quotes, m.Quote)
			}
			rows = append(rows, []string{strconv.Itoa(q.Number), strings.Join(at, " | "), q.Kind, q.Subject, q.Ask, strings.Join(quotes, " | "),
				strings.Join(q.Know, " | "), ""})
		}
		return table(w, rows)
	}
	return fmt.Errorf("questions as %q: choose markdown, html or csv", opt.Format)
}

// CSV writes the ingredients as a table, a row each, for a spreadsheet: amounts
// and grams as plain figures, after scaling.
func CSV(w io.Writer, doc *schema.Document, opt Options) error {
	s, err := build(doc, opt, plain)
	if err != nil {
		return err
	}
	rows := [][]string{{"recipe", "part", "ingredient", "amount", "least", "most", "unit", "second amount", "size", "vague", "to taste", "preparation",
		"optional", "ways", "substitutes", "food", "grams least", "grams most", "rule", "open", "moment", "quote"}}
	yes := func(b bool) string {
		if b {
			return "yes"
		}
		return ""
	}
	exact := func(v float64) string { return strconv.FormatFloat(v, 'f', -1, 64) }
	for _, g := range s.Groups {
		for _, l := range g.Lines {
			ing := l.from
			least, most, unit, grams0, grams1, rule := "", "", "", "", "", ""
			if ing.Amount != nil {
				least, most, unit = exact(ing.Amount.Min), exact(ing.Amount.Max), ing.Amount.Unit
			}
			if ing.Grams != nil {
				grams0, grams1, rule = exact(ing.Grams.Min), exact(ing.Grams.Max), clean(ing.Grams.Rule)
			}
			var instead, at, quotes, open []string
			for _, sub := range ing.Substitutes {
				instead = append(instead, strings.TrimSpace(write(sub.Amount, plain)+" "+clean(sub.Name)))
			}
			for _, m := range l.Moment {
				at = append(at, m.Clock)
				quotes = append(quotes, m.Quote)
			}
			for _, m := range l.Marks {
				open = append(open, m.Text)
			}
			rows = append(rows, []string{s.Title, clean(ing.Part), l.Name, l.Amount, least, most, unit, write(ing.SecondAmount, plain), write(ing.Size, plain),
				clean(ing.Vague), yes(ing.ToTaste), clean(ing.Preparation), yes(ing.Optional), strings.Join(cleaned(ing.Ways), " | "),
				strings.Join(instead, " | "), clean(ing.Food), grams0, grams1, rule, strings.Join(open, " | "), strings.Join(at, " | "), strings.Join(quotes, " | ")})
		}
	}
	return table(w, rows)
}

// table writes CSV as RFC 4180 has it, with one change: a cell a spreadsheet
// would take for a formula gets an apostrophe in front, since the words come
// from a transcript.
func table(w io.Writer, rows [][]string) error {
	var b bytes.Buffer
	out := csv.NewWriter(&b)
	for _, row := range rows {
		for i, cell := range row {
			if cell != "" && strings.ContainsAny(cell[:1], "=+-@") {
				row[i] = "'" + cell
			}
		}
		if err := out.Write(row); err != nil {
			return fmt.Errorf("write table: %w", err)
		}
	}
	out.Flush()
	if err := out.Error(); err != nil {
		return fmt.Errorf("write table: %w", err)
	}
	_, err := w.Write(b.Bytes())
	return err
}
