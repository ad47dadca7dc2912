package archive

import (
	"cmp"
	"encoding/binary"
	"hash/fnv"
	"slices"
	"strings"

	"quern/internal/lexicon"
	"quern/schema"
)

// Where two recordings count as much the same: six tenths of the runs of words
// of the talk, three quarters of five ingredients or more (common practice:
// below that, talks of one series and plain doughs look alike).
const (
	talkAlike        = 0.6
	ingredientsAlike = 0.75
	fewestAlike      = 5
)

// fewestUsual is how many recordings must give an amount before it is called
// usual.
const fewestUsual = 3

// ovenSlack is how far two temperatures may be apart and agree, in degrees F:
// spoken pairs are rounded to 5 or 10 (common practice).
const ovenSlack = 10

// Ref names a row of the report.
type Ref struct {
	Row      int    `json:"row"` // from 1
	Title    string `json:"title"`
	Path     string `json:"transcript"`
	Document string `json:"document"`
	Recipe   int    `json:"recipe"`
}

// NameCount is one name and the recipes that use it.
type NameCount struct {
	Name  string `json:"name"`
	Count int    `json:"count"`
	First Ref    `json:"first"`
}

// Synonyms is one food under several names.
type Synonyms struct {
	Food  string      `json:"food"` // key of the nutrient table
	Names []NameCount `json:"names"`
}

// Twins are recordings that look like one dish recorded more than once.
type Twins struct {
	By        string `json:"by"`    // "talk" or "ingredients"
	Alike     int    `json:"alike"` // least likeness to the first of them, in percent
	SameTitle bool   `json:"same_title"`
	Rows      []Ref  `json:"rows"`
}

// Known is one recording's amount of a food.
type Known struct {
	Ref
	Amount string `json:"amount"`
	Yield  string `json:"yield"`
	At     string `json:"at"`
}

// Asked is an open question for an amount.
type Asked struct {
	Ref
	Ask string `json:"ask"`
	At  string `json:"at"`
}

// Usual is the amount of a food that is usual across the archive, beside the
// recordings that leave it unsaid. It is a hint and is never filled in.
type Usual struct {
	Food   string  `json:"food"`
	Amount string  `json:"usual"` // the middle one, as said
	Least  string  `json:"least"`
	Most   string  `json:"most"`
	Of     int     `json:"of"`     // recipes that give it in this sort of measure
	Others int     `json:"others"` // recipes that give it in another
	Known  []Known `json:"known"`  // in order of size; of more than mostKnown, as many evenly spread
	Asked  []Asked `json:"asked"`
}

// Heated is one recording's temperatures.
type Heated struct {
	Ref
	OvenF []float64 `json:"oven_f"`
}

// Heats are different temperatures for what looks like one dish.
type Heats struct {
	Dish string   `json:"dish"`
	Rows []Heated `json:"rows"`
}

// Entry is one food of the index.
type Entry struct {
	Food string  `json:"food"`
	Rows []int32 `json:"rows"` // numbers of rows, from 1
}

// Across is what only the whole archive can tell.
type Across struct {
	Synonyms []Synonyms `json:"synonyms"`
	Twins    []Twins    `json:"twins"`
	Usual    []Usual    `json:"usual"`
	Heats    []Heats    `json:"temperatures"`
	Index    []Entry    `json:"index"`
}

// gathering takes in the rows of an archive one by one. It keeps a few hundred
// bytes of each.
type gathering struct {
	names  interned
	rows   []gathered
	labels []label // of each food, by its number
	known  []amount
	asked  []asked
	ovens  map[int32][]float64
}

type gathered struct {
	ref    Ref
	yield  int32
	sketch sketch
	foods  []int32 // sorted, each once
}

// label is the names of one food.
type label struct {
	food   int32
	inFood bool // has a key in the nutrient table
	names  []named
}

type named struct {
	name  int32
	count int
	first int32
}

type amount struct{ row, food, text, at int32 }

type asked struct{ row, food, ask, at int32 }

// interned holds each text once.
type interned struct {
	ids   map[string]int32
	texts []string
}

func (n *interned) id(s string) int32 {
	if id, ok := n.ids[s]; ok {
		return id
	}
	if n.ids == nil {
		n.ids = map[string]int32{}
	}
	id := int32(len(n.texts))
	s = strings.Clone(s)
	n.ids[s] = id
	n.texts = append(n.texts, s)
	return id
}

func newGathering() *gathering { return &gathering{ovens: map[int32][]float64{}} }

