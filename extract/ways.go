package extract

import (
	"sort"
	"strings"

	"quern/internal/language"
	"quern/internal/lexicon"
)

// wayMark opens one of several methods at a token; name -1 closes it.
type wayMark struct {
	tok  int
	name int
}

// choiceCues announce that there is more than one method.
var choiceCues = []string{"two ways", "both ways", "either way", "three ways", "two methods", "couple of ways", "couple ways", "different ways", "two roads", "two versions", "getting both",
	"whichever way", "two options", "couple of options", "can't agree on how", "road forks", "your choice", "both versions", "two paths", "both methods", "one of two", "whichever you", "pick your", "or as", "two sorts", "two kinds", "splits in two", "parts company", "part company", "way number"}

// wayNoun are heads of "the cold one", "the oven method".
var wayNoun = words("one ones way method version option route style people person crowd lot sort road man woman folk folks fans path team camp variety batch side")

// markWays finds alternative methods and where each is told. A method is
// announced near a choice ("you can do it cold in a pitcher, or hot in a
// pot") and told later under a head that takes up the announced word ("Now
// the cold one.", "if you're doing the slab", "way number two, the steamer").
func (t *talk) markWays() {
	announced, from := t.announcedWays()
	if len(announced) == 0 {
		return
	}
	type head struct {
		tok  int
		name string
		key  string
	}
	var heads []head
	keys := map[string]int{}
	for k := range t.sents {
		s := &t.sents[k]
		if s.First < from || s.kind == storing || s.kind == figures || s.recap {
			continue
		}
		name, key := t.wayHead(s, announced)
		if name == "" {
			continue
		}
		heads = append(heads, head{s.First, name, key})
		keys[key]++
	}
	if len(keys) < 2 {
		return
	}
	index := map[string]int{}
	next := 0
	for k := range t.sents {
		s := &t.sents[k]
		if next < len(heads) && heads[next].tok == s.First {
			h := heads[next]
			next++
			n, ok := index[h.key]
			if !ok {
				n = len(t.wayNames)
				index[h.key] = n
				t.wayNames = append(t.wayNames, h.name)
			}
			t.ways = append(t.ways, wayMark{tok: s.First, name: n})
			continue
		}
		if len(t.ways) > 0 && t.ways[len(t.ways)-1].name >= 0 {
			if s.kind == storing || s.kind == figures || t.bothAgain(s) {
				t.ways = append(t.ways, wayMark{tok: s.First, name: -1})
			} else if _, _, ok := t.partHead(s); ok && s.kind != aside {
				t.ways = append(t.ways, wayMark{tok: s.First, name: -1})
			}
		}
	}
}

// bothAgain reports whether the sentence speaks of every way at once.
func (t *talk) bothAgain(s *sentence) bool {
	return t.has(s.First, s.Last, "either way", "both of them", "whichever", "both ways", "no matter which", "doesn't matter which", "both kinds", "however you", "all of them", "both lots", "oven ones", "whichever way") >= 0
}

// wayStop are words too common to carry the name of a method.
var wayStop = words("the a an it them you your my i we or and in on to for of as with if can do does doing make making one ones way ways two both either same so now then is it's that this just like want be are there there's here up whole lot cut out get got going whichever number my his hers her their they both not no but what how when time me us all into over at by he she some little bit good quick other")

// stem cuts the usual endings, so that "shape", "shaped" and "shaper" agree.
func stem(w string) string {
	w = strings.TrimSuffix(w, "'s")
	for _, end := range []string{"ers", "er", "ing", "ed", "es", "s", "e"} {
		if strings.HasSuffix(w, end) && len(w)-len(end) >= 3 {
			w = w[:len(w)-len(end)]
			break
		}
	}
	if n := len(w); n > 3 && w[n-1] == w[n-2] {
		w = w[:n-1]
	}
	return w
}

