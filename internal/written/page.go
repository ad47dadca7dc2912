package written

import (
	"encoding/json"
	"html"
	"strings"
	"unicode"
)

// isPage tells a saved page from text.
func isPage(text string) bool {
	head := strings.ToLower(text[:min(len(text), 4096)])
	return strings.Contains(head, "<!doctype html") || strings.Contains(head, "<html") || strings.Contains(head, "<head") ||
		strings.Contains(head, "<script") || strings.Contains(head, "itemscope")
}

// readPage reads the schema.org Recipe of a page: linked data in a script, or
// marks on the page's own elements. It tells whether there was one.
func (r *Recipe) readPage(text string) bool {
	p := &pageReader{recipe: r, text: text, line: 1}
	var scripts []span
	p.walk(func(s span) { scripts = append(scripts, s) })
	for _, s := range scripts {
		var value any
		if err := json.Unmarshal([]byte(s.text), &value); err != nil {
			continue // a script that is no JSON carries no recipe
		}
		if found := recipeIn(value, 0); found != nil {
			*r = Recipe{Name: r.Name}
			r.fromData(found, finder{text: s.text, line: s.line})
			return true
		}
	}
	p.finish()
	return p.scope
}

// span is a run of text with the line it begins on.
type span struct {
	text string
	line int
}

// maxDepth bounds how deep data in a page is looked through.
const maxDepth = 24

// recipeIn finds the first object of type Recipe in data.
func recipeIn(value any, depth int) map[string]any {
	if depth > maxDepth {
		return nil
	}
	switch v := value.(type) {
	case []any:
		for _, x := range v {
			if found := recipeIn(x, depth+1); found != nil {
				return found
			}
		}
	case map[string]any:
		if isType(v["@type"], "Recipe") {
			return v
		}
		for _, key := range []string{"@graph", "mainEntity", "mainEntityOfPage", "itemListElement", "item"} {
			if found := recipeIn(v[key], depth+1); found != nil {
				return found
			}
		}
	}
	return nil
}

func isType(value any, name string) bool {
	for _, t := range texts(value) {
		t = strings.TrimPrefix(strings.TrimPrefix(t, "http://schema.org/"), "https://schema.org/")
		if t == name {
			return true
		}
	}
	return false
}

// texts gives a text, a number, or a list of them, as texts.
func texts(value any) []string {
	switch v := value.(type) {
	case string:
		return []string{v}
	case float64:
		data, err := json.Marshal(v)
		if err != nil {
			return nil
		}
		return []string{string(data)}
	case []any:
		var out []string
		for _, x := range v {
			if _, list := x.([]any); !list {
				out = append(out, texts(x)...)
			}
		}
		return out
	}
	return nil
}

// finder finds the line of a text of the data, looking on from the one before.
type finder struct {
	text string
	line int // of the beginning of text
	at   int
	seen int // lines before at
}

func (f *finder) lineOf(s string) int {
	data, err := json.Marshal(s)
	if err != nil {
		return f.line
	}
	for _, form := range []string{`"` + s + `"`, string(data)} {
		if i := strings.Index(f.text[f.at:], form); i >= 0 {
			f.seen += strings.Count(f.text[f.at:f.at+i], "\n")
			f.at += i
			break
		}
	}
	return f.line + f.seen
}

func (r *Recipe) fromData(data map[string]any, f finder) {
	for _, t := range texts(data["name"]) {
		at := f
		r.Title, r.TitleLine = visible(t), at.lineOf(t)
		break
	}
	for _, t := range texts(data["recipeYield"]) {
		at := f
		if q, ok := readYield("", visible(t)); ok && r.Yield == nil || ok && r.Yield.Unit == "" && q.Unit != "" {
			r.Yield, r.YieldLine, r.YieldText = &q, at.lineOf(t), visible(t)
		}
	}
	at := f
	list := texts(data["recipeIngredient"])
	if len(list) == 0 {
		list = texts(data["ingredients"])
	}
	for _, t := range list {
		r.ingredient(visible(t), at.lineOf(t), "")
	}
	at = f
	r.steps(data["recipeInstructions"], "", &at, 0)
}