// add takes in a row.
func (g *gathering) add(row *Row) {
	at := int32(len(g.rows))
	x := gathered{
		ref:    Ref{Row: int(at) + 1, Title: strings.Clone(row.Title), Path: strings.Clone(row.Path), Document: strings.Clone(row.Document), Recipe: row.Recipe},
		yield:  g.names.id(row.Yield),
		sketch: row.Sketch,
	}
	for i := range row.Items {
		item := &row.Items[i]
		key := item.Food
		if key == "" {
			key = strings.ToLower(item.Name)
		}
		food := g.names.id(key)
		x.foods = append(x.foods, food)
		g.name(food, item, at)
		switch {
		case item.Open:
			g.asked = append(g.asked, asked{at, food, g.names.id(item.Ask), g.names.id(item.At)})
		case item.Amount != "":
			g.known = append(g.known, amount{at, food, g.names.id(item.Amount), g.names.id(item.At)})
		}
	}
	slices.Sort(x.foods)
	x.foods = slices.Clip(slices.Compact(x.foods))
	if len(row.Ovens) > 0 {
		g.ovens[at] = row.Ovens
	}
	g.rows = append(g.rows, x)
}

// name counts a name of a food.
func (g *gathering) name(food int32, item *Item, row int32) {
	for len(g.labels) <= int(food) {
		g.labels = append(g.labels, label{})
	}
	l := &g.labels[food]
	l.food, l.inFood = food, l.inFood || item.Food != ""
	name := g.names.id(strings.ToLower(item.Name))
	for i := range l.names {
		if l.names[i].name == name {
			l.names[i].count++
			return
		}
	}
	l.names = append(l.names, named{name, 1, row})
}

// across draws what the rows tell together.
func (g *gathering) across() *Across {
	a := &Across{Synonyms: g.synonyms(), Usual: g.usual(), Index: g.index()}
	dishes := newGroups(len(g.rows))
	a.Twins = g.twins(dishes)
	a.Heats = g.heats(dishes)
	return a
}

// synonyms lists the foods with several names. One name in the singular and in
// the plural is one.
func (g *gathering) synonyms() []Synonyms {
	out := []Synonyms{}
	for i := range g.labels {
		l := &g.labels[i]
		if !l.inFood || len(l.names) < 2 {
			continue
		}
		apart := map[string]bool{}
		s := Synonyms{Food: g.names.texts[l.food]}
		for _, n := range l.names {
			name := g.names.texts[n.name]
			apart[singular(name)] = true
			s.Names = append(s.Names, NameCount{name, n.count, g.rows[n.first].ref})
		}
		if len(apart) < 2 {
			continue
		}
		slices.SortFunc(s.Names, func(a, b NameCount) int {
			return cmp.Or(cmp.Compare(b.Count, a.Count), strings.Compare(a.Name, b.Name))
		})
		out = append(out, s)
	}
	slices.SortFunc(out, func(a, b Synonyms) int { return strings.Compare(a.Food, b.Food) })
	return out
}

// singular puts the last word of a name in the singular.
func singular(name string) string {
	i := strings.LastIndexByte(name, ' ') + 1
	return name[:i] + lexicon.Singular(name[i:])
}

// measure tells what sort of measure an amount has and its size in it.
func measure(q schema.Quantity) (sort string, size float64) {
	middle := (q.Min + q.Max) / 2
	if ml, ok := schema.Volume(q.Unit); ok {
		return "volume", middle * ml
	}
	if g, ok := schema.Mass(q.Unit); ok {
		return "weight", middle * g
	}
	return "count of " + q.Unit, middle
}

