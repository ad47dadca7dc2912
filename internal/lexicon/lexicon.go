// Package lexicon holds what cooks' words mean: foods, units, equipment,
// actions, vague amounts and signs of doneness, as embedded tables with one
// matcher over all of them. It knows words, not sentences.
package lexicon

import (
	_ "embed"
	"fmt"
	"strconv"
	"strings"
	"sync"

	"quern/internal/language"
)

//go:embed foods.tsv
var foodsTSV string

//go:embed actions.tsv
var actionsTSV string

//go:embed equipment.tsv
var equipmentTSV string

//go:embed units.tsv
var unitsTSV string

//go:embed multiples.tsv
var multiplesTSV string

//go:embed vague.tsv
var vagueTSV string

//go:embed modifiers.tsv
var modifiersTSV string

//go:embed doneness.tsv
var donenessTSV string

//go:embed made.tsv
var madeTSV string

//go:embed heard.tsv
var heardTSV string

//go:embed components.tsv
var componentsTSV string

// Food is a thing that is eaten.
type Food struct {
	Name  string // as a good ingredient list writes it
	Kind  string
	Verb  bool // the word is also a cooking verb ("butter the tin")
	Weak  bool // also an everyday word ("date")
	Dish  bool // more often another dish than an ingredient ("cake")
	Made  bool // often a mixture made in the recipe itself ("dough")
	Taste bool // usually to taste

	words []string // of the name, see Words; nil for a food of no table
	sign  uint64   // of the first of them and the last, see Apart
}

// Words gives the words of the food's name, with one spelling for those that
// have several ("chilli" and "chile"). It must not be changed.
func (f *Food) Words() []string {
	if f.words == nil {
		return nameWords(f.Name)
	}
	return f.words
}

// NewFood makes a food that is in no table.
func NewFood(name, kind string) Food {
	f := Food{Name: name, Kind: kind, words: nameWords(name)}
	if n := len(f.words); n > 0 {
		f.sign = wordSign(f.words[0]) | wordSign(f.words[n-1])
		if f.words[0] == "beef" {
			f.sign |= wordSign("steak") // is beef
		}
	}
	return f
}

// wordSign gives a word one of 64 bits.
func wordSign(w string) uint64 {
	h := uint32(0)
	for i := 0; i < len(w); i++ {
		h = (h ^ uint32(w[i])) * 0x9E3779B1 // 2^32 over the golden ratio spreads neighbours
	}
	return 1 << (h >> 26)
}

// Apart reports, before their names are compared, that neither the first nor the
// last word of the names of two foods is one of the other's: most pairs are told
// apart so.
func (f *Food) Apart(o *Food) bool { return f.sign&o.sign == 0 && f.sign != 0 && o.sign != 0 }

func nameWords(name string) []string {
	for _, sign := range [...]string{"chil", "yogh", "whisk"} {
		if strings.Contains(name, sign) {
			name = oneSpelling.Replace(name)
			break
		}
	}
	ws := strings.Fields(name)
	if n := len(ws); n > 0 {
		ws[n-1] = Singular(ws[n-1]) // "rolled oats" is a fuller name of "oat"
		if ws[n-1] == "oats" {
			ws[n-1] = "oat"
		}
	}
	return ws
}

// oneSpelling brings the spellings of one word together.
var oneSpelling = strings.NewReplacer("chilli", "chile", "chili", "chile", "yoghurt", "yogurt", "whisky", "whiskey")

// Action is something a cook or a food does.
type Action struct {
	Verb      string // base form
	Particles []string
	Kind      string
	Weak      bool // everyday verb, an action only with a food, vessel or time
	Noun      bool // the base form is also a noun or adjective
	State     bool // done by the food rather than the cook
}

// Form tells how a verb was inflected.
type Form uint8

// The forms of a verb.
const (
	Base Form = iota
	Third
	Ing
	Past
)

// VerbForm is an inflected form found in the talk.
type VerbForm struct {
	Action *Action
	Form   Form
}

// Equipment is a thing used but not eaten.
type Equipment struct {
	Name string
	Kind string
	Food bool // a food's name stands inside ("butter knife")
}

// Unit is a word for a measure.
type Unit struct {
	Unit string // canonical, as in the recipe document
	Kind string // volume, mass, count, container, length, time, small
	// Times is how many of Unit the word stands for: 100 ml for a decilitre, 1 for most.
	Times float64
}

