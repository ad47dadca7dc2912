package publish

import (
	"bytes"
	"fmt"
	"io"
	"strings"
	"unicode"

	"quern/schema"
)

// Markdown writes a recipe as CommonMark with tables. All text from the
// transcript is escaped, so that it reads as it was said and can't become
// markup.
func Markdown(w io.Writer, doc *schema.Document, opt Options) error {
	s, err := build(doc, opt, rich)
	if err != nil {
		return err
	}
	var b bytes.Buffer
	p := func(format string, args ...any) { fmt.Fprintf(&b, format, args...) }
	heading := func(text string) { p("\n## %s\n\n", text) }

	p("# %s\n", md(s.Title))
	if s.Way != "" {
		p("\n*The %s way.*\n", md(s.Way))
	}
	p("\n")
	if s.Yield != "" {
		p("**%s**", md(s.Yield))
	}
	if s.YieldMark != nil {
		if s.Yield != "" {
			p(" ")
		}
		p("%s", mdMarks([]mark{*s.YieldMark}))
	}
	p("\n")
	for _, line := range s.Warnings {
		p("\n> %s\n", md(line))
	}
	if len(s.Times) > 0 {
		p("\n|  | Hands-on | Cooking | Resting | All |\n| --- | --- | --- | --- | --- |\n")
		for _, t := range s.Times {
			name := "Times"
			if t.Way != "" {
				name = capital(t.Way)
			}
			p("| %s | %s | %s | %s | %s |\n", md(name), or(t.HandsOn, "–"), or(t.Cooking, "–"), or(t.Resting, "–"), t.All)
		}
		p("\n%s\n", saysTimes)
	}
	heading(headNeed)
	for i, g := range s.Groups {
		if g.Title != "" {
			if i > 0 {
				p("\n")
			}
			p("### %s\n\n", md(g.Title))
		}
		for _, l := range g.Lines {
			p("- ")
			if l.Amount != "" {
				p("%s ", md(l.Amount))
			}
			if m := strings.TrimSpace(mdMarks(l.Marks)); m != "" {
				p("%s ", m)
			}
			p("%s%s\n", md(l.Name), md(l.After))
		}
	}
	if s.Worked {
		p("\n%s\n", md(saysWorked))
	}
	if len(s.Equipment) > 0 {
		heading(headTools)
		p("%s\n", md(sentence(strings.Join(s.Equipment, ", "))))
	}
	heading(headDo)
	if len(s.Ways) > 0 {
		p("%s\n\n", saysWays)
	}
	for i, sec := range s.Sections {
		if sec.Title != "" {
			if i > 0 {
				p("\n")
			}
			p("### %s\n\n", md(sec.Title))
		}
		if sec.Only != "" {
			p("*%s*\n\n", md(sec.Only))
		}
		for n, st := range sec.Steps {
			p("%d. %s%s%s\n", n+1, md(st.Text), mdMarks(st.Marks), mdLinks(st.Moments))
		}
	}
	if len(s.Cautions) > 0 {
		heading(headCautions)
		for _, c := range s.Cautions {
			p("- %s", md(c.Text))
			if c.Source != "" {
				p(" *(%s)*", md(c.Source))
			}
			p("%s\n", mdLinks(c.Moment))
		}
	}
	list := func(head string, lines []string) {
		if len(lines) == 0 {
			return
		}
		heading(head)
		for _, l := range lines {
			p("- %s\n", md(l))
		}
	}
	list(headAhead, s.Ahead)
	list(headKeep, s.Storage)
	list(headNotes, s.Notes)
	if m := s.Macros; m != nil {
		heading(strings.TrimSpace(headMacros + " " + md(m.Per)))
		if len(m.Marks) > 0 {
			p("%s\n\n", strings.TrimSpace(mdMarks(m.Marks)))
		}
		workedHead := "Worked out"
		if m.WorkedPer != "" {
			workedHead += " " + m.WorkedPer
		}
		switch {
		case m.Said && m.Worked:
			p("|  | Said | %s |\n| --- | --- | --- |\n", md(workedHead))
		case m.Said:
			p("|  | Said |\n| --- | --- |\n")
		case m.Worked:
			p("|  | %s |\n| --- | --- |\n", md(workedHead))
		}
		for _, r := range m.Rows {
			p("| %s |", r.Name)
			if m.Said {
				p(" %s |", md(or(r.Said, "–")))
			}
			if m.Worked {
				p(" %s |", md(or(r.Worked, "–")))
			}
			p("\n")
		}
		if len(m.Rows) > 0 && len(m.Notes) > 0 {
			p("\n")
		}
		for _, n := range m.Notes {
			p("- %s\n", md(n))
		}
	}
	heading(headAllergens)
	for _, a := range s.Allergens {
		p("- **%s**: %s\n", md(a.Name), md(a.From))
	}
	for _, l := range s.AllergensAt {
		p("- %s\n", md(l))
	}
	if len(s.Allergens) > 0 {
		p("\n%s\n", saysAllergens)
	} else {
		if len(s.AllergensAt) > 0 {
			p("\n")
		}
		p("%s\n", saysNone)
	}
	if len(s.Claims) > 0 {
		heading(headClaims)
		for _, c := range s.Claims {
			p("- “%s”%s%s\n", md(c.Claim), mdMoments(c.Moment), mdMarks(c.Marks))
			for _, why := range c.Breaks {
				p("  - %s\n", md(why))
			}
		}
		p("\n%s\n", saysClaims)
	}
	if len(s.Questions) > 0 {
		heading(headQuestions)
		mdQuestions(&b, s.Questions, false)
	}
	p("\n---\n\n%s\n", md(s.Notice))
	_, err = w.Write(b.Bytes())
	return err
}