// usual lists the foods of which an amount is asked for somewhere and known
// elsewhere.
func (g *gathering) usual() []Usual {
	open := map[int32][]asked{}
	for _, a := range g.asked {
		open[a.food] = append(open[a.food], a)
	}
	type sized struct {
		amount
		size float64
	}
	sorts := map[int32]map[string][]sized{}
	for _, k := range g.known {
		if open[k.food] == nil {
			continue
		}
		q, err := schema.ParseQuantity(g.names.texts[k.text])
		if err != nil || q.Vague != "" {
			continue
		}
		if sorts[k.food] == nil {
			sorts[k.food] = map[string][]sized{}
		}
		sort, size := measure(q)
		sorts[k.food][sort] = append(sorts[k.food][sort], sized{k, size})
	}
	out := []Usual{}
	for food, bySort := range sorts {
		best, all := "", 0
		for sort, list := range bySort {
			all += len(list)
			if best == "" || len(list) > len(bySort[best]) || len(list) == len(bySort[best]) && sort < best {
				best = sort
			}
		}
		list := bySort[best]
		if len(list) < fewestUsual {
			continue
		}
		slices.SortFunc(list, func(a, b sized) int { return cmp.Or(cmp.Compare(a.size, b.size), cmp.Compare(a.row, b.row)) })
		text := func(s sized) string { return g.names.texts[s.text] }
		u := Usual{Food: g.names.texts[food], Amount: text(list[(len(list)-1)/2]), Least: text(list[0]), Most: text(list[len(list)-1]),
			Of: len(list), Others: all - len(list)}
		for _, k := range spread(list) {
			row := &g.rows[k.row]
			u.Known = append(u.Known, Known{row.ref, text(k), g.names.texts[row.yield], g.names.texts[k.at]})
		}
		for _, a := range open[food] {
			u.Asked = append(u.Asked, Asked{g.rows[a.row].ref, g.names.texts[a.ask], g.names.texts[a.at]})
		}
		out = append(out, u)
	}
	slices.SortFunc(out, func(a, b Usual) int { return strings.Compare(a.Food, b.Food) })
	return out
}

// mostKnown is how many recordings are named for a usual amount.
const mostKnown = 12

// spread takes as many of a list as are named, evenly, the ends among them.
func spread[T any](list []T) []T {
	if len(list) <= mostKnown {
		return list
	}
	out := make([]T, mostKnown)
	for i := range out {
		out[i] = list[i*(len(list)-1)/(mostKnown-1)]
	}
	return out
}

// index lists every food with the recipes that use it.
func (g *gathering) index() []Entry {
	rows := make([][]int32, len(g.names.texts))
	for i := range g.rows {
		for _, food := range g.rows[i].foods {
			rows[food] = append(rows[food], int32(i)+1)
		}
	}
	out := []Entry{}
	for food, list := range rows {
		if len(list) > 0 {
			out = append(out, Entry{g.names.texts[food], list})
		}
	}
	slices.SortFunc(out, func(a, b Entry) int { return strings.Compare(a.Food, b.Food) })
	return out
}

// twins finds recordings that look alike: first by their talk, then, among
// those that don't, by their ingredients. Each sketch is cut into bands; only
// rows with an equal band are looked at, and each with the first one of the
// band, so that the work grows with the number of rows. Rows whose talk is
// alike are joined in dishes.
func (g *gathering) twins(dishes groups) []Twins {
	talks := newGroups(len(g.rows))
	inBands(len(g.rows), func(i int) sketch { return g.rows[i].sketch }, func(first, i int) {
		if g.rows[first].sketch.alike(g.rows[i].sketch) >= talkAlike {
			talks.join(first, i)
			dishes.join(first, i)
		}
	})
	sets := make([]sketch, len(g.rows))
	for i := range g.rows {
		if len(g.rows[i].foods) < fewestAlike || talks.first(i) != i {
			continue
		}
		names := make([]string, len(g.rows[i].foods))
		for k, food := range g.rows[i].foods {
			names[k] = g.names.texts[food]
		}
		sets[i] = sketchOfSet(names)
	}
	foods := newGroups(len(g.rows))
	inBands(len(g.rows), func(i int) sketch { return sets[i] }, func(first, i int) {
		if shared(g.rows[first].foods, g.rows[i].foods) >= ingredientsAlike {
			foods.join(first, i)
		}
	})
	out := g.list("talk", talks, func(a, b *gathered) float64 { return a.sketch.alike(b.sketch) })
	return append(out, g.list("ingredients", foods, func(a, b *gathered) float64 { return shared(a.foods, b.foods) })...)
}

// list writes groups of more than one row down.
func (g *gathering) list(by string, groups groups, alike func(a, b *gathered) float64) []Twins {
	out := []Twins{}
	for _, members := range groups.members() {
		t := Twins{By: by, Alike: 100, SameTitle: true}
		first := &g.rows[members[0]]
		for _, i := range members {
			row := &g.rows[i]
			t.Rows = append(t.Rows, row.ref)
			if i != members[0] {
				t.Alike = min(t.Alike, int(100*alike(first, row)))
				t.SameTitle = t.SameTitle && dishKey(row.ref.Title) == dishKey(first.ref.Title)
			}
		}
		out = append(out, t)
	}
	return out
}

