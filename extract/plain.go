package extract

import (
	"strings"

	"quern/internal/lexicon"
)

// What is said to somebody who watches is put for somebody who reads: "turn her out" is
// "turn it out", "while I whisk" is "while whisking", "chop two onions here" leaves out
// where the camera looks.

var (
	// hands are parts of the cook that work.
	hands = words("hand hands finger fingers fingertips thumb thumbs palm palms knuckles fist")
	// fondly are words by which a thing is called as if it lived.
	fondly = words("guy guys fella fellas boy boys fellow baby babies puppy")
	// fromHere are words before "here" that make it a place or a time.
	fromHere = words("from in over up to out right is are of down on by")
	// amountOpens follow a verb's "you" where that means nobody: "leave you about two spoons".
	amountOpens = words("a an some about another two three four half")
)

// plainly puts what is said to a viewer as a reader has it.
func (e *edit) plainly() {
	t := e.t
	sign := false // in a sign of doneness
	for i := e.from; i < e.to; i++ {
		if i > e.from && t.toks[i-1].After != 0 {
			sign = false
		}
		w, next := t.norm(i), t.norm(i+1)
		sign = sign || untils[w]
		if !e.left(i) || t.mentionAt[i] >= 0 {
			continue
		}
		end := i+1 >= e.to || t.toks[i].After != 0
		last := end || joining[next] || next == "then"
		switch {
		case w == "here" && i > e.from && (last || next == "fairly" || strings.HasSuffix(next, "ly")) && !fromHere[t.norm(i-1)]:
			e.drop(i, i+1)
			if t.toks[i].After != 0 {
				e.pause(i - 1)
			}
		case w == "like" && i > e.from && shown[next] && (joining[t.norm(i+2)] || t.norm(i+2) == "then"):
			e.drop(i, i+2) // "smash it like this and put it in"
		case w == "you" && i == e.from && (amountOpens[next] || t.quantityAt[min(i+1, len(t.toks)-1)] >= 0):
			e.drop(i, i+1)
		case (w == "her" || w == "him") && i <= e.from+1 && (end || afterVerb[next]):
			e.put[i] = e.withMark(i, "it")
		case (w == "this" || w == "these" || w == "that" || w == "those") && !end && i+1 < e.to && e.fond(i) > 0:
			n := e.fond(i)
			pronoun := "it"
			if strings.HasSuffix(t.norm(i+n-1), "s") {
				pronoun = "them"
			}
			e.drop(i+1, i+n)
			e.put[i] = e.withMark(i+n-1, pronoun)
		case (w == "our" || w == "my") && hands[next]:
			e.put[i] = "your"
		case sign && w == "was":
			e.put[i] = "is"
		case sign && w == "were":
			e.put[i] = "are"
		case w == "while" && (t.in(aFirstHand, i+1) || next == "you" && !t.finite(i+2)):
			e.meanwhile(i)
		}
	}
}

// withMark gives a word with the comma that stood behind token i.
func (e *edit) withMark(i int, w string) string {
	if e.t.toks[i].After != 0 && i+1 < e.to {
		return w + ","
	}
	return w
}

// fond gives how many words from "this" at i call a thing as if it lived: "this bad boy".
func (e *edit) fond(i int) int {
	for k := i + 1; k < e.to && k < i+4 && e.t.toks[k-1].After == 0; k++ {
		if fondly[e.t.norm(k)] && e.t.mentionAt[k] < 0 && !e.t.mentionStarts(k+1) {
			return k + 1 - i
		}
	}
	return 0
}

// meanwhile writes what the cook does all the while, from "while" at i, without the cook:
// "while I whisk" is "while whisking". What is no work of the kitchen is left out.
func (e *edit) meanwhile(i int) {
	t := e.t
	k := i + 2
	for k < e.to && leadAdverbs[t.norm(k)] {
		k++
	}
	if strings.HasSuffix(t.norm(k), "ing") && len(t.verbs(k)) > 0 && k < e.to {
		e.drop(i+1, k) // "while I'm whisking"
		return
	}
	if v := t.baseVerb(k); v != nil && k < e.to && !light[v.Verb] {
		if g := t.gerund(t.norm(k), v); g != "" {
			e.drop(i+1, k)
			e.put[k] = e.withMark(k, g)
			return
		}
	}
	if t.norm(i+1) == "you" {
		return
	}
	end := i + 1
	for end < e.to && t.toks[end-1].After == 0 && !joining[t.norm(end)] {
		end++
	}
	e.drop(i, end)
}

// gerund gives the form of a verb in "ing", "" where the tables have none.
func (t *talk) gerund(base string, v *lexicon.Action) string {
	if base == "" {
		return ""
	}
	short := strings.TrimSuffix(base, "e")
	for _, g := range []string{short + "ing", base + "ing", base + base[len(base)-1:] + "ing"} {
		for _, f := range t.lex.Verbs(g) {
			if f.Form == lexicon.Ing && f.Action == v {
				return g
			}
		}
	}
	return ""
}