// steps reads instructions: texts, steps, or sections of steps.
func (r *Recipe) steps(value any, part string, f *finder, depth int) {
	if depth > maxDepth {
		return
	}
	switch v := value.(type) {
	case string:
		line := f.lineOf(v)
		for _, t := range strings.Split(strings.NewReplacer("<br>", "\n", "<br/>", "\n", "<br />", "\n", "</p>", "\n", "</li>", "\n").Replace(v), "\n") {
			if t = visible(t); t != "" {
				r.step(t, line, part, false)
			}
		}
	case []any:
		for _, x := range v {
			r.steps(x, part, f, depth+1)
		}
	case map[string]any:
		if list, ok := v["itemListElement"]; ok {
			if isType(v["@type"], "HowToSection") {
				part = visible(strings.Join(texts(v["name"]), " "))
			}
			r.steps(list, part, f, depth+1)
			return
		}
		for _, key := range []string{"text", "name"} {
			if t := texts(v[key]); len(t) > 0 {
				r.steps(t[0], part, f, depth+1)
				return
			}
		}
	}
}

// visible gives a text as a reader of the page sees it.
func visible(text string) string {
	var b strings.Builder
	for text != "" {
		i := strings.IndexByte(text, '<')
		if i < 0 || i+1 < len(text) && !unicode.IsLetter(rune(text[i+1])) && text[i+1] != '/' && text[i+1] != '!' {
			if i < 0 {
				i = len(text) - 1
			}
			b.WriteString(text[:i+1])
			text = text[i+1:]
			continue
		}
		b.WriteString(text[:i] + " ")
		end := strings.IndexByte(text[i:], '>')
		if end < 0 {
			break
		}
		text = text[i+end+1:]
	}
	return strings.Join(strings.Fields(html.UnescapeString(b.String())), " ")
}

// pageReader walks the tags of a page for marks on its elements: itemprop
// inside an itemscope of type Recipe.
type pageReader struct {
	recipe *Recipe
	text   string
	at     int
	line   int
	scope  bool // a Recipe was met
	inside int  // depth of the Recipe's element, 0 outside
	open   []element
	taken  []taken
}

type element struct {
	name string
	prop int // index in taken, -1 for none
}

type taken struct {
	prop string
	line int
	text []byte
}

// empty are the elements without content (HTML, void elements).
var empty = map[string]bool{
	"area": true, "base": true, "br": true, "col": true, "embed": true, "hr": true, "img": true, "input": true, "link": true, "meta": true, "source": true,
	"track": true, "wbr": true,
}

// closesItself are the elements that end where the next of the same name
// begins (HTML, optional tags).
var closesItself = map[string]bool{"dd": true, "dt": true, "li": true, "option": true, "p": true, "td": true, "th": true, "tr": true}

// maxOpen bounds how deep elements nest; what is deeper is passed over.
const maxOpen = 512

// walk goes through the page once. script is called with each block of linked
// data.
func (p *pageReader) walk(script func(span)) {
	for p.at < len(p.text) {
		i := strings.IndexByte(p.text[p.at:], '<')
		if i < 0 {
			p.content(p.text[p.at:])
			break
		}
		p.content(p.text[p.at : p.at+i])
		p.move(i)
		rest := p.text[p.at:]
		if strings.HasPrefix(rest, "<!--") {
			end := strings.Index(rest, "-->")
			if end < 0 {
				break
			}
			p.move(end + 3)
			continue
		}
		name, attributes, length := tag(rest)
		if length < 0 {
			break // the file ends inside a tag
		}
		if length == 0 {
			p.content("<")
			p.move(1)
			continue
		}
		p.move(length)
		if name == "script" || name == "style" || name == "template" {
			body := p.text[p.at:]
			end := indexFold(body, "</"+name)
			if end < 0 {
				break
			}
			if kind := strings.ToLower(attributes["type"]); name == "script" && strings.HasPrefix(strings.TrimSpace(kind), "application/ld+json") {
				script(span{body[:end], p.line})
			}
			p.move(end)
			continue
		}
		p.element(name, attributes)
	}
}

func (p *pageReader) move(n int) {
	p.line += strings.Count(p.text[p.at:p.at+n], "\n")
	p.at += n
}

// content adds text to every marked element it stands in.
func (p *pageReader) content(text string) {
	if p.inside == 0 || text == "" {
		return
	}
	for i := len(p.open) - 1; i >= 0; i-- {
		if n := p.open[i].prop; n >= 0 {
			p.taken[n].text = append(p.taken[n].text, text...)
			return // the innermost mark has it
		}
	}
}