// Vague is a phrase for an amount without a number.
type Vague struct {
	Words string
	Kind  string // vague, taste, ratio, reference
}

// Made is a word for what the recipe itself makes.
type Made struct {
	Word string
	Part bool // can be the name of a part
}

// Component tells what a thing made apart from the rest consists of.
type Component struct {
	From   []string // kinds of food or last words of their names, the surest first, one of them at least; "*" for anything
	Any    bool     // named by whatever is said of it
	Served bool     // named only where it is put over, on or beside something
}

// Rank gives the place in From of what the food is, len(From) when the
// component isn't made from it.
func (c *Component) Rank(f *Food) int {
	for i, x := range c.From {
		if x == "*" || x == f.Kind || f.Name == x || strings.HasSuffix(f.Name, " "+x) {
			return i
		}
	}
	return len(c.From)
}

// Heard is a likely mis-hearing.
type Heard struct {
	Meant string
	Near  []string
}

// Class of a modifier word before a food.
type Class uint8

// Classes of modifiers.
const (
	NoClass Class = iota
	NameWord
	PrepWord
	SizeWord
	DropWord
)

// Lexicon is every table and its matchers. It is read-only once made.
type Lexicon struct {
	Foods     []Food
	Actions   []Action
	Equipment []Equipment
	Units     []Unit
	Vague     []Vague
	Made      []Made
	Heard     []Heard
	verbs     [][]VerbForm          // of each word, by number; shorter where the last words have none
	Phrases   map[string][]VerbForm // verbs of two words ("pressure cook"), joined by a space
	Modifiers map[string]Class
	Component map[string]*Component // by the word for it
	Doneness  map[string]bool       // signs, single words and phrases
	leads     []bool                // of each word, by number: it begins one of Phrases
	words     map[string]int32      // numbers: those below names are of words in the tries, those above of verbs only
	names     int32
	food      trie
	tool      trie
	unit      trie
	vague     trie
	made      trie
	heard     trie
	sign      trie
	foodByKey map[string]int
	numbered  []int32 // see ids; used only while the lexicon is made
}

// Load gives the one lexicon of the process.
var Load = sync.OnceValue(func() *Lexicon {
	l, err := build(nil)
	if err != nil {
		panic("lexicon: embedded tables: " + err.Error()) // a build defect: the row tests catch it
	}
	return l
})

// Lacking makes a lexicon without the foods for which lacks is true, for measuring
// what is read of foods that no table has.
func Lacking(lacks func(food string) bool) (*Lexicon, error) { return build(lacks) }

// trie finds entries by the numbers of their words. Its edges stand in one
// table with open addressing: filling it is most of what starting costs.
type trie struct {
	edges  []edge // a power of two of places, at most half of them taken
	val    []int32
	starts []uint64 // a bit for each word that entries begin with
}

// begins reports whether an entry begins with the word.
func (t *trie) begins(word int32) bool {
	k := int(word >> 6)
	return word >= 0 && k < len(t.starts) && t.starts[k]&(1<<(word&63)) != 0
}

// edge leads from a node over a word to the next node; next is 0 in a free
// place, as no edge leads to the root.
type edge struct {
	node, word, next int32
}

// newTrie makes a trie with room for a table of about so many bytes to a node;
// it grows where there are more.
func newTrie(table string, bytes int) trie {
	nodes := len(table) / bytes
	places := 16
	for places < 2*nodes {
		places *= 2
	}
	val := make([]int32, 1, nodes+1)
	val[0] = -1
	return trie{edges: make([]edge, places), val: val}
}

// place gives where the edge from node over word stands or would stand.
func (t *trie) place(node, word int32) int {
	h := (uint64(uint32(node))<<32 | uint64(uint32(word))) * 0x9E3779B97F4A7C15 // 2^64 over the golden ratio spreads neighbours
	mask := len(t.edges) - 1
	for p := int(h>>32) & mask; ; p = (p + 1) & mask {
		if e := &t.edges[p]; e.next == 0 || e.node == node && e.word == word {
			return p
		}
	}
}

func (t *trie) put(ids []int32, v int32) {
	if len(ids) > 0 {
		for k := int(ids[0] >> 6); k >= len(t.starts); {
			t.starts = append(t.starts, 0)
		}
		t.starts[ids[0]>>6] |= 1 << (ids[0] & 63)
	}
	node := int32(0)
	for _, id := range ids {
		p := t.place(node, id)
		if t.edges[p].next == 0 {
			if 2*len(t.val) > len(t.edges) {
				t.grow()
				p = t.place(node, id)
			}
			t.edges[p] = edge{node, id, int32(len(t.val))}
			t.val = append(t.val, -1)
		}
		node = t.edges[p].next
	}
	if t.val[node] < 0 {
		t.val[node] = v
	}
}

