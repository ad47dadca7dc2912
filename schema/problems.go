package schema

import (
	"fmt"
	"reflect"
	"sort"
	"strconv"
	"strings"
)

// Problem is one place where a document doesn't fit the form.
type Problem struct {
	File     string // as given
	Line     int    // from 1; 0 when unknown
	Field    string // path of keys and list positions from 0: ingredients[2].amount; "" for the whole document
	Found    string // what stands there
	Accepted string // what can stand there
}

// String writes the problem in one line: where, what was found, what is
// accepted.
func (p Problem) String() string {
	var b strings.Builder
	b.WriteString(p.File)
	if p.Line > 0 {
		b.WriteString(":" + strconv.Itoa(p.Line))
	}
	b.WriteString(": ")
	if p.Field != "" {
		b.WriteString(p.Field + ": ")
	}
	b.WriteString("found " + p.Found)
	if p.Accepted != "" {
		b.WriteString("; accepted: " + p.Accepted)
	}
	return b.String()
}

// Validate checks every document in data, YAML or JSON, against the form: the
// JSON Schema, and what a schema cannot say (every id once, every name listed,
// quantities that read and fit their field). Problems are in order of line;
// none means that the data fits.
func Validate(name string, data []byte) []Problem {
	nodes, err := parseNodes(name, data)
	if err != nil {
		return []Problem{syntaxProblem(name, err)}
	}
	var problems []Problem
	for i, node := range nodes {
		c := newChecker(name, i, len(nodes))
		if doc := c.document(node); doc != nil {
			c.meaning(doc)
		}
		problems = append(problems, c.sorted()...)
	}
	return problems
}

func syntaxProblem(name string, err error) Problem {
	text := strings.TrimPrefix(err.Error(), name)
	p := Problem{File: name, Accepted: "a recipe document in YAML or JSON"}
	where, reason, ok := strings.Cut(text, ": ")
	if ok {
		p.Line, _ = strconv.Atoi(strings.TrimPrefix(where, ":"))
		text = reason
	}
	p.Found = strings.TrimPrefix(text, ErrSyntax.Error()+": ")
	return p
}

// checker gathers the problems of one document.
type checker struct {
	file     string
	prefix   string                  // "document 2, " where the file holds several
	lines    map[string]int          // line of each path
	types    map[string]reflect.Type // Go type wanted at each path
	problems []Problem
}

func newChecker(file string, index, of int) *checker {
	c := &checker{file: file, lines: map[string]int{}, types: map[string]reflect.Type{}}
	if of > 1 {
		c.prefix = fmt.Sprintf("document %d", index+1)
	}
	return c
}

func (c *checker) add(p Problem) {
	p.File = c.file
	switch {
	case c.prefix != "" && p.Field != "":
		p.Field = c.prefix + ", " + p.Field
	case c.prefix != "":
		p.Field = c.prefix
	}
	c.problems = append(c.problems, p)
}

// addAt adds a problem at a path given as keys.
func (c *checker) addAt(found, accepted string, path ...string) {
	full := strings.Join(path, pathSeparator)
	c.add(Problem{Line: c.lineOf(full), Field: plainPath(full), Found: found, Accepted: accepted})
}

// lineOf gives the line of a path, or of the nearest place around it.
func (c *checker) lineOf(path string) int {
	for {
		if line, ok := c.lines[path]; ok {
			return line
		}
		cut := strings.LastIndex(path, pathSeparator)
		if cut < 0 {
			return c.lines[""]
		}
		path = path[:cut]
	}
}

// sorted gives the problems in order of line, then field.
func (c *checker) sorted() []Problem {
	sort.SliceStable(c.problems, func(i, j int) bool {
		a, b := c.problems[i], c.problems[j]
		if a.Line != b.Line {
			return a.Line < b.Line
		}
		return a.Field < b.Field
	})
	return c.problems
}

// describe puts a violation of the schema into words.
func (c *checker) describe(v violation) Problem {
	at := join(v.path, v.property)
	if v.property == "" {
		at = v.path
	}
	p := Problem{Line: c.lineOf(at), Field: plainPath(at)}
	switch v.kind {
	case missingKey:
		p.Found = "nothing; the key is missing"
		p.Accepted = c.acceptedAt(v.path, v.property)
	case unknownKey:
		p.Found = fmt.Sprintf("the unknown key %q", v.property)
		p.Accepted = c.acceptedKeys(v.path, v.property)
	case notAllowed:
		p.Found = shown(v.found)
		p.Accepted = strings.Join(v.allowed, ", ")
		if v.path == "recipe" {
			p.Accepted = fmt.Sprintf("%d, the version of the form that is read here", Version)
		}
	default:
		p.Found = shown(v.found)
		p.Accepted = c.acceptedAt(v.path, "")
		if p.Accepted == acceptedText && v.found == `""` {
			p.Accepted = "text that isn't empty"
		}
	}
	return p
}