func (p *pageReader) element(name string, attributes map[string]string) {
	if strings.HasPrefix(name, "/") {
		for i := len(p.open) - 1; i >= 0; i-- {
			if p.open[i].name == name[1:] {
				p.open = p.open[:i]
				if len(p.open) < p.inside {
					p.inside = 0
				}
				return
			}
		}
		return
	}
	if top := len(p.open) - 1; top >= 0 && closesItself[name] && p.open[top].name == name && len(p.open) > p.inside {
		p.open = p.open[:top]
	}
	if p.inside > 0 && (name == "br" || name == "p" || name == "li" || name == "div") {
		p.content("\n")
	}
	if _, scoped := attributes["itemscope"]; scoped && !p.scope && strings.HasSuffix(strings.TrimSpace(attributes["itemtype"]), "schema.org/Recipe") {
		p.scope, p.inside = true, len(p.open)+1
	}
	prop := -1
	if mark := strings.TrimSpace(attributes["itemprop"]); mark != "" && p.inside > 0 {
		prop = len(p.taken)
		p.taken = append(p.taken, taken{prop: mark, line: p.line})
		if v, ok := attributes["content"]; ok {
			p.taken[prop].text = append(p.taken[prop].text, v...)
		}
	}
	if !empty[name] && len(p.open) < maxOpen {
		p.open = append(p.open, element{name, prop})
	}
}

// finish makes a recipe of the marks.
func (p *pageReader) finish() {
	r := p.recipe
	for i := range p.taken {
		t := &p.taken[i]
		text := visible(string(t.text))
		if text == "" {
			continue
		}
		switch t.prop {
		case "name":
			if r.Title == "" {
				r.Title, r.TitleLine = text, t.line
			}
		case "recipeYield", "yield":
			if q, ok := readYield("", text); ok && r.Yield == nil {
				r.Yield, r.YieldLine, r.YieldText = &q, t.line, text
			}
		case "recipeIngredient", "ingredients":
			r.ingredient(text, t.line, "")
		case "recipeInstructions", "text", "itemListElement":
			for _, part := range strings.Split(string(t.text), "\n") {
				if part = visible(part); part != "" {
					r.step(part, t.line, "", false)
				}
			}
		}
	}
}

// tag reads a tag at the beginning of a text: its name in small letters (with
// a stroke before it when it ends an element), attributes and length in bytes.
// The length is 0 where no tag begins and -1 where it has no end.
func tag(text string) (name string, attributes map[string]string, length int) {
	i := 1
	for i < len(text) && (text[i] == '/' && i == 1 || text[i] == '!' && i == 1 || isNameByte(text[i])) {
		i++
	}
	if i < 2 || i == 2 && text[1] == '/' {
		return "", nil, 0
	}
	name = strings.ToLower(text[1:i])
	attributes = map[string]string{}
	for i < len(text) {
		switch {
		case text[i] == '>':
			return name, attributes, i + 1
		case text[i] == '/' || text[i] <= ' ':
			i++
		default:
			start := i
			for i < len(text) && text[i] > ' ' && text[i] != '=' && text[i] != '>' && text[i] != '/' {
				i++
			}
			if i == start { // a stray mark
				i++
				continue
			}
			key := strings.ToLower(text[start:i])
			for i < len(text) && text[i] <= ' ' {
				i++
			}
			if i >= len(text) || text[i] != '=' {
				attributes[key] = ""
				continue
			}
			i++
			for i < len(text) && text[i] <= ' ' {
				i++
			}
			if i < len(text) && (text[i] == '"' || text[i] == '\'') {
				end := strings.IndexByte(text[i+1:], text[i])
				if end < 0 {
					return "", nil, -1
				}
				attributes[key] = html.UnescapeString(text[i+1 : i+1+end])
				i += end + 2
				continue
			}
			start = i
			for i < len(text) && text[i] > ' ' && text[i] != '>' {
				i++
			}
			attributes[key] = html.UnescapeString(text[start:i])
		}
	}
	return "", nil, -1
}

func isNameByte(c byte) bool {
	return c >= 'a' && c <= 'z' || c >= 'A' && c <= 'Z' || c >= '0' && c <= '9' || c == '-' || c == ':'
}

// indexFold finds an ASCII text whatever the letters' case.
func indexFold(text, want string) int {
	for at := 0; ; {
		i := strings.Index(text[at:], want[:2])
		if i < 0 {
			return -1
		}
		at += i
		if len(text)-at < len(want) {
			return -1
		}
		if strings.EqualFold(text[at:at+len(want)], want) {
			return at
		}
		at += 2
	}
}
