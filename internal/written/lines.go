package written

import (
	"regexp"
	"strings"

	"quern/schema"
)

// section is the part of a written recipe that lines stand in.
type section int

const (
	before section = iota // no heading that tells yet
	ingredients
	method
	other
)

// headings are the words of headings and what stands below them. A heading is
// told by the first row whose words are in it.
var headings = []struct {
	words   string
	section section
}{
	{"ingredient", ingredients}, {"what you need", ingredients}, {"you will need", ingredients}, {"you'll need", ingredients}, {"shopping", ingredients},
	{"method", method}, {"direction", method}, {"instruction", method}, {"preparation", method}, {"what to do", method}, {"steps", method},
	{"how to make", method}, {"procedure", method},
	{"note", other}, {"tip", other}, {"equipment", other}, {"tools", other}, {"storage", other}, {"storing", other}, {"keeping", other},
	{"nutrition", other}, {"figures", other}, {"macros", other}, {"allergen", other}, {"take care", other}, {"still to settle", other},
	{"good to know", other}, {"making ahead", other}, {"said of this dish", other}, {"variation", other}, {"serve with", other},
}

var (
	markedHeading = regexp.MustCompile(`^\s{0,3}(#{1,6})\s+(.*?)\s*#*\s*$`)
	boldHeading   = regexp.MustCompile(`^\s*(?:\*\*|__)([^*_]+?):?(?:\*\*|__):?\s*$`)
	underline     = regexp.MustCompile(`^\s{0,3}(=+|-{3,})\s*$`)
	bullet        = regexp.MustCompile(`^\s*(?:[-*+•·▢☐]|\[[ xX]?\])\s+(?:\[[ xX]?\]\s+)?`)
	numbered      = regexp.MustCompile(`^\s*(?:step\s+)?[0-9]{1,3}\s*[.):]\s+|^\s*step\s+[0-9]{1,3}\s*[.:)]?\s*`)
	yieldLine     = regexp.MustCompile(`(?i)^\s*(yield|makes|serves|servings|portions)\b\s*:?\s*(.+?)\.?\s*$`)
	link          = regexp.MustCompile(`!?\[([^\]]*)\]\([^)\s]*\)`)
	emphasis      = regexp.MustCompile(`\*\*|__|\x60`)
)

// heading tells whether a line is a heading, and its words.
func heading(line, next string) (words string, level int, ok bool) {
	if m := markedHeading.FindStringSubmatch(line); m != nil {
		return bare(m[2]), len(m[1]), true
	}
	if m := boldHeading.FindStringSubmatch(line); m != nil {
		return bare(m[1]), 4, true
	}
	text := strings.TrimSpace(line)
	if text == "" || bullet.MatchString(line) {
		return "", 0, false
	}
	if m := underline.FindStringSubmatch(next); m != nil {
		level = 2
		if m[1][0] == '=' {
			level = 1
		}
		return bare(text), level, true
	}
	return "", 0, false
}

// plainHeading is a short line of text that names a section, or ends in a
// colon: a heading in a text without marks.
func plainHeading(line string) (words string, s section, known, ok bool) {
	text := strings.TrimSpace(line)
	if len(text) > 40 || text == "" || bullet.MatchString(line) || numbered.MatchString(line) {
		return "", 0, false, false
	}
	words = strings.TrimSuffix(text, ":")
	s, known = sectionOf(words)
	if known && len(strings.Fields(words)) <= 4 && !strings.ContainsAny(words, ".,;") {
		return words, s, true, true
	}
	return words, 0, false, strings.HasSuffix(text, ":")
}

func sectionOf(words string) (section, bool) {
	folded := strings.ToLower(words)
	for _, h := range headings {
		if strings.Contains(folded, h.words) {
			return h.section, true
		}
	}
	return before, false
}

// bare takes marks of Markdown out of a line.
func bare(text string) string {
	text = link.ReplaceAllString(text, "$1")
	text = emphasis.ReplaceAllString(text, "")
	return strings.Join(strings.Fields(text), " ")
}