func (t *trie) grow() {
	old := t.edges
	t.edges = make([]edge, 2*len(old))
	for _, e := range old {
		if e.next != 0 {
			t.edges[t.place(e.node, e.word)] = e
		}
	}
}

// longest finds the longest entry at ids[i]; stop[k] forbids going past k.
func (t *trie) longest(ids []int32, i int, stop func(k int) bool) (int32, int) {
	if i < 0 || i >= len(ids) || !t.begins(ids[i]) {
		return -1, 0
	}
	node := int32(0)
	best, n := int32(-1), 0
	for k := i; k < len(ids); k++ {
		if ids[k] < 0 {
			break
		}
		next := t.edges[t.place(node, ids[k])].next
		if next == 0 {
			break
		}
		node = next
		if t.val[node] >= 0 {
			best, n = t.val[node], k-i+1
		}
		if stop != nil && stop(k) {
			break
		}
	}
	return best, n
}

// IDs turns tokens into the lexicon's word numbers, -1 for words it doesn't
// hold.
func (l *Lexicon) IDs(toks []language.Token) []int32 {
	ids := make([]int32, len(toks))
	for i := range toks {
		ids[i] = l.ID(toks[i].Norm)
	}
	return ids
}

// ID gives the lexicon's number of a word in its comparison form, -1 for one it
// doesn't hold.
func (l *Lexicon) ID(w string) int32 { return l.Read(w).ID }

// Reading is what the lexicon knows of a word by itself.
type Reading struct {
	ID    int32      // see ID
	Verbs []VerbForm // the verbs it is a form of
	Leads bool       // a verb of two words begins with it
}

// Read looks a word up in its comparison form.
func (l *Lexicon) Read(w string) Reading {
	r := Reading{ID: -1}
	id, ok := l.words[w]
	if ok {
		if int(id) < len(l.verbs) {
			r.Verbs, r.Leads = l.verbs[id], l.leads[id]
		}
		if id < l.names {
			r.ID = id
		}
	}
	if r.ID < 0 && strings.HasSuffix(w, "'s") {
		if id, ok := l.words[w[:len(w)-2]]; ok && id < l.names {
			r.ID = id
		}
	}
	return r
}

// Verbs gives the verbs that a word is a form of.
func (l *Lexicon) Verbs(w string) []VerbForm {
	if id, ok := l.words[w]; ok && int(id) < len(l.verbs) {
		return l.verbs[id]
	}
	return nil
}

// EachVerb calls do for each word that is a form of verbs.
func (l *Lexicon) EachVerb(do func(w string, forms []VerbForm)) {
	for w, id := range l.words {
		if int(id) < len(l.verbs) && len(l.verbs[id]) > 0 {
			do(w, l.verbs[id])
		}
	}
}

// The matchers return the row and how many tokens it took, 0 for none.

// FoodAt finds the longest food name at i.
func (l *Lexicon) FoodAt(ids []int32, i int, stop func(int) bool) (*Food, int) {
	v, n := l.food.longest(ids, i, stop)
	if n == 0 {
		return nil, 0
	}
	return &l.Foods[v], n
}

// ToolAt finds the longest equipment name at i.
func (l *Lexicon) ToolAt(ids []int32, i int, stop func(int) bool) (*Equipment, int) {
	v, n := l.tool.longest(ids, i, stop)
	if n == 0 {
		return nil, 0
	}
	return &l.Equipment[v], n
}

// UnitAt finds a unit word at i.
func (l *Lexicon) UnitAt(ids []int32, i int) (*Unit, int) {
	v, n := l.unit.longest(ids, i, nil)
	if n == 0 {
		return nil, 0
	}
	return &l.Units[v], n
}

// VagueAt finds a vague amount at i.
func (l *Lexicon) VagueAt(ids []int32, i int, stop func(int) bool) (*Vague, int) {
	v, n := l.vague.longest(ids, i, stop)
	if n == 0 {
		return nil, 0
	}
	return &l.Vague[v], n
}

// MadeAt finds a word for a mixture at i.
func (l *Lexicon) MadeAt(ids []int32, i int) (*Made, int) {
	v, n := l.made.longest(ids, i, nil)
	if n == 0 {
		return nil, 0
	}
	return &l.Made[v], n
}

