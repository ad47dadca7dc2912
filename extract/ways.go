package extract

import (
	"strings"

	"quern/internal/language"
)

// wayMark opens one of several methods at a token; name -1 closes it.
type wayMark struct {
	tok  int
	name int
}

// choiceCues announce that there is more than one method.
var choiceCues = []string{"two ways", "both ways", "either way", "three ways", "one of two ways", "two methods", "couple of ways", "couple ways", "different ways", "other way", "two roads", "two versions", "you're getting both", "getting both",
	"whichever way", "either one", "two options", "can't agree on how", "road forks", "your choice", "two different ways", "ways to cook", "ways to do", "ways of doing", "both versions", "two paths", "another way", "which way"}

// wayNoun are heads of "the cold one", "the oven method".
var wayNoun = words("one ones way method version option route style people person crowd lot kind sort road man woman")

// markWays finds alternative methods and where each is told.
func (t *talk) markWays() {
	cue := t.has(0, len(t.toks), choiceCues...)
	if cue < 0 {
		return
	}
	cands := t.wayCandidates()
	if len(cands) < 2 {
		return
	}
	for k := range t.sents {
		s := &t.sents[k]
		if s.kind == storing || s.kind == figures {
			continue
		}
		if w := t.wayHead(s, cands); w >= 0 {
			if len(t.ways) == 0 && s.First < len(t.toks)/6 {
				continue // the announcement, not yet the telling
			}
			t.ways = append(t.ways, wayMark{tok: s.First, name: w})
			continue
		}
		// what follows belongs to all again: "for the icing", "and brush that on the second they're cooked, oven ones, skillet ones"
		if len(t.ways) > 0 && t.ways[len(t.ways)-1].name >= 0 {
			if _, _, ok := t.partHead(s); ok && s.kind != aside || t.allWays(s, cands) {
				t.ways = append(t.ways, wayMark{tok: s.First, name: -1})
			}
		}
	}
	seen := map[int]bool{}
	for _, w := range t.ways {
		if w.name >= 0 {
			seen[w.name] = true
		}
	}
	if len(seen) < 2 {
		t.ways = nil
		return
	}
	// keep only ways that are told, in order of telling
	index := map[int]int{}
	for i := range t.ways {
		n := t.ways[i].name
		if n < 0 {
			continue
		}
		if _, ok := index[n]; !ok {
			index[n] = len(t.wayNames)
			t.wayNames = append(t.wayNames, cands[n])
		}
		t.ways[i].name = index[n]
	}
}

// allWays reports whether the sentence speaks of every way at once.
func (t *talk) allWays(s *sentence, cands []string) bool {
	n := 0
	for _, c := range cands {
		if t.has(s.First, s.Last, c) >= 0 {
			n++
		}
	}
	return n >= 2 || t.has(s.First, s.Last, "either way", "both of them", "whichever", "both ways", "no matter which") >= 0
}

// wayCandidates collects the names of methods: words before "one", "way",
// "version"; the vessel or heat each is done with.
func (t *talk) wayCandidates() []string {
	counts := map[string]int{}
	var order []string
	add := func(w string, n int) {
		w = strings.TrimSpace(w)
		if w == "" || plainWord[w] {
			return
		}
		if counts[w] == 0 {
			order = append(order, w)
		}
		counts[w] += n
	}
	for i := range t.toks {
		w := t.norm(i)
		switch {
		case (w == "one" || w == "ones" || w == "version" || w == "method" || w == "way") && i >= 2 && t.toks[i-1].After == 0 && (t.norm(i-2) == "the" || w == "ones" || t.norm(i-2) == "a"):
			if p := t.norm(i - 1); t.wayWord(i - 1) {
				add(p, 2)
			}
		case (w == "doing" || w == "making" || w == "using" || w == "choosing" || w == "taking") && (t.norm(i-1) == "you're" || t.norm(i-1) == "are" || t.norm(i-1) == "we're") && t.has(max(0, i-3), i, "if") >= 0:
			k := i + 1
			for t.norm(k) == "the" || t.norm(k) == "it" || t.norm(k) == "a" || t.norm(k) == "them" || t.norm(k) == "in" || t.norm(k) == "your" {
				k++
			}
			if t.wayWord(k) || t.madeAt[k] > 0 || t.toolAt[k] >= 0 {
				add(t.norm(k), 2)
			}
		case (w == "a" || w == "an") && t.norm(i-1) == "you're" && i >= 2 && (t.norm(i-2) == "if" || t.has(max(0, i-5), i, "if") >= 0):
			// "if you're a hand-shaper"
			if i+2 < len(t.toks) && t.toks[i+2].Joined {
				add(t.phrase(i+1, i+3), 2)
			}
		}
		if tl := t.toolAt[i]; tl >= 0 && t.tools[tl].First <= i && wayTool[t.tools[tl].eq.Name] {
			add(t.tools[tl].eq.Name, 1)
		}
		if w == "oven" || w == "microwave" || w == "stovetop" || w == "grill" || w == "raw" || w == "baked" || w == "cold" && t.norm(i-1) == "it" || w == "hot" && t.norm(i-1) == "it" {
			add(w, 1)
		}
	}
	var out []string
	for _, w := range order {
		if counts[w] >= 2 {
			out = append(out, w)
		}
	}
	return out
}

var wayTool = words("oven skillet microwave grill barbecue wok")

var plainWord = words("other same good big small first second last only little right best whole next real main old new nice quick easy one that this which each bad sesame long thick new-one wrong bigger smaller better spare lucky")

// wayWord reports whether a word can name a method: not a food size or number.
func (t *talk) wayWord(i int) bool {
	w := t.norm(i)
	if plainWord[w] || t.quantityAt[i] >= 0 || determiners[w] || w == "" {
		return false
	}
	return t.mentionAt[i] < 0
}

// wayHead tells which way a sentence turns to.
func (t *talk) wayHead(s *sentence, cands []string) int {
	if t.allWays(s, cands) {
		return -1
	}
	lead := min(s.Last, s.First+12)
	for w, c := range cands {
		ws := strings.Fields(c)
		i := t.has(s.First, lead, c)
		if i < 0 {
			continue
		}
		before := t.norm(i - 1)
		after := t.norm(i + len(ws))
		switch {
		case wayNoun[after] && (before == "the" || before == "a"):
			return w
		case t.has(s.First, i, "if you're", "if you are", "for the", "go on", "my turn", "if you want", "if you") >= 0 && i-s.First <= 7:
			return w
		case s.Len() <= 4 || i == s.First && t.toks[i+len(ws)-1].After != 0 && s.Len() <= 6:
			return w
		case t.headOnly(s, i, i+len(ws)):
			return w
		}
	}
	return -1
}

// headOnly reports whether only opening words stand before the name and a
// mark behind: "Okay, hot."
func (t *talk) headOnly(s *sentence, a, b int) bool {
	for k := s.First; k < a; k++ {
		if !headWords[t.norm(k)] && t.norm(k) != "the" && t.norm(k) != "my" && t.norm(k) != "turn" {
			return false
		}
	}
	return t.toks[b-1].After&language.Comma == 0 && t.toks[b-1].After != 0
}

// wayOf gives the way open at token i, -1 for all.
func (t *talk) wayOf(i int) int {
	w := -1
	for _, m := range t.ways {
		if m.tok > i {
			break
		}
		w = m.name
	}
	return w
}