// shown writes a value in a message, in one line and not too long.
func shown(json string) string {
	switch {
	case json == "null":
		return "nothing (null)"
	case strings.HasPrefix(json, "{"):
		return "a mapping of keys"
	case strings.HasPrefix(json, "["):
		return "a list"
	}
	return shorten(json)
}

const acceptedTimestamp = `a timestamp hh:mm:ss.mmm ("00:03:07.000")`

const acceptedText = "text"

// acceptedByKey says what can stand at a key, by the last key of the path,
// where the type alone says too little.
var acceptedByKey = map[string]string{
	"at":       acceptedTimestamp + ", or null where there are no times",
	"id":       `a short name without spaces, once in the document ("rolled-oats")`,
	"sha256":   "64 hexadecimal digits",
	"length":   `an ISO 8601 duration ("PT10M4S")`,
	"quote":    "the words as spoken",
	"recipe":   "1, the version of the form",
	"complete": "true or false",
}

// acceptedAt says what can stand at a key of the mapping at path, or at path
// itself.
func (c *checker) acceptedAt(path, key string) string {
	t := c.types[path]
	last := path[strings.LastIndex(path, pathSeparator)+1:]
	if key != "" && t != nil && t.Kind() == reflect.Struct {
		last = key
		f, ok := fieldOf(t, key)
		if !ok {
			return ""
		}
		t = f.typ
	}
	switch {
	case last == "at" && strings.HasPrefix(path, "chapters"):
		return acceptedTimestamp
	case acceptedByKey[last] != "":
		return acceptedByKey[last]
	}
	return acceptedType(t, last)
}

func acceptedType(t reflect.Type, key string) string {
	if t == nil {
		return ""
	}
	for t.Kind() == reflect.Pointer {
		t = t.Elem()
	}
	switch {
	case t == quantityType && key == "yield":
		return AcceptedYield
	case t == quantityType:
		return AcceptedQuantity
	}
	switch t.Kind() {
	case reflect.String:
		return acceptedText
	case reflect.Bool:
		return "true or false"
	case reflect.Float64, reflect.Int:
		return "a number"
	case reflect.Slice:
		switch t.Elem().Kind() {
		case reflect.String:
			return "a list of text"
		case reflect.Struct:
			if t.Elem() != quantityType {
				return "a list of mappings, each with the keys " + strings.Join(keyNames(t.Elem()), ", ")
			}
		}
		return "a list, each of its entries " + acceptedType(t.Elem(), key)
	case reflect.Struct:
		return "a mapping with the keys " + strings.Join(keyNames(t), ", ")
	}
	return ""
}

func keyNames(t reflect.Type) []string {
	var names []string
	for _, f := range keysOf(t) {
		names = append(names, f.key)
	}
	return names
}

// acceptedKeys says which keys a mapping has, the likeliest meant first.
func (c *checker) acceptedKeys(path, wrong string) string {
	t := c.types[path]
	if t == nil || t.Kind() != reflect.Struct {
		return ""
	}
	best, bestGap := "", 3
	keys := keyNames(t)
	for _, key := range keys {
		if gap := editGap(strings.ToLower(wrong), key); gap < bestGap {
			best, bestGap = key, gap
		}
	}
	list := "one of " + strings.Join(keys, ", ")
	if best != "" {
		return fmt.Sprintf("%s is the nearest; %s", best, list)
	}
	return list
}

// editGap counts the letters to add, drop or change between two short words; a
// word far longer than any key is far from all.
func editGap(a, b string) int {
	const far = 99
	if len(a) > 40 {
		return far
	}
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := 1; i <= len(a); i++ {
		diagonal := row[0]
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := diagonal
			if a[i-1] != b[j-1] {
				cost++
			}
			diagonal = row[j]
			row[j] = min(cost, row[j]+1, row[j-1]+1)
		}
	}
	return row[len(b)]
}