// HeardAt finds a likely mis-hearing at i.
func (l *Lexicon) HeardAt(ids []int32, i int) (*Heard, int) {
	v, n := l.heard.longest(ids, i, nil)
	if n == 0 {
		return nil, 0
	}
	return &l.Heard[v], n
}

// Measures reports whether a unit or a vague amount begins with the word of this
// number.
func (l *Lexicon) Measures(id int32) bool { return l.unit.begins(id) || l.vague.begins(id) }

// SignAt finds a sign of doneness at i and tells its length.
func (l *Lexicon) SignAt(ids []int32, i int) int {
	_, n := l.sign.longest(ids, i, nil)
	return n
}

// FoodNamed finds the food with this name or other name.
func (l *Lexicon) FoodNamed(name string) (*Food, bool) {
	i, ok := l.foodByKey[strings.Join(language.Norms(name), " ")]
	if !ok {
		return nil, false
	}
	return &l.Foods[i], true
}

func (l *Lexicon) id(w string) int32 {
	id, ok := l.words[w]
	if !ok {
		id = int32(len(l.words))
		l.words[w] = id
	}
	return id
}

// ids numbers words; what it gives holds until it is called again.
func (l *Lexicon) ids(norms []string) []int32 {
	l.numbered = l.numbered[:0]
	for _, w := range norms {
		l.numbered = append(l.numbered, l.id(w))
	}
	return l.numbered
}

// both puts a name in singular and plural.
func (l *Lexicon) both(t *trie, name string, v int32) {
	norms := language.Norms(name)
	if len(norms) == 0 {
		return
	}
	t.put(l.ids(norms), v)
	end := len(norms) - 1
	last := norms[end]
	for _, p := range [...]string{Plural(last), Singular(last)} {
		if p != last && p != "" {
			norms[end] = p
			t.put(l.ids(norms), v)
		}
	}
}

// plural puts in a name's plural only; norms is changed.
func (l *Lexicon) plural(t *trie, norms []string, v int32) {
	if len(norms) == 0 {
		return
	}
	end := len(norms) - 1
	if p := Plural(norms[end]); p != norms[end] {
		norms[end] = p
		t.put(l.ids(norms), v)
	}
}

// rows reads a table: comment lines, one header, tab-separated columns. Each
// row is given with all its columns, in a slice that is used again.
func rows(name, text string, columns int, each func(cols []string)) error {
	header := false
	cols := make([]string, columns)
	for n := 1; text != ""; n++ {
		var line string
		line, text, _ = strings.Cut(text, "\n")
		line = strings.TrimRight(line, "\r")
		if strings.HasPrefix(line, "#") || strings.TrimSpace(line) == "" {
			continue
		}
		if !header {
			header = true
			continue
		}
		if got := strings.Count(line, "\t") + 1; got > columns {
			return fmt.Errorf("%s line %d: %d columns, at most %d are expected", name, n, got, columns)
		}
		for i := range cols {
			var cell string
			cell, line, _ = strings.Cut(line, "\t")
			cols[i] = strings.TrimSpace(cell)
		}
		each(cols)
	}
	return nil
}

// lines counts the lines of a table.
func lines(text string) int { return strings.Count(text, "\n") }

func list(s, sep string) []string {
	if s == "" {
		return nil
	}
	out := make([]string, 0, strings.Count(s, sep)+1)
	for more := true; more; {
		var p string
		p, s, more = strings.Cut(s, sep)
		if p = strings.TrimSpace(p); p != "" {
			out = append(out, p)
		}
	}
	return out
}

