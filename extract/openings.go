package extract

import (
	"strings"

	"quern/internal/language"
)

// Talk without marks is cut where a subject or an order begins. What a speaker says
// before it, "at this stage", "the first thing", "as soon as it's out", then hangs on to the
// sentence before, of which it tells nothing. Here the cut is moved in front of it.

// openings are the words with which a sentence is opened before its subject or its order,
// the longer before the shorter.
var openings = wordsOf("the very first thing", "the first thing", "the next thing", "the last thing", "the other thing", "the only thing", "first thing", "next thing", "last thing",
	"the next step", "the first step", "the last step", "next step", "at this stage", "at that stage", "at this point", "at that point", "in the meantime", "in the meanwhile",
	"after this", "after that", "from here", "from there", "go ahead and", "make sure", "be sure", "hi everyone", "hello everyone", "hi guys", "hey guys", "hi everybody",
	"of course", "by the way", "to be honest", "in my opinion", "this time", "in this time", "once again", "for this", "for that", "to do this", "to do that", "to start", "to begin with", "to finish",
	"to serve", "personally", "traditionally", "normally", "today", "tonight", "hopefully", "alternatively", "obviously", "basically")

// wordsOf gives the words of each phrase.
func wordsOf(list ...string) [][]string {
	out := make([][]string, len(list))
	for k, s := range list {
		out[k] = strings.Fields(s)
	}
	return out
}

// openingsBy are the openings by their last word.
var openingsBy = func() map[string][][]string {
	by := map[string][][]string{}
	for _, ws := range openings {
		last := ws[len(ws)-1]
		by[last] = append(by[last], ws)
	}
	return by
}()

// openingWords is how many words may stand from "as soon as" to the end of its clause.
const openingWords = 9

// takeOpenings moves the cuts between sentences in front of the words that open the
// second.
func (t *talk) takeOpenings(spans []language.Span) {
	for k := 1; k < len(spans); k++ {
		prev, s := &spans[k-1], &spans[k]
		if t.toks[prev.Last-1].After != 0 || t.toks[s.First].Pause {
			continue
		}
		at := prev.Last
		for n := t.openingBefore(prev.First, at); n > 0; n = t.openingBefore(prev.First, at) {
			at -= n
		}
		if at == prev.Last {
			continue
		}
		if t.norm(at-1) == "and" || t.norm(at-1) == "then" || t.norm(at-1) == "so" {
			at--
		}
		if at > prev.First {
			prev.Last, s.First = at, at
		}
	}
}

// openingBefore gives how many words before token b, of a sentence that begins at a, open
// what stands behind them.
func (t *talk) openingBefore(a, b int) int {
	for _, ws := range openingsBy[t.norm(b-1)] {
		if n := len(ws); b-n > a && t.row(b-n, ws) && !t.leadsOpening(b-n) {
			return n
		}
	}
	if subjects[t.norm(b)] || youWe[t.norm(b)] {
		for k := b - 3; k > a && k >= b-openingWords; k-- {
			if t.norm(k) == "as" && t.norm(k+1) == "soon" && t.norm(k+2) == "as" {
				return b - k
			}
			if openedBy[t.norm(k)] {
				break
			}
		}
	}
	return t.frontedBefore(a, b)
}

// leadsOpening reports whether the word before token i needs what stands at i: "to the
// first thing", "is after that".
func (t *talk) leadsOpening(i int) bool {
	w := t.norm(i - 1)
	return leadsNoun[w] && w != "and" && w != "over" && w != "off" || beVerb[w] || openedBy[w] && w != "so"
}

// frontedBefore gives the length of a thing named between a closed phrase and "you" or
// "we", who work on it: "... with a cloth | the water you pour on the flour".
func (t *talk) frontedBefore(a, b int) int {
	if w := t.norm(b); w != "you" && w != "we" {
		return 0
	}
	if v := t.baseVerb(b + 1); v == nil || light[v.Verb] || noWork[v.Verb] || v.Kind == "" {
		return 0
	}
	for k := b - 2; k > a && k >= b-3; k-- {
		if t.norm(k) != "the" {
			continue
		}
		w := t.norm(k - 1)
		if t.isNoun(t.norm(b-1)) && (t.isNoun(w) && !t.canBeVerb(w) || timeWord[w]) {
			return b - k
		}
		return 0
	}
	return 0
}

// joinFronted joins what is named alone to the sentence behind it in which somebody works on
// it: "the liquid | you don't throw away".
func (t *talk) joinFronted(spans []language.Span) []language.Span {
	out := spans[:0]
	for _, s := range spans {
		if n := len(out); n > 0 && t.namedAlone(out[n-1]) && fronting[t.norm(s.First)] && !t.toks[s.First].Pause {
			out[n-1].Last = s.Last
			continue
		}
		out = append(out, s)
	}
	return out
}

// fronting are subjects before which what they work on can stand.
var fronting = words("you we i you'll we'll i'll you'd i'd")

// namedAlone reports whether a sentence is one thing: "the liquid", "those seeds".
func (t *talk) namedAlone(s language.Span) bool {
	if n := s.Len(); n < 2 || n > 4 {
		return false
	}
	switch t.norm(s.First) {
	case "the", "these", "those":
	default:
		return false
	}
	for i := s.First; i < s.Last; i++ {
		if finites[t.norm(i)] || t.toks[i].After != 0 {
			return false
		}
	}
	return true
}