// announcedWays collects the words said around each choice, and where the
// telling can begin.
func (t *talk) announcedWays() (map[string]bool, int) {
	out := map[string]bool{}
	from := -1
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures {
			continue
		}
		if t.has(s.First, s.Last, choiceCues...) < 0 {
			continue
		}
		if from < 0 {
			from = s.Last
		}
		for j := k; j <= min(len(t.sents)-1, k+4); j++ {
			o := &t.sents[j]
			if o.para > s.para+1 {
				break
			}
			for i := o.First; i < o.Last; i++ {
				if w := t.norm(i); !wayStop[w] && t.quantityAt[i] < 0 {
					out[stem(w)] = true
				}
			}
		}
	}
	return out, from
}

// wayHead reads the head of a way in a sentence: its name, and the announced
// word it takes up.
func (t *talk) wayHead(s *sentence, announced map[string]bool) (string, string) {
	i := s.First
	for i < s.Last && i < s.First+6 && (headWords[t.norm(i)] || t.norm(i) == "my" || t.norm(i) == "turn" || t.norm(i) == "go" || t.norm(i) == "on") {
		i++
	}
	if i >= s.Last {
		return "", ""
	}
	name := func(a, b int) (string, string) {
		var ws []string
		key := ""
		for k := a; k < b && k < s.Last; k++ {
			w := strings.TrimSuffix(t.norm(k), "'s")
			if determiners[w] || articleLike[w] || wayNoun[w] || wayStop[w] {
				continue
			}
			if t.quantityAt[k] >= 0 || t.actionAt[k] >= 0 || youWe[w] || others[w] || leadAdverbs[w] && t.toolAt[k] < 0 || strings.Contains(w, "'") {
				return "", ""
			}
			ws = append(ws, w)
			if announced[stem(w)] && key == "" {
				key = stem(w)
			}
		}
		if key == "" || len(ws) == 0 || len(ws) > 3 || !t.punctuated && (len(ws) > 2 || stem(ws[len(ws)-1]) != key && stem(ws[0]) != key) {
			return "", ""
		}
		return t.wayName(a, b, ws), key
	}
	end := func(a int) int { // the end of a short phrase from a
		b := a
		for b < s.Last && b < a+5 {
			b++
			if t.toks[b-1].After != 0 {
				break
			}
			w := t.norm(b)
			if b < s.Last && (youWe[w] || w == "it" || w == "is" || w == "they" || w == "get" || w == "you'll" || w == "then" || w == "and" || w == "because" || w == "wants" || w == "goes" || w == "take" || t.isImperative(b) || w == "for" || w == "like" || w == "in" && b > a+1) {
				break
			}
		}
		return b
	}
	switch w := t.norm(i); {
	case w == "way" || (w == "first" || w == "second" || w == "other" || w == "third") && wayNoun[t.norm(i+1)] || w == "the" && wayNoun[t.norm(i+2)] && (t.norm(i+1) == "first" || t.norm(i+1) == "second" || t.norm(i+1) == "other"):
		// "way number two, the steamer", "the second way is the oven"
		k := i + 1
		for k < s.Last && k < i+6 && (wayNoun[t.norm(k)] || wayStop[t.norm(k)] || t.numberAt(k) || t.norm(k) == "first" || t.norm(k) == "second") {
			k++
		}
		return name(k, end(k))
	case w == "if":
		k := i + 1
		for k < s.Last && k < i+7 && (wayStop[t.norm(k)] || youWe[t.norm(k)] || t.norm(k) == "using" || t.norm(k) == "having" || t.norm(k) == "doing" || t.norm(k) == "want" || t.norm(k) == "prefer" || t.norm(k) == "rather" || t.norm(k) == "go" || t.norm(k) == "chose" || t.norm(k) == "taking" || t.norm(k) == "making" || t.norm(k) == "baking" || t.norm(k) == "cooking") {
			k++
		}
		if !t.chooses(i+1, k) {
			return "", ""
		}
		if k >= s.Last || t.mentionAt[k] >= 0 && !t.mentions[t.mentionAt[k]].food.Dish && t.madeAt[k] == 0 {
			return "", ""
		}
		return name(k, end(k))
	case w == "for":
		k := i + 1
		e := end(k)
		// "for the hot one you take"; a bare "for the glaze" opens a part
		for b := k; b < e; b++ {
			if wayNoun[t.norm(b)] {
				return name(k, b+1)
			}
		}
		if e < s.Last && t.toks[e-1].After != 0 && t.component(k+1) == 0 && t.mentionAt[min(k+1, len(t.toks)-1)] < 0 {
			return name(k, e)
		}
		return "", ""
	case w == "do" && t.norm(i+1) == "the":
		return name(i+2, end(i+2))
	case w == "and" || w == "or":
		return "", ""
	}
	// a fragment: "Now the cold one.", "Skillet.", "So, boiled.", "Okay, hot."
	k := i
	for k < s.Last && (determiners[t.norm(k)] || articleLike[t.norm(k)]) {
		k++
	}
	e := end(k)
	if e-k > 4 || e <= k {
		return "", ""
	}
	close := e >= s.Last || t.toks[e-1].After != 0 && (e-s.First <= 5)
	hasNoun := false
	for b := k; b < e; b++ {
		hasNoun = hasNoun || wayNoun[t.norm(b)]
	}
	if t.mentionAt[k] >= 0 && !hasNoun && !t.mentions[t.mentionAt[k]].food.Dish {
		return "", ""
	}
	if hasNoun && t.quantityAt[k] < 0 && e-s.First <= 7 || close && t.actionAt[k] < 0 && s.Len() <= 9 && t.methodWord(k, e) {
		return name(k, e)
	}
	return "", ""
}

