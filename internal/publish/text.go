package publish

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"quern/schema"
)

// lineWidth is the longest line of a text file, in characters: it fits a
// terminal and a printed page.
const lineWidth = 76

// Text writes a recipe as plain text, in lines of at most 76 characters.
func Text(w io.Writer, doc *schema.Document, opt Options) error {
	s, err := build(doc, opt, plain)
	if err != nil {
		return err
	}
	t := &textPage{}
	title := s.Title
	if s.Way != "" {
		title += " (the " + s.Way + " way)"
	}
	t.para("", title)
	t.line(strings.Repeat("=", min(lineWidth, utf8.RuneCountInString(title))))
	t.line("")
	head := s.Yield
	if s.YieldMark != nil {
		head += bracketed([]mark{*s.YieldMark})
	}
	t.para("", strings.TrimSpace(head))
	for _, l := range s.Warnings {
		t.para("", l)
	}
	for _, row := range s.Times {
		var parts []string
		for _, p := range [][2]string{{"hands-on", row.HandsOn}, {"cooking", row.Cooking}, {"resting", row.Resting}, {"all", row.All}} {
			if p[1] != "" {
				parts = append(parts, p[0]+" "+p[1])
			}
		}
		name := "Times"
		if row.Way != "" {
			name = capital(row.Way)
		}
		t.para("  ", name+": "+strings.Join(parts, ", "))
	}
	if len(s.Times) > 0 {
		t.para("", saysTimes)
	}
	t.heading(headNeed)
	for _, g := range s.Groups {
		if g.Title != "" {
			t.sub(g.Title)
		}
		for _, l := range g.Lines {
			t.item("- ", strings.TrimSpace(strings.TrimSpace(l.Amount+bracketed(l.Marks))+" "+l.Name+l.After))
		}
	}
	if s.Worked {
		t.line("")
		t.para("", saysWorked)
	}
	if len(s.Equipment) > 0 {
		t.heading(headTools)
		t.para("", sentence(strings.Join(s.Equipment, ", ")))
	}
	t.heading(headDo)
	if len(s.Ways) > 0 {
		t.para("", saysWays)
	}
	for _, sec := range s.Sections {
		if sec.Title != "" {
			t.sub(sec.Title)
		}
		if sec.Only != "" {
			t.para("", sec.Only)
		}
		for n, st := range sec.Steps {
			t.item(fmt.Sprintf("%2d. ", n+1), st.Text+bracketed(st.Marks))
		}
	}
	if len(s.Cautions) > 0 {
		t.heading(headCautions)
		for _, c := range s.Cautions {
			source := ""
			if c.Source != "" {
				source = " (" + c.Source + ")"
			}
			t.item("- ", c.Text+source)
		}
	}
	for _, l := range []struct {
		head  string
		lines []string
	}{{headAhead, s.Ahead}, {headKeep, s.Storage}, {headNotes, s.Notes}} {
		if len(l.lines) > 0 {
			t.heading(l.head)
			for _, line := range l.lines {
				t.item("- ", line)
			}
		}
	}
	if m := s.Macros; m != nil {
		t.heading(strings.TrimSpace(headMacros + " " + m.Per))
		if marks := bracketed(m.Marks); marks != "" {
			t.para("", strings.TrimSpace(marks))
		}
		row := func(name, said, worked string) {
			line := fmt.Sprintf("%-20s", name)
			if m.Said {
				line += fmt.Sprintf("  %-12s", said)
			}
			if m.Worked {
				line += "  " + worked
			}
			t.line(strings.TrimRight(line, " "))
		}
		if m.Said || m.Worked {
			row("", "said", strings.TrimSpace("worked out "+m.WorkedPer))
		}
		for _, r := range m.Rows {
			row(r.Name, or(r.Said, "-"), or(r.Worked, "-"))
		}
		for _, n := range m.Notes {
			t.item("- ", n)
		}
	}
	t.heading(headAllergens)
	for _, a := range s.Allergens {
		t.item("- ", a.Name+": "+a.From)
	}
	for _, l := range s.AllergensAt {
		t.item("- ", l)
	}
	if len(s.Allergens) > 0 {
		t.para("", saysAllergens)
	} else {
		t.para("", saysNone)
	}
	if len(s.Claims) > 0 {
		t.heading(headClaims)
		for _, c := range s.Claims {
			at := ""
			if clocks(c.Moment) != "" {
				at = ", " + clocks(c.Moment)
			}
			t.item("- ", `"`+c.Claim+`"`+at+bracketed(c.Marks))
			for _, why := range c.Breaks {
				t.item("    ", why)
			}
		}
		t.para("", saysClaims)
	}
	if len(s.Questions) > 0 {
		t.heading(headQuestions)
		for _, q := range s.Questions {
			t.item(fmt.Sprintf("%2d. ", q.Number), q.Ask)
			for _, m := range q.Moment {
				t.item("    ", strings.TrimSpace(m.Clock+` "`+m.Quote+`"`))
			}
			for _, k := range q.Know {
				t.item("    ", "To go by: "+k)
			}
		}
	}
	t.line("")
	t.para("", s.Notice)
	_, err = w.Write(t.Bytes())
	return err
}

// bracketed writes open questions where their answers would stand.
func bracketed(list []mark) string {
	out := ""
	for _, m := range list {
		out += " (" + m.Text + ")"
	}
	return out
}

// textPage is plain text in the making.
type textPage struct{ bytes.Buffer }

func (t *textPage) line(s string) { t.WriteString(s + "\n") }

func (t *textPage) heading(s string) {
	t.line("")
	t.line(strings.ToUpper(s))
	t.line("")
}

func (t *textPage) sub(s string) { t.item("", s+":") }

// para writes a paragraph; every line of it begins with lead.
func (t *textPage) para(lead, s string) {
	if s != "" {
		t.folded(lead, lead, s)
	}
}

// item writes a paragraph whose first line begins with lead and whose others
// are as far in.
func (t *textPage) item(lead, s string) {
	t.folded(lead, strings.Repeat(" ", len(lead)), s)
}

func (t *textPage) folded(first, rest, s string) {
	line, used := first, 0
	for _, word := range strings.Fields(s) {
		if used > 0 && utf8.RuneCountInString(line)+1+utf8.RuneCountInString(word) > lineWidth {
			t.line(line)
			line, used = rest, 0
		}
		if used > 0 {
			line += " "
		}
		line += word
		used++
	}
	t.line(line)
}