func build(lacks func(food string) bool) (*Lexicon, error) {
	l := &Lexicon{
		Foods: make([]Food, 0, lines(foodsTSV)), Actions: make([]Action, 0, lines(actionsTSV)),
		words: make(map[string]int32, (len(foodsTSV)+len(actionsTSV))/16), Phrases: make(map[string][]VerbForm),
		Modifiers: make(map[string]Class, lines(modifiersTSV)), Doneness: make(map[string]bool, lines(donenessTSV)),
		foodByKey: make(map[string]int, len(foodsTSV)/16),
		food:      newTrie(foodsTSV, 8), tool: newTrie(equipmentTSV, 6), unit: newTrie(unitsTSV, 20), vague: newTrie(vagueTSV, 14), made: newTrie(madeTSV, 7), heard: newTrie(heardTSV, 18), sign: newTrie(donenessTSV, 14),
	}
	var err error
	try := func(e error) {
		if err == nil {
			err = e
		}
	}
	// other is another name of a food.
	type other struct {
		norms []string
		food  int32
	}
	names := make([][]string, 0, cap(l.Foods)) // of each food, as compared
	var also []other
	try(rows("foods.tsv", foodsTSV, 4, func(c []string) {
		if lacks != nil && lacks(c[0]) {
			return
		}
		f := NewFood(c[0], c[2])
		for _, fl := range list(c[3], ",") {
			switch fl {
			case "verb":
				f.Verb = true
			case "weak":
				f.Weak = true
			case "dish":
				f.Dish = true
			case "made":
				f.Made = true
			case "taste":
				f.Taste = true
			}
		}
		l.Foods = append(l.Foods, f)
		v := len(l.Foods) - 1
		norms := language.Norms(c[0])
		names = append(names, norms)
		l.foodByKey[strings.Join(norms, " ")] = v
		l.food.put(l.ids(norms), int32(v))
		for _, a := range list(c[1], "|") {
			also = append(also, other{language.Norms(a), int32(v)})
		}
	}))
	// names as listed go in first, so that a plural made by rule never takes
	// the place of a listed spelling
	for _, a := range also {
		l.food.put(l.ids(a.norms), a.food)
		k := strings.Join(a.norms, " ")
		if _, ok := l.foodByKey[k]; !ok {
			l.foodByKey[k] = int(a.food)
		}
	}
	for v, norms := range names {
		l.plural(&l.food, norms, int32(v))
	}
	for _, a := range also {
		l.plural(&l.food, a.norms, a.food)
	}
	forms := make([]string, 0, cap(l.Actions)) // of each action, as the table lists them
	try(rows("actions.tsv", actionsTSV, 5, func(c []string) {
		a := Action{Verb: c[0], Particles: list(c[2], "|"), Kind: c[3]}
		for _, fl := range list(c[4], ",") {
			switch fl {
			case "weak":
				a.Weak = true
			case "noun":
				a.Noun = true
			case "state":
				a.State = true
			}
		}
		l.Actions = append(l.Actions, a)
		forms = append(forms, c[1])
	}))
	tools := func(c []string) {
		e := Equipment{Name: c[0], Kind: c[2], Food: strings.Contains(c[3], "food")}
		l.Equipment = append(l.Equipment, e)
		v := int32(len(l.Equipment) - 1)
		l.both(&l.tool, c[0], v)
		for _, a := range list(c[1], "|") {
			l.both(&l.tool, a, v)
		}
	}
	try(rows("equipment.tsv", equipmentTSV, 4, tools))
	unit := func(word, unit, kind string, times float64) {
		l.Units = append(l.Units, Unit{Unit: unit, Kind: kind, Times: times})
		l.unit.put(l.ids(language.Norms(word)), int32(len(l.Units)-1))
	}
	try(rows("units.tsv", unitsTSV, 3, func(c []string) { unit(c[0], c[1], c[2], 1) }))
	try(rows("multiples.tsv", multiplesTSV, 4, func(c []string) {
		times, _ := strconv.ParseFloat(c[3], 64) // TestMultipleRows reads every one
		unit(c[0], c[1], c[2], times)
	}))
	try(rows("vague.tsv", vagueTSV, 2, func(c []string) {
		l.Vague = append(l.Vague, Vague{Words: c[0], Kind: c[1]})
		l.vague.put(l.ids(language.Norms(c[0])), int32(len(l.Vague)-1))
	}))
	try(rows("modifiers.tsv", modifiersTSV, 2, func(c []string) {
		cl := map[string]Class{"name": NameWord, "prep": PrepWord, "size": SizeWord, "drop": DropWord}[c[1]]
		l.Modifiers[strings.Join(language.Norms(c[0]), " ")] = cl
	}))
	try(rows("doneness.tsv", donenessTSV, 2, func(c []string) {
		if c[1] == "sign" {
			l.Doneness[c[0]] = true
			l.sign.put(l.ids(language.Norms(c[0])), 1)
		}
	}))
	try(rows("made.tsv", madeTSV, 2, func(c []string) {
		l.Made = append(l.Made, Made{Word: c[0], Part: c[1] == "part"})
		l.both(&l.made, c[0], int32(len(l.Made)-1))
	}))
	l.Component = make(map[string]*Component, lines(componentsTSV))
	try(rows("components.tsv", componentsTSV, 4, func(c []string) {
		l.Component[c[0]] = &Component{From: list(c[1], "|"), Any: c[2] == "any", Served: c[2] == "served"}
	}))
	try(rows("heard.tsv", heardTSV, 3, func(c []string) {
		l.Heard = append(l.Heard, Heard{Meant: c[1], Near: list(c[2], "|")})
		l.heard.put(l.ids(language.Norms(c[0])), int32(len(l.Heard)-1))
	}))
	l.names = int32(len(l.words))
	l.verbForms(forms)
	return l, err
}