// meaning checks what a schema cannot say.
func (c *checker) meaning(doc *Document) {
	parts, ways := map[string]bool{}, map[string]bool{}
	var partNames, wayNames []string
	for i, p := range doc.Parts {
		if parts[p.Name] {
			c.addAt(strconv.Quote(p.Name)+" a second time", "each part once", "parts", strconv.Itoa(i), "name")
		}
		if !parts[p.Name] {
			partNames = append(partNames, p.Name)
		}
		parts[p.Name] = true
	}
	for i, w := range doc.Ways {
		if ways[w.Name] {
			c.addAt(strconv.Quote(w.Name)+" a second time", "each way once", "ways", strconv.Itoa(i), "name")
		}
		if !ways[w.Name] {
			wayNames = append(wayNames, w.Name)
		}
		ways[w.Name] = true
	}
	listed := func(known map[string]bool, names []string, kind, name string, path ...string) {
		if name == "" || known[name] {
			return
		}
		accepted := "none: no " + kind + " are listed in the document"
		if len(names) > 0 {
			accepted = "one of the " + kind + " listed: " + strings.Join(names, ", ")
		}
		c.addAt(strconv.Quote(name)+", which is not among the "+kind, accepted, path...)
	}
	ids := map[string]bool{}
	var idNames []string
	for i, ing := range doc.Ingredients {
		at := []string{"ingredients", strconv.Itoa(i)}
		if ids[ing.ID] {
			c.addAt(strconv.Quote(ing.ID)+" a second time", "each id once", append(at, "id")...)
		}
		if !ids[ing.ID] {
			idNames = append(idNames, ing.ID)
		}
		ids[ing.ID] = true
		listed(parts, partNames, "parts", ing.Part, append(at, "part")...)
		for j, w := range ing.Ways {
			listed(ways, wayNames, "ways", w, append(at, "ways", strconv.Itoa(j))...)
		}
		c.fits(ing.Amount, amountFit, append(at, "amount")...)
		c.fits(ing.SecondAmount, amountFit, append(at, "second_amount")...)
		c.fits(ing.Size, measureFit, append(at, "size")...)
		for j, s := range ing.Substitutes {
			c.fits(s.Amount, amountFit, append(at, "substitutes", strconv.Itoa(j), "amount")...)
		}
		if ing.Grams != nil && ing.Grams.Min > ing.Grams.Max {
			c.addAt("min above max", "min at most max, in grams", append(at, "grams")...)
		}
	}
	for i, step := range doc.Steps {
		at := []string{"steps", strconv.Itoa(i)}
		for j, id := range step.Uses {
			listed(ids, idNames, "ingredient ids", id, append(at, "uses", strconv.Itoa(j))...)
		}
		listed(parts, partNames, "parts", step.Part, append(at, "part")...)
		for j, w := range step.Ways {
			listed(ways, wayNames, "ways", w, append(at, "ways", strconv.Itoa(j))...)
		}
		for j := range step.Temperature {
			c.fits(&step.Temperature[j], temperatureFit, append(at, "temperature", strconv.Itoa(j))...)
		}
		for j := range step.Time {
			c.fits(&step.Time[j], timeFit, append(at, "time", strconv.Itoa(j))...)
		}
		for j := range step.Sizes {
			c.fits(&step.Sizes[j], sizeFit, append(at, "sizes", strconv.Itoa(j))...)
		}
	}
	for i := range doc.Storage {
		c.fits(doc.Storage[i].Keeps, timeFit, "storage", strconv.Itoa(i), "keeps")
	}
	if doc.Yield != nil {
		c.fits(doc.Yield, yieldFit, "yield")
	}
}

// fit is which quantities a field takes.
type fit struct {
	dimensions []Dimension
	vague      bool // words without a number
	accepted   string
}

var (
	amountFit = fit{[]Dimension{Count, VolumeDimension, MassDimension, LengthDimension}, false,
		`an amount ("225 g", "1 1/2 cups", "2-3 cloves"); words without a number stand in vague`}
	measureFit     = fit{[]Dimension{Count, VolumeDimension, MassDimension, LengthDimension}, false, `a weight, a volume or a length ("14 oz")`}
	sizeFit        = fit{[]Dimension{Count, VolumeDimension, MassDimension, LengthDimension}, false, `a length or a volume ("9 x 13 inch", "2 quarts")`}
	temperatureFit = fit{[]Dimension{TemperatureDimension}, false, `a temperature ("350 F", "180 C", "gas 4")`}
	timeFit        = fit{[]Dimension{TimeDimension}, true, `a time ("10-15 minutes", "overnight", or {vague: several days})`}
	yieldFit       = fit{[]Dimension{Count, VolumeDimension, MassDimension, UnknownDimension}, false, AcceptedYield}
)

// fits adds a problem when a quantity is of another kind than its field takes.
func (c *checker) fits(q *Quantity, f fit, path ...string) {
	if q == nil || q.Vague != "" && f.vague {
		return
	}
	if q.Vague == "" {
		dim := DimensionOf(q.Unit)
		for _, d := range f.dimensions {
			if d == dim {
				return
			}
		}
	}
	c.addAt(strconv.Quote(q.String()), f.accepted, path...)
}