// readLines reads Markdown or plain text.
func (r *Recipe) readLines(lines []string) {
	now, part, fenced := before, "", false
	paragraph := false // the last line was a step that the next may go on with
	for i := 0; i < len(lines); i++ {
		line, number := lines[i], i+1
		next := ""
		if i+1 < len(lines) {
			next = lines[i+1]
		}
		text := bare(line)
		if strings.HasPrefix(strings.TrimSpace(line), "```") {
			fenced = !fenced
			continue
		}
		if text == "" || fenced || underline.MatchString(line) {
			paragraph = false
			continue
		}
		if words, level, ok := heading(line, next); ok {
			s, known := sectionOf(words)
			switch {
			case r.Title == "" && (level == 1 || !known):
				r.Title, r.TitleLine = words, number
			case known:
				now, part = s, ""
			case level <= 2:
				now, part = other, ""
			default:
				part = words
			}
			paragraph = false
			continue
		}
		if r.yieldIn(text, number) {
			continue
		}
		if words, s, known, ok := plainHeading(line); ok && (known || now == ingredients || now == method) {
			if known {
				now, part = s, ""
			} else {
				part = words
			}
			paragraph = false
			continue
		}
		listed := bullet.MatchString(line)
		counted := numbered.MatchString(strings.ToLower(line))
		body := bare(bullet.ReplaceAllString(line, ""))
		switch now {
		case ingredients:
			r.ingredient(body, number, part)
		case method:
			r.step(line, number, part, paragraph && !listed && !counted)
			paragraph = true
			continue
		case before:
			if r.Title == "" && !listed && !counted && len(r.Ingredients) == 0 {
				r.Title, r.TitleLine = text, number
				continue
			}
			// A text without headings: what begins with an amount is an ingredient
			// and what is numbered, or a sentence after them, a step.
			if loc := numbered.FindStringIndex(strings.ToLower(body)); counted && loc != nil {
				body = body[loc[1]:]
			}
			ing := Ingredient{}
			if len(body) <= longestLine {
				ing = ReadIngredient(body)
			}
			switch {
			case counted && ing.Amount == nil, len(r.Ingredients) > 0 && strings.HasSuffix(text, ".") && len(strings.Fields(text)) > 4:
				r.step(line, number, part, false)
			case ing.Amount != nil && len(body) <= 120 && !strings.HasSuffix(body, "."), listed && len(r.Steps) == 0:
				r.ingredient(body, number, part)
			}
		}
		paragraph = false
	}
}

// yieldIn reads a line that tells how much is made.
func (r *Recipe) yieldIn(text string, line int) bool {
	m := yieldLine.FindStringSubmatch(bare(bullet.ReplaceAllString(text, "")))
	if m == nil || r.Yield != nil {
		return false
	}
	q, ok := readYield(m[1], m[2])
	if !ok {
		return false
	}
	r.Yield, r.YieldLine, r.YieldText = &q, line, text
	return true
}

// readYield reads "Makes 24 cookies", "Serves 4", "Yield: 1 loaf (12 slices)".
func readYield(word, text string) (schema.Quantity, bool) {
	if len(text) > longestLine {
		return schema.Quantity{}, false
	}
	text, _ = bracketless(text)
	text, _, _ = strings.Cut(text, ",")
	text = strings.TrimSpace(text)
	for _, lead := range []string{"about ", "makes ", "serves ", "yields "} {
		if cut, ok := cutFold(text, lead); ok && lead != "about " {
			word, text = strings.TrimSpace(lead), cut
		}
	}
	text = strings.NewReplacer("–", "-", "—", "-").Replace(text)
	q, err := schema.ParseYield(text)
	if err != nil || q.Vague != "" {
		return schema.Quantity{}, false
	}
	folded := strings.ToLower(word)
	if q.Unit == "" && (folded == "serves" || folded == "servings" || folded == "portions") {
		q.Unit, q.Text = "servings", ""
	}
	return q, true
}

func (r *Recipe) ingredient(text string, line int, part string) {
	text = strings.TrimSpace(text)
	if text == "" || len(text) > longestLine || len(r.Ingredients) == mostIngredients {
		return
	}
	ing := ReadIngredient(text)
	if ing.Name == "" {
		return
	}
	ing.Line, ing.Part = line, part
	r.Ingredients = append(r.Ingredients, ing)
}

func (r *Recipe) step(line string, number int, part string, goesOn bool) {
	text := bare(bullet.ReplaceAllString(line, ""))
	if loc := numbered.FindStringIndex(strings.ToLower(text)); loc != nil && loc[1] < len(text) {
		text = text[loc[1]:]
	}
	if text = strings.TrimSpace(text); text == "" {
		return
	}
	if goesOn && len(r.Steps) > 0 && len(r.Steps[len(r.Steps)-1].Text) < longestStep {
		r.Steps[len(r.Steps)-1].Text += " " + text
		return
	}
	r.Steps = append(r.Steps, Step{Line: number, Text: text, Part: part})
}