// chooses reports whether the words after "if" tell of a choice of method:
// "you're doing", "it's", "you want to", "you've gone for".
func (t *talk) chooses(a, b int) bool {
	for i := a; i < b; i++ {
		switch t.norm(i) {
		case "you're", "it's", "doing", "making", "using", "want", "prefer", "rather", "go", "going", "having", "chose", "taking", "baking", "cooking", "for":
			return true
		}
	}
	return false
}

// methodWord reports whether tokens [a, b) name a heat, an appliance or a
// state a dish is made in: "skillet", "boiled", "cold".
func (t *talk) methodWord(a, b int) bool {
	for i := a; i < b; i++ {
		w := t.norm(i)
		if determiners[w] || articleLike[w] || t.toks[i].Joined {
			continue
		}
		if x := t.toolAt[i]; x >= 0 {
			switch t.tools[x].eq.Kind {
			case "appliance", "heat", "pan", "oven-dish", "tin":
				continue
			}
			return false
		}
		switch w {
		case "hot", "cold", "warm", "raw", "oven", "stovetop", "microwave", "grill", "chilled", "frozen", "quick", "slow", "fast":
			continue
		}
		done := false
		for _, f := range t.lex.Verbs[w] {
			if f.Form == lexicon.Past && (f.Action.Kind == "heat" || f.Action.Kind == "shape" || f.Action.Kind == "rest") {
				done = true
			}
		}
		if !done && t.norm(i) != "pan" {
			return false
		}
	}
	return true
}

func (t *talk) numberAt(i int) bool {
	_, n := language.ReadNumber(t.toks, i)
	return n > 0
}

// isImperative reports whether a strong verb in its base form stands at i.
func (t *talk) isImperative(i int) bool {
	for _, f := range t.lex.Verbs[t.norm(i)] {
		if f.Form == lexicon.Base && !f.Action.Noun && !f.Action.Weak {
			return true
		}
	}
	return false
}

// wayName writes the name of a way from its words.
func (t *talk) wayName(a, b int, ws []string) string {
	if len(ws) == 2 {
		for k := a; k+1 < b; k++ {
			if t.toks[k+1].Joined && t.norm(k) == ws[0] {
				return strings.Join(ws, "-")
			}
		}
	}
	return strings.Join(ws, " ")
}

// wayOf gives the way open at token i, -1 for all.
func (t *talk) wayOf(i int) int {
	if n := sort.Search(len(t.ways), func(k int) bool { return t.ways[k].tok > i }); n > 0 {
		return t.ways[n-1].name
	}
	return -1
}