// shared is the share of the foods of either row that both have.
func shared(a, b []int32) float64 {
	both := 0
	for i, k := 0, 0; i < len(a) && k < len(b); {
		switch {
		case a[i] == b[k]:
			both++
			i++
			k++
		case a[i] < b[k]:
			i++
		default:
			k++
		}
	}
	if len(a)+len(b) == both {
		return 0
	}
	return float64(both) / float64(len(a)+len(b)-both)
}

// bandSize is how many numbers of a sketch make a band: with sixteen bands of
// four, two rows alike by six tenths share one nine times in ten.
const bandSize = 4

// inBands calls pair for rows with an equal band, each with the first of them.
func inBands(rows int, of func(int) sketch, pair func(first, i int)) {
	for band := 0; band < sketchSize; band += bandSize {
		firsts := map[uint64]int32{}
		for i := range rows {
			s := of(i)
			if len(s) == 0 {
				continue
			}
			h := fnv.New64a()
			var b [4 * bandSize]byte
			for k := range bandSize {
				binary.LittleEndian.PutUint32(b[4*k:], s[band+k])
			}
			_, _ = h.Write(b[:]) // a hash never fails
			if first, ok := firsts[h.Sum64()]; ok {
				pair(int(first), i)
			} else {
				firsts[h.Sum64()] = int32(i)
			}
		}
	}
}

// heats finds dishes whose recordings name different temperatures. Recordings
// are of one dish when their titles have the same words, or their talk is
// alike.
func (g *gathering) heats(dishes groups) []Heats {
	titles := map[string]int{}
	for i := range g.rows {
		key := dishKey(g.rows[i].ref.Title)
		if key == "" {
			continue
		}
		if first, ok := titles[key]; ok {
			dishes.join(first, i)
		} else {
			titles[key] = i
		}
	}
	out := []Heats{}
	for _, members := range dishes.members() {
		h := Heats{}
		differ := false
		for _, i := range members {
			ovens := g.ovens[int32(i)]
			if len(ovens) == 0 {
				continue
			}
			if len(h.Rows) == 0 {
				h.Dish = g.rows[i].ref.Title
			} else {
				differ = differ || apart(h.Rows[0].OvenF, ovens) || apart(ovens, h.Rows[0].OvenF)
			}
			h.Rows = append(h.Rows, Heated{g.rows[i].ref, ovens})
		}
		if differ {
			out = append(out, h)
		}
	}
	return out
}

// apart tells whether a has a temperature that b has not.
func apart(a, b []float64) bool {
	return slices.ContainsFunc(a, func(x float64) bool {
		return !slices.ContainsFunc(b, func(y float64) bool { return x-y <= ovenSlack && y-x <= ovenSlack })
	})
}

// passing are words of a title that don't tell one dish from another.
var passing = map[string]bool{
	"a": true, "an": true, "and": true, "best": true, "classic": true, "easy": true, "ever": true, "favourite": true, "favorite": true, "for": true,
	"from": true, "her": true, "his": true, "homemade": true, "how": true, "i": true, "in": true, "make": true, "making": true, "my": true, "new": true,
	"of": true, "our": true, "perfect": true, "quick": true, "recipe": true, "simple": true, "some": true, "the": true, "to": true, "with": true, "your": true,
}

// dishKey is the words of a title that tell the dish, in order of the alphabet.
func dishKey(title string) string {
	var key []string
	for _, w := range words(title) {
		if !passing[w] {
			key = append(key, lexicon.Singular(w))
		}
	}
	slices.Sort(key)
	return strings.Join(slices.Compact(key), " ")
}

// groups joins rows into sets; the first row of a set stands for it.
type groups []int32

func newGroups(n int) groups {
	g := make(groups, n)
	for i := range g {
		g[i] = int32(i)
	}
	return g
}

func (g groups) first(i int) int {
	for int(g[i]) != i {
		g[i] = g[g[i]]
		i = int(g[i])
	}
	return i
}

func (g groups) join(a, b int) {
	a, b = g.first(a), g.first(b)
	g[max(a, b)] = int32(min(a, b))
}

// members lists the sets of more than one row, in order of their first.
func (g groups) members() [][]int {
	sets := map[int][]int{}
	var firsts []int
	for i := range g {
		f := g.first(i)
		if f == i {
			firsts = append(firsts, i)
		}
		sets[f] = append(sets[f], i)
	}
	var out [][]int
	for _, f := range firsts {
		if len(sets[f]) > 1 {
			out = append(out, sets[f])
		}
	}
	return out
}