// verbForms fills verbs, Phrases and leads from the listed forms of each action.
func (l *Lexicon) verbForms(forms []string) {
	l.verbs = make([][]VerbForm, l.names, int(l.names)+4*len(forms))
	l.leads = make([]bool, l.names, cap(l.verbs))
	reach := func(id int32) { // makes room up to the number
		for int(id) >= len(l.verbs) {
			l.verbs, l.leads = append(l.verbs, nil), append(l.leads, false)
		}
	}
	add := func(form string, a *Action, f Form) {
		if form == "" {
			return
		}
		switch norms := language.Norms(form); len(norms) {
		case 1:
			id := l.id(form)
			reach(id)
			for _, v := range l.verbs[id] {
				if v.Form == f && v.Action.Verb == a.Verb {
					return
				}
			}
			l.verbs[id] = append(l.verbs[id], VerbForm{a, f})
		case 2:
			k := norms[0] + " " + norms[1]
			if len(l.Phrases[k]) == 0 {
				l.Phrases[k] = append(l.Phrases[k], VerbForm{a, f})
				id := l.id(norms[0])
				reach(id)
				l.leads[id] = true
			}
		}
	}
	for i, listed := range forms {
		a := &l.Actions[i]
		base := a.Verb
		add(base, a, Base)
		for _, f := range list(listed, "|") {
			f = strings.ToLower(f)
			switch {
			case f == base:
				// "put", "cut": the past is spelled like the base and is told apart by its subject
			case strings.HasSuffix(f, "ing"):
				add(f, a, Ing)
			case strings.HasSuffix(f, "s") && (f == base+"s" || f == base+"es" || strings.HasSuffix(f, "ies") && strings.HasSuffix(base, "y")):
				add(f, a, Third)
			default:
				add(f, a, Past)
			}
		}
	}
}

// Plural gives the usual English plural of a noun.
func Plural(w string) string {
	switch w {
	case "leaf":
		return "leaves"
	case "loaf":
		return "loaves"
	case "half":
		return "halves"
	case "knife":
		return "knives"
	case "shelf":
		return "shelves"
	case "fish", "water", "oil", "salt", "sugar", "milk", "butter", "rice", "flour", "honey", "garlic", "beef", "pork", "cream":
		return w + "s"
	}
	n := len(w)
	switch {
	case n < 2:
		return w
	case strings.HasSuffix(w, "s") || strings.HasSuffix(w, "x") || strings.HasSuffix(w, "ch") || strings.HasSuffix(w, "sh") || strings.HasSuffix(w, "z"):
		return w + "es"
	case strings.HasSuffix(w, "y") && !strings.ContainsRune("aeiou", rune(w[n-2])):
		return w[:n-1] + "ies"
	case w == "tomato" || w == "potato" || w == "mango":
		return w + "es"
	}
	return w + "s"
}

// Singular undoes the usual English plural.
func Singular(w string) string {
	n := len(w)
	switch w {
	case "leaves":
		return "leaf"
	case "loaves":
		return "loaf"
	case "halves":
		return "half"
	case "knives":
		return "knife"
	case "molasses", "couscous", "hummus", "asparagus", "swiss", "octopus", "citrus", "lens", "schnapps", "haggis", "brussels", "watercress", "cress", "bass", "bitters", "oats", "grits", "greens", "chives", "capers":
		return w
	}
	switch {
	case n > 4 && strings.HasSuffix(w, "ies"):
		return w[:n-3] + "y"
	case n > 4 && (strings.HasSuffix(w, "oes") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "sses") || strings.HasSuffix(w, "xes")):
		return w[:n-2]
	case n > 3 && strings.HasSuffix(w, "s") && !strings.HasSuffix(w, "ss") && !strings.HasSuffix(w, "us"):
		return w[:n-1]
	}
	return w
}