func or(s, instead string) string {
	if s == "" {
		return instead
	}
	return s
}

// mdQuestions writes open questions as a numbered list, with space to write
// where it's a sheet to be filled in.
func mdQuestions(b *bytes.Buffer, list []question, space bool) {
	for _, q := range list {
		fmt.Fprintf(b, "%d. **%s**\n", q.Number, md(q.Ask))
		for _, m := range q.Moment {
			fmt.Fprintf(b, "   - %s“%s”\n", mdClock(m), md(m.Quote))
		}
		for _, k := range q.Know {
			fmt.Fprintf(b, "   - To go by: %s\n", md(k))
		}
		if space {
			fmt.Fprintf(b, "\n   Answer: %s\n\n", strings.Repeat(`\_`, 40))
		}
	}
}

func mdClock(m moment) string {
	switch {
	case m.Clock == "":
		return ""
	case m.Link != "":
		return "[" + m.Clock + "](<" + mdURL(m.Link) + ">) "
	}
	return m.Clock + " "
}

// mdMarks writes open questions where their answers would stand.
func mdMarks(list []mark) string {
	out := ""
	for _, m := range list {
		text := md(m.Text)
		if len(m.Moment) > 0 && m.Moment[0].Link != "" {
			text = "[" + text + "](<" + mdURL(m.Moment[0].Link) + ">)"
		}
		out += " **(" + text + ")**"
	}
	return out
}

func mdMoments(list []moment) string {
	if clocks(list) == "" {
		return ""
	}
	if list[0].Link != "" {
		return mdLinks(list)
	}
	return ", " + clocks(list)
}

// mdLinks writes moments only where they lead somewhere.
func mdLinks(list []moment) string {
	out, last := "", ""
	for _, m := range list {
		if m.Link != "" && m.Clock != last {
			out += " [" + m.Clock + "](<" + mdURL(m.Link) + ">)"
			last = m.Clock
		}
	}
	return out
}

// mdURL keeps an address inside the angle brackets around it.
func mdURL(s string) string {
	return strings.NewReplacer("<", "%3C", ">", "%3E", `\`, "%5C", "\n", "", "\r", "").Replace(s)
}

// md escapes every character CommonMark could read as markup (its ASCII
// punctuation, CommonMark 0.31 section 2.4), except the ones that have no
// meaning inside a line.
func md(s string) string {
	var b strings.Builder
	for i, r := range s {
		switch {
		case strings.ContainsRune("\\`*_[]<>&|~#$^{}", r):
			b.WriteByte('\\')
		case r == '!' && strings.HasPrefix(s[i:], "!["):
			b.WriteByte('\\')
		case r == ':' && strings.HasPrefix(s[i:], "://"), r == '@':
			b.WriteByte('\\') // some readers turn bare addresses into links
		case (r == '-' || r == '+' || r == '=') && i == 0:
			b.WriteByte('\\')
		case (r == '.' || r == ')') && i > 0 && i <= 9 && strings.TrimFunc(s[:i], unicode.IsDigit) == "" && (i+1 == len(s) || s[i+1] == ' '):
			b.WriteByte('\\')
		case r == '.' && i >= 3 && strings.EqualFold(s[i-3:i], "www"):
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}
